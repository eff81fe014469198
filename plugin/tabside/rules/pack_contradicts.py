"""A battery in the craft file that is not the one of the drawing."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.packs import PackLeads
from tabside.analysis.places import at_contacts
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Kind
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Volts
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

TOLERANCE = 0.05  # of the full pack's volts: a pack charged higher is still the same cells; common practice, no source


@check("fields-contradict", severity=Severity.WARNING)
def pack_contradicts(judgement: Judgement) -> Iterator[Finding]:
    """The craft file and the drawing speak of the same battery.

    Whichever of the two is wrong, some input is held against the wrong volts.  Each run is checked by the pack that
    feeds it in the drawing.  Example: battery = "4S" in the craft file, and a pack that states Gives "6S 60A".

    Fix: correct the craft file or the pack's Gives.
    Accept: a second pack that feeds no part of what the craft file means.
    Passes: the same cells in other words; a pack that states nothing; a craft file without a battery; a solar panel,
    a regulator or an adapter with leads of its own that meets no battery contact, beside the pack that is meant.
    Warns: another number of cells, or other volts.
    Source: logic.
    """
    said = judgement.craft.settings.battery
    if said is None:
        return
    packs = judgement.packs
    other = [pack for pack in packs.leads if not _is(pack.volts, said) and pack.plus.key not in packs.in_series]
    if len(other) < len(packs.leads):
        other = [pack for pack in other if _meets_battery(judgement, pack)]
    if other:
        names = [f"{name_of(judgement.craft, pack.plus)} ({pack.volts})" for pack in other]
        yield Finding(
            rule="fields-contradict",
            severity=Severity.WARNING,
            message=f"The craft file's battery reaches {said}, and the drawing has another: {listed(names)}.",
            fix="Correct battery (or volts) in the craft file, or Gives at the pack.",
            where=at_contacts(judgement.craft, [pack.plus for pack in other]),
            harm=harm.TOO_FEW_VOLTS,
        )


def _is(volts: Volts | None, said: Volts) -> bool:
    """Whether a pack may be the one that the craft file means."""
    return volts is None or abs(volts.high - said.high) <= TOLERANCE * said.high


def _meets_battery(judgement: Judgement, pack: PackLeads) -> bool:
    """Whether its plus is a battery's by its own name, or by that of a board's contact on its run."""
    if read_label(pack.plus.label).battery:
        return True
    terminations = judgement.craft.terminations
    return any(
        contact.role.battery and terminations[contact.termination].kind not in (Kind.INLINE, Kind.SPLICE)
        for contact in judgement.whole_members[judgement.whole_runs[pack.plus.net_id]]
        if contact.termination != pack.plus.termination
    )
