"""Parts that Tabside has no word for, and parts that are not fitted: counted and named, never dropped in silence."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Sequence, Set

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.supplies import REGULATOR_PINS
from tabside.facts.cells import PackTextError, read_pack_value
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Craft, Part, PartPin, Termination
from tabside.model.findings import Finding, Severity, Where
from tabside.model.roles import RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import counted, listed

_CELLS = re.compile(r"(?<!\w)\d{1,2}S(?!\w)|LI-?(?:PO|ION|FE)|BATT?ERY", re.IGNORECASE)
_FIX = "If it is a board or has leads of its own, give its symbol (or its sheet) a field Board"


@check("part-unread", severity=Severity.WARNING)
def part_unread(judgement: Judgement) -> Iterator[Finding]:
    """Tabside knows what every symbol is that wires meet.

    What goes through an unknown part is not followed: a fault behind it would not be found.  Example: a transistor
    that switches the lamp's ground.

    Fix: give a board, or a part with leads of its own, the field Board; of another part see by hand what it does.
    Accept: a part whose effect on the wires you have looked at.
    Passes: what has a field Board, Kind or Family; connectors, pads, fuses, switches, relays with numbered contacts,
    capacitors and resistors on a net, batteries; a plain motor, fan, lamp, buzzer or loudspeaker.
    Warns: a transistor, a relay whose pins bear no contact numbers, a module without a field Board, where wires meet
    it: what it passes on is not checked.  Where its pins are called as a board's, a supply and a ground among them,
    the verdict is "not decided".
    Notes: the same on nets of its own.
    Source: logic.
    """
    craft = judgement.craft
    ends = [termination for termination in craft.terminations.values() if termination.unread]
    parts = [part for part in craft.parts if part.unread]
    shared = _shared_nets(craft, parts)
    met = [part for part in parts if part.meets_leads or any(pin.net_id in shared for pin in part.pins)]
    power = {part.reference: len(_power_pins(part, shared)) for part in met}
    boards = [part for part in met if power[part.reference]]
    if boards:
        yield _like_boards(craft, boards, sum(power.values()))
    others: list[Termination | Part] = [*ends, *(part for part in met if part not in boards)]
    for some, severity in ((others, Severity.WARNING), ([part for part in parts if part not in met], Severity.NOTE)):
        if some:
            meets = "wires meet" if severity is Severity.WARNING else "no wire meets"
            yield Finding(
                rule="part-unread",
                severity=severity,
                message=f"Tabside has no word for {counted(len(some), 'part')} that {meets}: {_names(some)}."
                " What passes through it is not checked.",
                fix=f"{_FIX}; else see by hand what it does to the wires.",
                where=_where(craft, some),
                harm=harm.DRAWING,
            )


def _like_boards(craft: Craft, boards: Sequence[Part], wires: int) -> Finding:
    """Symbols without a field of ours whose pins are called as a board's or a battery's: none of it is checked."""
    return Finding(
        rule="part-unread",
        severity=Severity.WARNING,
        message=f"Wires meet {_names(boards)}: by Value or pin names a board, a module or a battery, and no field says"
        " so. What is wired there is not checked, and no wire is planned.",
        fix=f"{_FIX}; give a battery the letters BT or Kind captive.",
        where=_where(craft, boards),
        harm=harm.UNDECIDED,
        undecided=wires,
    )


def _shared_nets(craft: Craft, parts: Sequence[Part]) -> frozenset[int]:
    """Nets on which something is besides one part that nobody knows."""
    on_net = Counter(net for part in parts for net in {pin.net_id for pin in part.pins})
    wired = {contact.net_id for termination in craft.terminations.values() for contact in termination.contacts}
    return frozenset(wired | {net for net, count in on_net.items() if count > 1})


def _power_pins(part: Part, shared: Collection[int]) -> list[PartPin]:
    """Its pins of power that something else meets, when names or Value say that it has a supply and a ground."""
    if _is_pack(part.value):
        return [pin for pin in part.pins if pin.net_id in shared]
    names = {pin.name.upper() for pin in part.pins}
    classes = {pin.number: _class_of(pin, names) for pin in part.pins}
    if not {RoleClass.SUPPLY, RoleClass.GROUND} <= set(classes.values()):
        return []
    power = [pin for pin in part.pins if classes[pin.number] in (RoleClass.SUPPLY, RoleClass.GROUND)]
    return [pin for pin in power if pin.net_id in shared]


def _class_of(pin: PartPin, names: Set[str]) -> RoleClass:
    """What a pin is by its name; of a regulator VI and VO are no video, and -Vin beside +Vin is its ground.

    `names`: of all pins of its part.
    """
    name = pin.name.upper()
    if name in REGULATOR_PINS and names >= REGULATOR_PINS:
        return RoleClass.SUPPLY
    if name.startswith("-") and f"+{name[1:]}" in names:
        return RoleClass.GROUND
    return read_label(pin.name).cls


def _is_pack(value: str) -> bool:
    """Whether a Value says cells: "4S LiPo"."""
    try:
        return read_pack_value(value) is not None and _CELLS.search(value) is not None
    except PackTextError:
        return True


@check("not-fitted", severity=Severity.WARNING)
def not_fitted(judgement: Judgement) -> Iterator[Finding]:
    """A part that the drawing marks as not fitted (DNP) gets no wire, and is named.

    A part marked as not fitted is no part of this craft: its wires are not made.  A mark that was forgotten leaves a
    board without them.  Example: a fuse marked DNP for the bench.

    Fix: take the mark away (Properties, Do not populate) if the part is to be built in.
    Accept: a part that is left out on purpose.
    Notes: the parts that are left out.
    Warns: a fuse, switch or jumper that is not fitted and whose wires part there: what lies behind is not fed.
    Source: logic.
    """
    out = [part for part in judgement.craft.parts if part.dnp]
    for some, severity in (
        ([part for part in out if part.cuts_run], Severity.WARNING),
        ([part for part in out if not part.cuts_run], Severity.NOTE),
    ):
        if some:
            what = "no wire ends on it" if len(some) == 1 else "no wire ends on them"
            what = "the wires on its two sides are not connected" if severity is Severity.WARNING else what
            yield Finding(
                rule="not-fitted",
                severity=severity,
                message=f"Marked as not fitted (DNP): {_names(some)}; {what}.",
                fix="Take the mark away in KiCad (Properties, Do not populate) if it is to be built in.",
                where=_where(judgement.craft, some),
                harm=harm.DRAWING,
            )


def _names(some: Sequence[Termination | Part]) -> str:
    return listed([f"{part.reference} ({part.value})" if part.value else part.reference for part in some])


def _where(craft: Craft, some: Sequence[Termination | Part]) -> tuple[Where, ...]:
    return tuple(
        Where(
            board=craft.terminations[part.reference].board if part.reference in craft.terminations else None,
            termination=part.reference,
            place=part.place,
        )
        for part in some
    )
