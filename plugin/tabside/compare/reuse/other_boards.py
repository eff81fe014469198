"""A board that has other connectors by the new drawing: another board, or a drawing set right.

Which of the two it is, only a look at the board tells.  Nobody changes a connector on a board at the bench: where
another one goes in, all that is plugged and soldered to the old one comes off it first.  Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from tabside.analysis.current.part_ratings import rating_words
from tabside.analysis.joined.joints import letters_of
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.what_part import Told, is_another, part_number, told_by_number
from tabside.compare.reuse.wires import Ends, another_plug, has_other_plug
from tabside.compare.side import Side, another_board
from tabside.facts import families
from tabside.model.craft import Kind, Termination
from tabside.model.natural import natural
from tabside.wiring.terminations.part_kinds import FUSES

_ON_BOARDS = {Kind.RECEPTACLE, Kind.PAD}


class OtherBoard(NamedTuple):
    """A board that goes, and the one that comes in its place; or a fuse, a switch or the like between wires."""

    was: str  # its name in the old drawing
    name: str  # and in the new one: the same, mostly
    connectors: tuple[str, ...]  # what differs, in words
    leaves: tuple[str, ...]  # all its places, as the old drawing calls them
    comes: tuple[str, ...]  # and as the new one does
    is_part: bool = False

    @property
    def kind(self) -> str:
        return "part" if self.is_part else "board"

    @property
    def called(self) -> str:
        """ "board hub", "part F1", as the new drawing names it."""
        return f"{self.kind} {self.name}"


class Exchanged:
    """All that is another one in the new build, worked out once: boards, fuses and the like, parts with own wires."""

    def __init__(self, rebuild: Rebuild) -> None:
        self._rebuild = rebuild
        self._old, self._new, self._matching = rebuild

    @cached_property
    def boards(self) -> tuple[OtherBoard, ...]:
        """In the order of their names."""
        return tuple(_other_boards(self._rebuild))

    @cached_property
    def swapped(self) -> tuple[OtherBoard, ...]:
        """The same, and fuses, switches and the like between wires."""
        return (*self.boards, *_other_parts(self._rebuild))

    @cached_property
    def packs(self) -> frozenset[str]:
        """Boards that are packs and are others now, or go, by the names that they had."""
        return self._with_wires & self._old.packs

    @cached_property
    def parts(self) -> frozenset[str]:
        """Lamps, sensors and the like that are others now, by the names that they had."""
        return self._with_wires - self._old.packs

    @cached_property
    def _with_wires(self) -> frozenset[str]:
        return frozenset(self._old.terminations[reference].board for reference in self.own_wires)

    @cached_property
    def own_wires(self) -> frozenset[str]:
        """Old references where own wires begin that go with their part: of another pack by value or volts, or of none.

        A lamp that is drawn where a pack was, or a pack for a lamp, is another part as well; so is a part whose own
        wires end in another plug now, or in one where they were bare, and any part with another Value.  A board in
        whose place one of another name goes in takes its own wires along.
        """
        captive = {ref for ref, each in self._old.terminations.items() if each.kind is Kind.CAPTIVE}
        gone = {ref for ref in captive if self._is_of_pack(ref) and ref not in self._matching.pairs}
        others = {ref for board in self.boards if board.was != board.name for ref in board.leaves}
        return frozenset(gone | (others & captive) | self._other_packs() | set(self._other_lamps()))

    def _is_of_pack(self, old_reference: str) -> bool:
        return self._old.terminations[old_reference].board in self._old.packs

    def _other_packs(self) -> set[str]:
        """All ends of each."""
        old, new = self._old, self._new
        mine = [(was, now) for was, now in self._pairs if was.board in old.packs and now.board in new.packs]
        boards = {
            was.board
            for was, now in mine
            if is_another(was, now)
            or _other_volts(_volts(old, was), _volts(new, now))
            or _has_other_plug(old, was, new, now)
        }
        return {was.reference for was, _ in mine if was.board in boards}

    def _other_lamps(self) -> Iterator[str]:
        """And a lamp for a pack, or a pack for a lamp."""
        old, new = self._old, self._new
        for was, now in self._pairs:
            if (
                _is_bare_part(old, was)
                and _is_bare_part(new, now)
                and (is_another(was, now) or _has_other_plug(old, was, new, now))
            ):
                yield was.reference
            turned = (was.board in old.packs) is not (now.board in new.packs)
            if was.kind is Kind.CAPTIVE and (turned or self.is_another_kind(was, now)):
                yield was.reference

    @cached_property
    def _pairs(self) -> list[tuple[Termination, Termination]]:
        return [(self._old.terminations[was], self._new.terminations[now]) for was, now in self._matching.pairs.items()]

    def is_another_kind(self, before: Termination, after: Termination) -> bool:
        """Whether a lamp, a sensor or a motor brought its own wires and takes a cable now, or the other way round."""
        old, new = self._old, self._new
        one, other = before.kind is Kind.CAPTIVE, after.kind is Kind.CAPTIVE
        loose = Kind.SPLICE in (before.kind, after.kind) or Kind.INLINE in (before.kind, after.kind)
        if one is other or loose or before.board in old.packs or after.board in new.packs:
            return False
        return _is_bare_part(old, before) if one else _is_bare_part(new, after)


def _other_boards(rebuild: Rebuild) -> list[OtherBoard]:
    old, new, matching = rebuild
    found: dict[tuple[str, str], list[str]] = {}
    for reference, to in sorted(matching.pairs.items(), key=lambda pair: natural(pair[1])):
        before, after = old.terminations[reference], new.terminations[to]
        names = old.board(reference), new.board(to)
        on_boards = {before.kind, after.kind} <= _ON_BOARDS and before.board not in old.packs
        if all(names) and on_boards and _is_other(old, reference, new, to):
            words = f"{to} is {_connector(after, before)}, before {_connector(before, after)}"
            found.setdefault(names, []).append(words)
    return [
        OtherBoard(was, name, tuple(found[was, name]), old.places_on[was], new.places_on[name])
        for was, name in sorted(found, key=lambda names: natural(names[1]))
    ]


def _other_parts(rebuild: Rebuild) -> Iterator[OtherBoard]:
    """Fuses, switches and the like that are others now, where the wires of the old one were soldered.

    A pack's fuse is none of them: all sheets count on its being taken out, with a smoke stopper in its place.
    """
    old, new, matching = rebuild
    for was, now in sorted(matching.pairs.items(), key=lambda pair: natural(pair[1])):
        before, after = old.terminations[was], new.terminations[now]
        soldered = before.kind is after.kind is Kind.INLINE and not before.takes_plug and bool(old.leads_at[was])
        if soldered and is_another(before, after) and not (_is_fuse_of_pack(old, was) or _is_fuse_of_pack(new, now)):
            words = f"it is {_what(after)}, before {_what(before)}"
            yield OtherBoard(was, now, (words,), (was,), (now,), is_part=True)


def _is_fuse_of_pack(side: Side, reference: str) -> bool:
    if letters_of(reference) not in FUSES:
        return False
    return any(side.leads[wire].mark in side.fed_by for wire in side.wires_at(reference))


def _what(part: Termination) -> str:
    rating = rating_words(part.fields, part.value)
    beside = rating if rating != rating_words({}, part.value) else ""
    return " ".join(filter(None, (part.value, beside, part_number(part))))


def _is_other(old: Side, a: str, new: Side, b: str) -> bool:
    """Of a board with another name, which is one that goes, the order of its contacts tells it as well."""
    if another_board(old, new, a, b):
        return False  # one symbol, put on another board
    if told_by_number(old.terminations[a], new.terminations[b]) is Told.ANOTHER:
        return True
    if old.board(a) == new.board(b):
        return another_plug(old, a, new, b)
    return another_plug(old, a, new, b) or any(old.label((a, n)) != label for n, label in _labels(new, b))


def _labels(side: Side, reference: str) -> Iterator[tuple[str, str]]:
    yield from ((contact.number, contact.label) for contact in side.terminations[reference].contacts)


def _connector(termination: Termination, other: Termination) -> str:
    """With its part number, where that tells them apart."""
    number = part_number(termination) if told_by_number(termination, other) is Told.ANOTHER else ""
    words = " ".join(filter(None, (_kind_words(termination), number)))
    if number or _kind_words(termination) != _kind_words(other):
        return words
    return f"{words} with {', '.join(f'{contact.number} {contact.label}' for contact in termination.contacts)}"


def _kind_words(termination: Termination) -> str:
    if termination.kind is Kind.PAD:
        return "solder pads"
    family = families.family(termination.family).title if termination.family else "a connector of unknown family"
    return family if termination.ways is None else f"{family} {termination.ways}-way"


def _is_bare_part(side: Side, termination: Termination) -> bool:
    """Whether all that a wire meets there is the part's own: a lamp, a sensor; no board with a pigtail."""
    here = (other.kind for other in side.terminations.values() if other.board == termination.board)
    return all(kind is Kind.CAPTIVE for kind in here)


def _has_other_plug(old: Side, before: Termination, new: Side, after: Termination) -> bool:
    """Whether all its own wires are drawn in a plug in which they were not."""
    was, now = _own_wires(old, before.reference), _own_wires(new, after.reference)
    return bool(was and now) and all(has_other_plug(old, before_wire, new, wire) for before_wire in was for wire in now)


def _own_wires(side: Side, reference: str) -> list[Ends]:
    return [wire for wire in side.wires_at(reference) if any(ref == reference for ref, _ in side.own_ends(wire))]


def _volts(side: Side, pack: Termination) -> tuple[str, ...]:
    """What it gives, by its own words or the craft file's; () when nobody says it."""
    rails = [rail for contact in pack.contacts for rail in contact.gives] or list(pack.gives)
    own = sorted({repr(rail.volts) for rail in rails if rail.volts is not None})
    if own:
        return tuple(own)
    battery = side.craft.settings.battery
    return () if battery is None else (repr(battery),)


def _other_volts(before: tuple[str, ...], after: tuple[str, ...]) -> bool:
    return bool(before and after) and before != after
