"""Parts that stand on nets and are no termination: fitted, taken out, or fitted at another place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from tabside.analysis.current.part_ratings import rating_words
from tabside.analysis.joined.joints import letters_of
from tabside.compare.changes.change import ADDED, MOVED, REMOVED, Change
from tabside.compare.matched.matching import Matching
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import Exchanged, OtherBoard
from tabside.compare.side import Side
from tabside.make.sheets.part_steps import part_steps
from tabside.model.craft import ContactKey, Part
from tabside.model.natural import natural
from tabside.words.part_joints import leg_words, part_joints

_NO_WAY_ROUND = ("R", "L", "FB", "TH", "RV")  # letters of parts that do not mind which leg is where
_MOST_SHOWN = 3


def changes_of_parts(rebuild: Rebuild) -> Iterator[Change]:
    """By what they are and where their legs are, not by reference; what comes off before what is fitted."""
    old, new = rebuild.old, rebuild.new
    found = list(_changed_parts(rebuild))
    for words, change in found:
        if change.out:
            told = "; ".join(_off_words(old, part) for part in change.out)
            bench = f"Take out {len(change.out)}: {told}."
            yield Change(REMOVED, "part", words, f"{change.there}", f"{change.here}", bench)
    others = {part.reference for part, _ in _on_other_boards(rebuild)}
    for words, change in found:
        for was, now in change.moved:
            off = f"Take it off there: {_off_words(old, was)}"
            if was.reference in others:
                off = f"It came off with the old board, as its sheet says: {_legs_off(old, was)}"
            bench = f"{off}. Then fit it here: {_on_words(new, now)}."
            yield Change(MOVED, "part", words, _at(old, was), _at(new, now), bench)
    for words, change in found:
        if change.come:
            told = "; ".join(_on_words(new, part) for part in change.come)
            bench = f"Fit {len(change.come)} more: {told}."
            yield Change(ADDED, "part", words, f"{change.there}", f"{change.here}", bench)


def parts_to_fit(rebuild: Rebuild) -> frozenset[str]:
    """By reference, what is soldered across wires."""
    found = [change for _, change in _changed_parts(rebuild)]
    moved = (now.reference for change in found for _, now in change.moved)
    return frozenset((*moved, *(part.reference for change in found for part in change.come)))


def parts_on(rebuild: Rebuild, board: OtherBoard) -> tuple[str, ...]:
    """What has a leg on a board that goes, in words: it comes off when the board is out, with no wire beside it."""
    on = _on_other_boards(rebuild)
    return tuple(_legs_off(rebuild.old, part) for part, there in on if there == board)


def _on_other_boards(rebuild: Rebuild) -> Iterator[tuple[Part, OtherBoard]]:
    """Parts, in their order, with the board that another one takes the place of and on which they are soldered."""
    parts = [part for part in rebuild.old.craft.parts if not part.dnp]
    boards = Exchanged(rebuild).boards if parts else ()
    for part in sorted(parts, key=lambda part: natural(part.reference)):
        places = {contact.termination for _, contact in part_joints(part, rebuild.old.craft)}
        board = next((board for board in boards if places & set(board.leaves)), None)
        if board is not None:
            yield part, board


class _Changed(NamedTuple):
    """Parts of one kind."""

    there: int
    here: int
    moved: list[tuple[Part, Part]]
    out: list[Part]
    come: list[Part]


def _changed_parts(rebuild: Rebuild) -> Iterator[tuple[str, _Changed]]:
    old, new, matching = rebuild
    nets = _in_words_of_the_new(old, matching), new.nets
    before, after = _by_kind(old), _by_kind(new)
    others = {part.reference for part, _ in _on_other_boards(rebuild)}
    for kind in sorted({*before, *after}):
        pairs, left_old, left_new = _paired(before.get(kind, []), after.get(kind, []), nets)
        moved = [(was, now) for was, now in pairs if was.reference in others or not _stays(was, now, nets)]
        counts = len(before.get(kind, [])), len(after.get(kind, []))
        yield kind.words, _Changed(*counts, moved, left_old, left_new)


def _off_words(side: Side, part: Part) -> str:
    return _legs_off(side, part) + _beside_pack(side, part)


def _legs_off(side: Side, part: Part) -> str:
    legs = [
        f"its {leg_words(part, pin, contact)} off {side.contact_name(contact.key)}"
        for pin, contact in part_joints(part, side.craft)
    ]
    return ", ".join((part.reference, *legs))


def _on_words(side: Side, part: Part) -> str:
    told = [step.words for step in part_steps(side.craft) if step.reference == part.reference]
    return (told[0] if told else part.reference) + _beside_pack(side, part)


def _beside_pack(side: Side, part: Part) -> str:
    """Where a leg is in one joint with a pack's own wire."""
    places = {contact.key for _, contact in part_joints(part, side.craft)}
    there = [lead.mark for lead in side.craft.leads if lead.mark in side.live and places & set(lead.ends)]
    if not there:
        return ""
    return (
        f" (on a joint of the pack's own wire, {' and '.join(sorted(there, key=natural))}: with its plus off and "
        "taped; LIVE where its minus is on: the cover comes off for this, and goes on again at once)"
    )


Nets = tuple[Mapping[int, frozenset[ContactKey]], Mapping[int, frozenset[ContactKey]]]


def _in_words_of_the_new(old: Side, matching: Matching) -> dict[int, frozenset[ContactKey]]:
    """The contacts on each old net, as the new drawing calls them; without those that it does not have."""
    return {net: frozenset(filter(None, map(matching.key, keys))) for net, keys in old.nets.items()}


class _Kind(NamedTuple):
    """What a part is: in words, and by the letters of its reference."""

    words: str
    letters: str  # a coil of "100" is no resistor of "100"


def _by_kind(side: Side) -> dict[_Kind, list[Part]]:
    found: dict[_Kind, list[Part]] = {}
    for part in sorted(side.craft.parts, key=lambda part: natural(part.reference)):
        if part.dnp:
            continue  # nobody fits it: a part that is marked so leaves the craft
        rating = rating_words(part.fields, part.value)
        beside = f"rated {rating}" if rating != rating_words({}, part.value) else ""
        words = " ".join(text for text in (part.value, beside, part.footprint) if text)
        found.setdefault(_Kind(words or "part", letters_of(part.reference)), []).append(part)
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
    free = letters_of(was.reference) in _NO_WAY_ROUND and len(legs_old) == len(legs_new) == 2
    return free and _legs_stay(legs_old, dict(zip(legs_new, reversed(legs_new.values()), strict=True)))


def _legs_stay(before: Mapping[str, frozenset[ContactKey]], after: Mapping[str, frozenset[ContactKey]]) -> bool:
    if before.keys() != after.keys():
        return False
    return all(bool(keys & after[number]) or not keys or not after[number] for number, keys in before.items())


def _at(side: Side, part: Part) -> str:
    """ "R3 at pilot/J4:2 (CANH) and pilot/J4:3 (CANL)", where its legs are soldered."""
    places = [side.contact_name(contact.key) for _, contact in part_joints(part, side.craft)[:_MOST_SHOWN]]
    return f"{part.reference} at {' and '.join(places)}" if places else part.reference
