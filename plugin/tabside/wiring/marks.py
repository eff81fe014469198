"""Marks of leads (`W1`) and cables (`C1`): those stamped in the drawing are kept, the others get the free numbers.

Stamped marks stand in fields of terminations: `Lead marks` = "1:W3 2:W4", `Cable mark` = "C2".
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from ..model.craft import ContactKey, Oddity, Termination
from .fields import Fields
from .lead_tree import LeadEnds

LEAD_MARKS = "lead marks"
CABLE_MARK = "cable mark"
_STAMP = re.compile(r"([^\s:,;]+):(W[1-9]\d{0,6})\Z")
_CABLE = re.compile(r"C[1-9]\d{0,6}\Z")


def stamped_lead_marks(
    terminations: Mapping[str, Termination],
) -> tuple[dict[ContactKey, list[str]], list[Oddity]]:
    """The marks stamped at each contact, and what could not be read."""
    found: dict[ContactKey, list[str]] = {}
    oddities = []
    for termination in terminations.values():
        for word in re.split(r"[\s,;]+", Fields(termination.fields).text(LEAD_MARKS)):
            match = _STAMP.match(word)
            if match:
                found.setdefault((termination.reference, match[1]), []).append(match[2])
            elif word:
                message = f'{termination.reference}: Lead marks has "{word}"; write "1:W3 2:W4"'
                oddities.append(Oddity("field", termination.reference, message, termination.place))
    return found, oddities


def stamped_cable_marks(terminations: Mapping[str, Termination]) -> tuple[dict[str, str], list[Oddity]]:
    """The cable mark stamped at each termination, and what could not be read."""
    found, oddities = {}, []
    for termination in terminations.values():
        text = Fields(termination.fields).text(CABLE_MARK)
        if _CABLE.match(text):
            found[termination.reference] = text
        elif text:
            message = f'{termination.reference}: Cable mark is "{text}"; write for example C2'
            oddities.append(Oddity("field", termination.reference, message, termination.place))
    return found, oddities


def mark_leads(leads: Sequence[LeadEnds], stamped: Mapping[ContactKey, Sequence[str]]) -> list[str]:
    """A mark for each lead, which come in natural order.

    A stamp counts when both ends have it; else, of those that no lead has at both ends, when it is the only one at
    one end and the other has none.  A mark that is stamped at two leads stays with the first; marks that stand in the
    drawing are never given to another lead.
    """
    at_both = [_at_both(ends, stamped) for ends in leads]
    claimed = set(at_both)
    known = [mark or _at_one(ends, stamped, claimed) for ends, mark in zip(leads, at_both, strict=True)]
    return _filled("W", known, {mark for marks in stamped.values() for mark in marks})


def mark_cables(cables: Sequence[Iterable[str]], stamped: Mapping[str, str]) -> list[str]:
    """A mark for each cable, given by the references of the plugs that it has, in natural order."""
    known = [next((stamped[each] for each in plugs if each in stamped), None) for plugs in cables]
    return _filled("C", known, set(stamped.values()))


def mark_number(mark: str) -> int:
    """W12 -> 12: a sort key."""
    return int(mark[1:])


def _at_both(ends: LeadEnds, stamped: Mapping[ContactKey, Sequence[str]]) -> str | None:
    a, b = (stamped.get(end, ()) for end in ends)
    return next((mark for mark in a if mark in b), None)


def _at_one(ends: LeadEnds, stamped: Mapping[ContactKey, Sequence[str]], claimed: set[str | None]) -> str | None:
    found = [mark for end in ends for mark in stamped.get(end, ()) if mark not in claimed]
    return found[0] if len(found) == 1 else None


def _filled(letter: str, known: Sequence[str | None], reserved: set[str]) -> list[str]:
    given: set[str] = set()
    numbers = _free_numbers(letter, reserved)
    marks = []
    for mark in known:
        if mark is None or mark in given:
            mark = next(numbers)
        given.add(mark)
        marks.append(mark)
    return marks


def _free_numbers(letter: str, reserved: set[str]) -> Iterator[str]:
    number = 0
    while True:
        number += 1
        if f"{letter}{number}" not in reserved:
            yield f"{letter}{number}"
