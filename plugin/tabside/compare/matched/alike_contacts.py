"""Contacts that are alike: all of a splice, both of a fuse or a switch; and a part's own wires, known by their names.

Which of them is called 1 is the drawing's business: a symbol that was turned round is the same build.  No number stands
on a part's own wire: it is the red one, the plus, the phase A, wherever the drawing lists it; in a plug that goes in as
it is the cavities have numbers.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from tabside.compare.matched.matching import Matching
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.matched.renumbered import Numbers, renumbered
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.model.craft import ContactKey, Craft, Kind, Termination

# Parts that do not mind which way round they are wired; a breaker for direct current and a diode do.
_NO_WAY_ROUND = ("F", "FH", "PF", "SW", "S", "JP", "NT", "R", "L", "FB")
_ROUNDS = 3  # each sees what the one before has found of its neighbours; common practice, no source
_SAME_WIRE, _SAME_PLACE, _SAME_NUMBER = 10.0, 1.0, 0.1


def with_alike_contacts(rebuild: Rebuild) -> Craft | None:
    """The old craft, with such contacts numbered as in the new one; None where they are already."""
    before, after, matching = rebuild
    old, new = before.craft, after.craft
    pairs = [(old.terminations[ref], new.terminations[now]) for ref, now in matching.pairs.items()]
    named = _by_name(before, after, pairs)
    alike = [(one.reference, other.reference) for one, other in pairs if _are_alike(one, other)]
    if not alike and not named:
        return None
    met = _met(old), _met(new)
    numbers: Numbers = dict(named)
    for _ in range(_ROUNDS):
        found = dict(numbers)
        for ref, now in alike:
            found |= _numbered(old.terminations[ref], new.terminations[now], met, matching, numbers)
        if found == numbers:
            break
        numbers = found
    moved = {key: to for key, to in numbers.items() if key != to}
    return renumbered(old, moved) if moved else None


def recounted(old: Craft, alike: Craft) -> tuple[tuple[str, str, str], ...]:
    """Old reference, contact as the old drawing has it, and what it is called now; of contacts that a wire meets."""
    leads = zip(old.leads, alike.leads, strict=True)
    ends = (pair for before, after in leads for pair in zip(before.ends, after.ends, strict=True))
    return tuple(sorted({(was[0], was[1], now[1]) for was, now in ends if was != now}))


def _by_name(old: Side, new: Side, pairs: Iterable[tuple[Termination, Termination]]) -> Numbers:
    """A part's own wires that the drawing lists in another order, by what they are called."""
    found: Numbers = {}
    for before, after in pairs:
        if not before.kind is after.kind is Kind.CAPTIVE:
            continue
        was, now = (tuple(contact.label for contact in part.contacts) for part in (before, after))
        if was == now or "" in was or sorted(was) != sorted(now) or len(set(was)) != len(was):
            continue
        if before.family == after.family and _goes_in_as_it_is(old, before) and _goes_in_as_it_is(new, after):
            continue  # a cavity has its number: the order itself is another one
        numbers = {contact.label: contact.number for contact in after.contacts}
        found |= {contact.key: (contact.key[0], numbers[contact.label]) for contact in before.contacts}
    return found


def _goes_in_as_it_is(side: Side, part: Termination) -> bool:
    return any(map(side.is_in_own_plug, side.wires_at(part.reference)))


def _are_alike(before: Termination, after: Termination) -> bool:
    if before.kind is after.kind is Kind.SPLICE:
        return max(len(before.contacts), len(after.contacts)) > 1
    if not before.kind is after.kind is Kind.INLINE:
        return False
    return all(
        len(part.contacts) == 2
        and bool(part.passes)
        and re.sub(r"\d.*", "", part.reference) in _NO_WAY_ROUND
        and not any(contact.pin_name.strip("~") not in ("", contact.number) for contact in part.contacts)
        for part in (before, after)
    )


def _met(craft: Craft) -> Mapping[ContactKey, list[ContactKey]]:
    found: dict[ContactKey, list[ContactKey]] = {}
    for lead in craft.leads:
        for here, there in (lead.ends, lead.ends[::-1]):
            found.setdefault(here, []).append(there)
    return found


def _numbered(
    before: Termination,
    after: Termination,
    met: tuple[Mapping[ContactKey, list[ContactKey]], Mapping[ContactKey, list[ContactKey]]],
    matching: Matching,
    numbers: Numbers,
) -> Numbers:
    """Each contact of the old one, with the number of the new one that meets the same."""

    def worth(old: ContactKey, new: ContactKey) -> float:
        far_old = [matching.key(numbers.get(key, key)) for key in met[0].get(old, ())]
        far_new = met[1].get(new, [])
        places = {key[0] for key in far_old if key is not None} & {key[0] for key in far_new}
        wires = sum(key in far_new for key in far_old)
        return _SAME_WIRE * wires + _SAME_PLACE * len(places) + _SAME_NUMBER * (old[1] == new[1])

    there = [contact.key for contact in before.contacts]
    then = [contact.key for contact in after.contacts]
    table = [[worth(old, new) for new in then] for old in there]
    goes = {there[r]: then[c][1] for r, c in best_pairs(table) if table[r][c]}
    free = [key[1] for key in (*there, *then) if key[1] not in goes.values()]
    for key in there:
        if key not in goes:
            goes[key] = key[1] if key[1] in free else free[0]
            free = [number for number in free if number != goes[key]]
    return {key: (key[0], number) for key, number in goes.items()}
