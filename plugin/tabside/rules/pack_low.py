"""A pack that runs down below what an input needs."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.supply_agreement import is_nominal
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Volts
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("under-voltage", severity=Severity.WARNING)
def pack_low(judgement: Judgement) -> Iterator[Finding]:
    """The pack holds an input's volts for most of its charge.  (Never reaching them at all is an error, told as such.)

    A pack runs down: an input that works on a full pack stops in the middle of the run.  Example: an input from 14
    V on a 4S pack, which ends at 12 V.

    Fix: use a pack of more cells, or state the cut-off voltage (volts) in the craft file.
    Accept: where the craft lands before that.
    Passes: a 4S pack on an input from 9 V; an input of 14.8 V, which is what 4S packs are sold by.
    Warns: an input that needs more than the middle of the pack's range.
    Notes: an input that needs more than the pack has when it is empty.
    Source: volts by cell, guides to lithium packs (trade pages).
    """
    found: dict[tuple[Severity, Volts], list[Contact]] = {}
    for joint, outcome in judgement.outcomes.items():
        if not outcome.agrees:
            continue
        for source, need in ((joint.a, joint.b), (joint.b, joint.a)):
            pack = _pack(judgement, source) if need.takes else None
            if pack is None:
                continue
            low = min((rail.volts.low for rail in need.takes if rail.volts is not None), default=None)
            if low is None or low <= pack.low + 1e-9 or low > pack.high:
                continue
            if any(rail.battery or is_nominal(rail.volts, pack) for rail in need.takes):
                continue  # stated by cells, or by what such a pack is sold by: it is made for it
            severity = Severity.WARNING if low > (pack.low + pack.high) / 2 else Severity.NOTE
            found.setdefault((severity, pack), []).append(need)
    for (severity, pack), contacts in found.items():
        names = [name_of(judgement.craft, contact) for contact in contacts]
        needs = {rail.text for contact in contacts for rail in contact.takes if rail.volts is not None}
        verb = "needs" if len(names) == 1 else "need"
        yield Finding(
            rule="under-voltage",
            severity=severity,
            message=f"{listed(names)} {verb} {listed(sorted(needs), 3)}; the battery falls from {pack.high:g} V"
            f" full to {pack.low:g} V empty.",
            fix="Use a pack with more cells, or set the cut-off voltage in the craft file (volts); or correct Takes.",
            where=at_contacts(judgement.craft, contacts),
            harm=harm.TOO_FEW_VOLTS,
        )


def _pack(judgement: Judgement, source: Contact) -> Volts | None:
    if not source.role.battery or source.takes:
        return None
    stated = next((rail.volts for rail in source.gives if rail.battery and rail.volts is not None), None)
    return stated or judgement.pack
