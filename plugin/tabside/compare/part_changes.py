"""Parts that stand on nets and are no termination: fitted, taken out, or fitted at another place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tabside.analysis.current.part_ratings import rating_words
from tabside.compare.change import ADDED, MOVED, REMOVED, Change
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.model.craft import ContactKey, Part
from tabside.model.natural import natural

_NO_WAY_ROUND = ("R", "L", "FB", "TH", "RV")  # letters of parts that do not mind which leg is where
_MOST_SHOWN = 3


def changes_of_parts(old: Side, new: Side, matching: Matching) -> Iterator[Change]:
    """By what they are and where their legs are, not by reference."""
    nets = _in_words_of_the_new(old, matching), new.nets
    before, after = _by_words(old), _by_words(new)
    for words in sorted({*before, *after}):
        pairs, left_old, left_new = _paired(before.get(words, []), after.get(words, []), nets)
        for was, now in pairs:
            if not _stays(was, now, nets):
                bench = "Take it off there and fit it here; a polarised part by its polarity."
                yield Change(MOVED, "part", words, _at(old, was), _at(new, now), bench)
        there, here = len(before.get(words, [])), len(after.get(words, []))
        if left_old:
            places = "; ".join(_at(old, part) for part in left_old)
            yield Change(REMOVED, "part", words, f"{there}", f"{here}", f"Take out {len(left_old)}: {places}.")
        if left_new:
            places = "; ".join(_at(new, part) for part in left_new)
            yield Change(ADDED, "part", words, f"{there}", f"{here}", f"Fit {len(left_new)} more: {places}.")


Nets = tuple[Mapping[int, frozenset[ContactKey]], Mapping[int, frozenset[ContactKey]]]


def _in_words_of_the_new(old: Side, matching: Matching) -> dict[int, frozenset[ContactKey]]:
    """The contacts on each old net, as the new drawing calls them; without those that it does not have."""
    return {net: frozenset(filter(None, map(matching.key, keys))) for net, keys in old.nets.items()}


def _by_words(side: Side) -> dict[str, list[Part]]:
    found: dict[str, list[Part]] = {}
    for part in sorted(side.craft.parts, key=lambda part: natural(part.reference)):
        if part.dnp:
            continue  # nobody fits it: a part that is marked so leaves the craft
        rating = rating_words(part.fields, part.value)
        beside = f"rated {rating}" if rating != rating_words({}, part.value) else ""
        words = " ".join(text for text in (part.value, beside, part.footprint) if text)
        found.setdefault(words or "part", []).append(part)
    return found


def _paired(
    before: list[Part], after: list[Part], nets: Nets
) -> tuple[list[tuple[Part, Part]], list[Part], list[Part]]:
    """Each old part with the new one that lies where it lies, then those that are left in their order."""
    left_old, left_new = list(before), list(after)
    pairs = []
    for stays in (True, False):
        for was in list(left_old):
            now = next((part for part in left_new if not stays or _stays(was, part, nets)), None)
            if now is not None:
                left_old.remove(was)
                left_new.remove(now)
                pairs.append((was, now))
    return pairs, left_old, left_new


def _stays(was: Part, now: Part, nets: Nets) -> bool:
    """Whether every leg shares a contact with the same leg before; a net without contacts tells nothing."""
    legs_old = {pin.number: nets[0].get(pin.net_id, frozenset[ContactKey]()) for pin in was.pins}
    legs_new = {pin.number: nets[1].get(pin.net_id, frozenset[ContactKey]()) for pin in now.pins}
    if _legs_stay(legs_old, legs_new):
        return True
    free = was.reference.rstrip("0123456789") in _NO_WAY_ROUND and len(legs_old) == len(legs_new) == 2
    return free and _legs_stay(legs_old, dict(zip(legs_new, reversed(legs_new.values()), strict=True)))


def _legs_stay(before: Mapping[str, frozenset[ContactKey]], after: Mapping[str, frozenset[ContactKey]]) -> bool:
    if before.keys() != after.keys():
        return False
    return all(bool(keys & after[number]) or not keys or not after[number] for number, keys in before.items())


def _at(side: Side, part: Part) -> str:
    """ "R3 at pilot/J4:2 (CANH) and pilot/J4:3 (CANL)", the first contacts of each net."""
    on_net: dict[int, ContactKey] = {}
    for termination in side.terminations.values():
        for contact in termination.contacts:
            on_net.setdefault(contact.net_id, contact.key)
    places = [side.contact_name(on_net[pin.net_id]) for pin in part.pins[:_MOST_SHOWN] if pin.net_id in on_net]
    return f"{part.reference} at {' and '.join(places)}" if places else part.reference
