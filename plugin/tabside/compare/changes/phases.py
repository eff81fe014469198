"""A motor whose wires change places at its driver: two of them exchanged turn it the other way.

Common practice, no source: of a three-phase motor the order of its wires sets the direction and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.what_part import is_another
from tabside.compare.side import Side, another_board
from tabside.model.craft import ContactKey
from tabside.model.roles import RoleClass

_PHASES = 3
_SEEN = "see it at the first run, propeller off, wheel off the ground."
_OTHER_WAY = "Its motor turns the other way now, since two of its wires are swapped:"
_SAME_WAY = "Its motor turns the same way as before, since all three of its wires went on by one:"
_NOT_KNOWN = "Which way its motor turns is not known before it runs:"
Meets = Mapping[str, Iterable[tuple[str, ContactKey, int]]]  # reference -> own contact, what it meets, through how many


def is_phase(side: Side, key: ContactKey) -> bool:
    """Whether the contact is one of a motor's, or of its driver's for one."""
    return side.craft.contact(key).role.cls is RoleClass.PHASE


def direction_words(rebuild: Rebuild, now: str, meets: tuple[Meets, Meets]) -> str:
    """Which way the motor at a port turns, as far as the drawings tell; "" where its wires are where they were.

    `now`: the port's termination in the new drawing; `meets`: what each meets in the old drawing and in the new one.
    """
    old, new, matching = rebuild
    backs = {to: reference for reference, to in matching.pairs.items()}
    before, after = _phases(old, meets[0], backs.get(now, "")), _phases(new, meets[1], now)
    was = {number: matching.key(far) for number, far in before.items()}
    if not before or not after or was == after:
        return ""
    places = {now, *(far[0] for far in after.values())}
    same = places <= backs.keys() and not any(_is_other(old, new, backs[ref], ref) for ref in places)
    alike = was.keys() == after.keys() and set(was.values()) == set(after.values())
    if not (same and alike) or len(places) > 2 or len(set(after.values())) != _PHASES:
        return f"{_NOT_KNOWN} {_SEEN}"
    stay = sum(was[number] == after[number] for number in after)
    return f"{_OTHER_WAY if stay == 1 else _SAME_WAY} {_SEEN}"


def _phases(side: Side, meets: Meets, reference: str) -> dict[str, ContactKey]:
    """Own phase contact -> the one that it meets."""
    met = meets.get(reference, ())
    return {number: far for number, far, _ in met if is_phase(side, (reference, number)) and is_phase(side, far)}


def _is_other(old: Side, new: Side, was: str, now: str) -> bool:
    before, after = old.terminations[was], new.terminations[now]
    labels = [[(contact.number, contact.label) for contact in part.contacts] for part in (before, after)]
    return another_board(old, new, was, now) or is_another(before, after) or labels[0] != labels[1]
