"""Drawings that KiCad 9 and KiCad 10 read differently."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.model.craft import Craft
from tabside.model.drawing import TwoReadings
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check

_FIX = (
    "Draw it so that both read the same (plain names in buses, every part annotated, one number a pin), or say with "
    "--kicad 9 or --kicad 10 whose reading counts."
)
_MOST = 12  # findings; what follows is counted in the last one


@check("kicad-differs", severity=Severity.WARNING)
def kicad_differs(judgement: Judgement) -> Iterator[Finding]:
    """KiCad 9 and KiCad 10 make different nets of the same files: whoever opens them in the other sees another craft.

    The same file makes other nets in another version of KiCad: who opens it there builds another craft.  Example: a
    label that touches a wire's end in one version and not in the other.

    Fix: move or redraw the place that is named, so that both read it alike.
    Accept: where everybody who works on the craft uses one version.
    Passes: drawings that both read alike, and drawings in KiCad 10's format, which KiCad 9 cannot open.
    Warns: a bus `SWD{~{RESET} CLK}` whose overbar KiCad 9 drops from the member's name; a part that was copied in and
    has no reference stored for its sheet; a pin number `[1-3]`, which is three pins to KiCad 10.
    Source: both KiCads, 9.0.8 and 10.0.7, run on the same files.
    """
    craft = judgement.craft
    readings = craft.two_readings
    for number, reading in enumerate(readings[:_MOST], 1):
        more = len(readings) - number if number == _MOST else 0
        yield _finding(craft, reading, f" ({more} more of this kind.)" if more else "")


def _finding(craft: Craft, reading: TwoReadings, more: str) -> Finding:
    termination = craft.terminations.get(reading.reference)
    is_contact = termination is not None and any(contact.number == reading.pin for contact in termination.contacts)
    return Finding(
        rule="kicad-differs",
        severity=Severity.WARNING,
        message=f"{reading.words}{more}",
        fix=_FIX,
        where=(
            Where(
                board=termination.board if termination else None,
                termination=reading.reference,
                contact=reading.pin if is_contact else None,
                place=reading.place,
            ),
        ),
        harm=harm.DRAWING,
    )
