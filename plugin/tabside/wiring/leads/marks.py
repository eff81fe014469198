"""Marks of leads (`W1`) and cables (`C1`): those stamped in the drawing are kept, the others are numbered on.

Stamped marks stand in fields of terminations: `Lead marks` = "1:W3 2:W4", `Cable mark` = "C2".
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from tabside.model.craft import ContactKey, Oddity, Termination
from tabside.wiring.leads.lead_tree import LeadEnds, contact_order
from tabside.wiring.terminations.fields import text_of

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
        for word in re.split(r"[\s,;]+", text_of(termination.fields, LEAD_MARKS)):
            match = _STAMP.match(word)
            if match:
                found.setdefault((termination.reference, match[1]), []).append(match[2])
            elif word:
                message = f'{termination.reference}: Lead marks has "{word}"; write "1:W3 2:W4"'
                oddities.append(Oddity("field", termination.reference, message, termination.place, LEAD_MARKS))
    return found, oddities


def stamped_cable_marks(terminations: Mapping[str, Termination]) -> tuple[dict[str, str], list[Oddity]]:
    """The cable mark stamped at each termination, and what could not be read."""
    found, oddities = {}, []
    for termination in terminations.values():
        text = text_of(termination.fields, CABLE_MARK)
        if _CABLE.match(text):
            found[termination.reference] = text
        elif text:
            message = f'{termination.reference}: Cable mark is "{text}"; write for example C2'
            oddities.append(Oddity("field", termination.reference, message, termination.place, CABLE_MARK))
    return found, oddities


def mark_leads(leads: Sequence[LeadEnds], stamped: Mapping[ContactKey, Sequence[str]]) -> list[str]:
    """A mark for each lead, which come in natural order.

    A lead has the stamp of both its ends, when no other lead has it too; else the one stamp of one of its ends that
    stands nowhere else.  All others get numbers above those that stand in the drawing: a number that was given up is
    on some flag still.
    """
    if not stamped:
        return _filled("W", [None] * len(leads), set())
    places = _places(stamped)
    wanting = Counter(mark for ends in leads for mark in _at_both(ends, stamped))
    pairs = Counter(leads)
    known: list[str | None] = []
    taken: set[str] = set()
    for ends in leads:
        own = [mark for mark in _at_both(ends, stamped) if wanting[mark] == pairs[ends] and mark not in taken]
        alone = [mark for end in ends for mark in stamped.get(end, ()) if places[mark] == {end} and mark not in taken]
        found = own[:1] or (alone if len(alone) == 1 and not _at_both(ends, stamped) else [])
        taken.update(found)
        known.append(found[0] if found else None)
    return _filled("W", known, set(places))


def mark_cables(cables: Sequence[Iterable[str]], stamped: Mapping[str, str]) -> list[str]:
    """A mark for each cable, given by the references of the plugs that it has, in natural order.

    A cable has the stamp that all its plugs carry, when no other cable has it too; else a stamp that stands at some of
    its plugs and at no other.
    """
    plugs_of = [set(plugs) for plugs in cables]
    places: dict[str, set[str]] = {}
    for plug, mark in stamped.items():
        places.setdefault(mark, set()).add(plug)
    whole = Counter(stamped[next(iter(plugs))] for plugs in plugs_of if _all_alike(plugs, stamped))
    known: list[str | None] = []
    for plugs in plugs_of:
        marks = {stamped[plug] for plug in plugs if plug in stamped}
        one = next(iter(marks)) if len(marks) == 1 else None
        mine = one is not None and (
            (plugs <= places[one] and whole[one] == 1) or (places[one] <= plugs and not whole[one] > 1)
        )
        known.append(one if mine else None)
    return _filled("C", known, set(places))


def _all_alike(plugs: set[str], stamped: Mapping[str, str]) -> bool:
    """Whether all plugs of a cable carry one mark."""
    marks = {stamped.get(plug) for plug in plugs}
    return len(marks) == 1 and None not in marks


def doubled(stamped: Mapping[ContactKey, Sequence[str]], terminations: Mapping[str, Termination]) -> list[Oddity]:
    """Lead marks that stand at more than two contacts: a stamped symbol was copied."""
    oddities = []
    for mark, contacts in _places(stamped).items():
        if len(contacts) > 2:
            named = sorted(contacts, key=contact_order)
            where = ", ".join(":".join(contact) for contact in named)
            last = named[-1][0]
            message = f"{mark} is stamped at {where}: a symbol was copied; empty the field Lead marks of the copy"
            oddities.append(Oddity("copied", last, message, terminations[last].place, LEAD_MARKS))
    return oddities


def doubled_cables(
    cables: Sequence[Iterable[str]], stamped: Mapping[str, str], terminations: Mapping[str, Termination]
) -> list[Oddity]:
    """Cable marks that stand at plugs of more than one cable."""
    found: dict[str, dict[int, str]] = {}
    for number, plugs in enumerate(cables):
        for plug in plugs:
            if plug in stamped:
                found.setdefault(stamped[plug], {})[number] = plug
    return [
        Oddity(
            "field",
            max(plugs.values(), key=lambda plug: contact_order((plug, ""))),
            f"{mark} is stamped at plugs of {len(plugs)} cables ({', '.join(plugs.values())}): `tabside stamp` numbers "
            "them again; look at the labels on the bench",
            terminations[max(plugs.values(), key=lambda plug: contact_order((plug, "")))].place,
            CABLE_MARK,
        )
        for mark, plugs in found.items()
        if len(plugs) > 1
    ]


def mark_number(mark: str) -> int:
    """W12 -> 12: a sort key."""
    return int(mark[1:])


def _at_both(ends: LeadEnds, stamped: Mapping[ContactKey, Sequence[str]]) -> list[str]:
    a, b = (stamped.get(end, ()) for end in ends)
    return [mark for mark in dict.fromkeys(a) if mark in b]


def _places(stamped: Mapping[ContactKey, Sequence[str]]) -> dict[str, set[ContactKey]]:
    places: dict[str, set[ContactKey]] = {}
    for contact, marks in stamped.items():
        for mark in marks:
            places.setdefault(mark, set()).add(contact)
    return places


def _filled(letter: str, known: Sequence[str | None], reserved: set[str]) -> list[str]:
    """The marks that are not known are numbered on, above all that stand in the drawing."""
    next_number = max((mark_number(mark) for mark in reserved), default=0)
    marks = []
    for mark in known:
        if mark is None:
            next_number += 1
            mark = f"{letter}{next_number}"
        marks.append(mark)
    return marks
