"""A board that has other connectors by the new drawing: another board, or a drawing set right.

Which of the two it is, only a look at the board tells.  Nobody changes a connector on a board at the bench: where
another one goes in, all that is plugged and soldered to the old one comes off it first.  Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabside.analysis.current.part_ratings import rating_words
from tabside.analysis.joints import letters_of
from tabside.compare.fates.what_part import Told, is_another, part_number, told_by_number
from tabside.compare.fates.wires import another_plug
from tabside.compare.matching import Matching
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


def other_boards(old: Side, new: Side, matching: Matching) -> list[OtherBoard]:
    """In the order of their names."""
    found: dict[tuple[str, str], list[str]] = {}
    for a, b in sorted(matching.pairs.items(), key=lambda pair: natural(pair[1])):
        before, after = old.terminations[a], new.terminations[b]
        names = old.board(a), new.board(b)
        on_boards = {before.kind, after.kind} <= _ON_BOARDS and before.board not in old.packs
        if all(names) and on_boards and _is_other(old, a, new, b):
            words = f"{b} is {_connector(after, before)}, before {_connector(before, after)}"
            found.setdefault(names, []).append(words)
    return [
        OtherBoard(was, name, tuple(found[was, name]), old.places_on[was], new.places_on[name])
        for was, name in sorted(found, key=lambda names: natural(names[1]))
    ]


def other_parts(old: Side, new: Side, matching: Matching) -> Iterator[OtherBoard]:
    """Fuses, switches and the like that are others now, where the wires of the old one were soldered.

    A pack's fuse is none of them: all sheets count on its being taken out, with a smoke stopper in its place.
    """
    for a, b in sorted(matching.pairs.items(), key=lambda pair: natural(pair[1])):
        before, after = old.terminations[a], new.terminations[b]
        soldered = before.kind is after.kind is Kind.INLINE and not before.takes_plug and bool(old.leads_at[a])
        if soldered and is_another(before, after) and not (_is_fuse_of_pack(old, a) or _is_fuse_of_pack(new, b)):
            words = f"it is {_what(after)}, before {_what(before)}"
            yield OtherBoard(a, b, (words,), (a,), (b,), is_part=True)


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
