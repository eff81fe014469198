"""A battery in the craft file that is not the one of the drawing."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.findings import Finding, Severity
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
    Passes: the same cells in other words; a pack that states nothing; a craft file without a battery.
    Warns: another number of cells, or other volts.
    Source: logic.
    """
    said = judgement.craft.settings.battery
    if said is None:
        return
    other = [
        pack
        for pack in judgement.packs.leads
        if pack.volts is not None
        and abs(pack.volts.high - said.high) > TOLERANCE * said.high
        and pack.plus.key not in judgement.packs.in_series
    ]
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
