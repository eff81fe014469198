"""A board that keeps its name and has other connectors by the new drawing: another board, or a drawing set right.

Which of the two it is, only a look at the board tells.  Nobody changes a connector on a board at the bench: where
another one goes in, all that is soldered to the old one comes off it first, the pack's plus before all.  Common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires, called_now
from tabside.compare.fates.wires import JOINTS, another_plug
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.facts import families
from tabside.model.craft import Kind, Termination
from tabside.model.natural import natural
from tabside.words.cautions import at_live
from tabside.words.contacts import listed

_ON_BOARDS = {Kind.RECEPTACLE, Kind.PAD}
_ALL = 1000  # wires of one board: none may be left out


class OtherBoard(NamedTuple):
    """What such a board has now, and what is soldered to the one that is there."""

    name: str
    connectors: tuple[str, ...]  # in words
    joints: tuple[tuple[str, str], ...]  # old number of a wire and where it is soldered, in the order of unsoldering
    live: tuple[str, ...]  # of these wires the ones that meet a pack


def other_boards(old: Side, new: Side, matching: Matching) -> list[OtherBoard]:
    """In the order of their names."""
    found: dict[str, list[str]] = {}
    for a, b in sorted(matching.pairs.items(), key=lambda pair: natural(pair[1])):
        before, after = old.terminations[a], new.terminations[b]
        both = {before.kind, after.kind} <= _ON_BOARDS and before.board_stated and after.board_stated
        if both and before.board == after.board and another_plug(old, a, new, b):
            found.setdefault(after.board, []).append(f"{b} is {_connector(after)}, before {_connector(before)}")
    return [_other_board(old, name, found[name]) for name in sorted(found, key=natural)]


def _connector(termination: Termination) -> str:
    if termination.kind is Kind.PAD:
        return "solder pads"
    family = families.family(termination.family).title if termination.family else "a connector of unknown family"
    return family if termination.ways is None else f"{family} {termination.ways}-way"


def _other_board(old: Side, name: str, connectors: Iterable[str]) -> OtherBoard:
    joints = list(_joints(old, name))
    live = {mark for mark, _ in joints} & _meets_packs(old)

    def turn(joint: tuple[str, str]) -> tuple[object, ...]:
        mark = joint[0]
        return (mark not in live, old.is_minus(mark), natural(mark))

    ordered = tuple(sorted(joints, key=turn))
    return OtherBoard(name, tuple(connectors), ordered, tuple(mark for mark, _ in ordered if mark in live))


def _joints(old: Side, name: str) -> Iterator[tuple[str, str]]:
    """On the board; and where the board's own wires are soldered, which go with it."""
    for made in old.made.values():
        its_own = any(old.terminations[ref].board == name for ref, _ in old.own_ends(frozenset(made.lead.ends)))
        for end in made.ends:
            ref, contact = end.key
            if end.kind in JOINTS and (its_own or old.board(ref) == name):
                yield made.lead.mark, f"{old.name(ref)} {contact}"


def _meets_packs(old: Side) -> frozenset[str]:
    """The packs' own wires, and what goes on from their fuses, switches and splices."""
    met = old.reached(old.live)
    loose = {key[0] for mark in met for key in old.by_mark[mark].ends if not old.board(key[0])}
    return met | {lead.mark for lead in old.craft.leads if loose & {ref for ref, _ in lead.ends}}


def words_of_other_boards(
    boards: Iterable[OtherBoard], old: Side, new: Side, fates: Collection[CableFate]
) -> Iterator[str]:
    """What is said before all else; wires by the numbers that they have been given before this."""
    called = _Names(old, new, fates)
    for board in boards:
        again = [
            mark for mark in dict.fromkeys(mark for mark, _ in board.joints) if called.is_soldered(mark, board.name)
        ]
        stays = ", with what is drawn soldered to it" if again else ""
        yield (
            f"hold the board {board.name} against the new drawing: {'; '.join(board.connectors)}. Where the one in the "
            f"craft has what is drawn now, it stays{stays}"
        )
        hands = [f"{called.of(mark)} off {place}, its bare end taped at once" for mark, place in board.joints]
        off = f"unsolder one at a time, {', then '.join(hands)}; when all are off, " if hands else ""
        power = (
            "a pack's first, every fuse of a pack out, no USB"
            if board.live
            else "with no pack on the craft, unplugged or off as said above, and no USB"
        )
        out = f"where another board {board.name} goes in: pull all plugs out of the old one, {power}; {off}take it out"
        yield at_live(out) if board.live else out
        if again:
            yield _onto_it(board, again, called)


class _Names:
    """How an old wire is called when its new number has been given."""

    def __init__(self, old: Side, new: Side, fates: Iterable[CableFate]) -> None:
        self._becomes, self._old, self._new = becomes_of_wires(old, new, fates), old, new

    def is_soldered(self, mark: str, board: str) -> bool:
        """Whether a wire of the old build is soldered to this board in the new one as well, or comes out of it."""
        made = self._new.made_by_mark.get(self._becomes.get(mark, ""))
        if made is None:
            return False
        own = self._new.own_ends(frozenset(made.lead.ends))
        at = {self._new.board(end.key[0]) for end in made.ends if end.kind in JOINTS}
        return board in at | {self._new.board(ref) for ref, _ in own}

    def of(self, mark: str) -> str:
        return " ".join(filter(None, (called_now(mark, self._becomes), self._pole(mark))))

    def _pole(self, mark: str) -> str:
        """Of a pack's own wire."""
        pack = self._old.live.get(mark)
        if pack is None:
            return ""
        return f"({'minus' if self._old.is_minus(mark) else 'plus'} of {pack})"


def _onto_it(board: OtherBoard, wires: Sequence[str], called: _Names) -> str:
    live = [mark for mark in reversed(wires) if mark in board.live]
    cold = [mark for mark in wires if mark not in live]
    order = [f"first {listed([called.of(mark) for mark in cold], _ALL)}"] if cold else []
    if live:
        order.append(
            f"last of all, one at a time, {listed([called.of(mark) for mark in live], _ALL)}, volts measured before "
            "the last joint (DC volts, never ohms: no minus sign)"
        )
    return (
        f"what is drawn at the new board {board.name} is soldered to it by the plan of the new drawing (`tabside plan "
        f"NEW`), and not by lines of this page that solder there: {'; '.join(order)}"
    )


def on_other_boards(fate: CableFate, new: Side, boards: Iterable[OtherBoard]) -> str:
    """The boards to which the wires of a cable that stays are soldered, where another one may go in; "" else."""
    names = {board.name for board in boards}
    wires = (new.made[b] for _, b in fate.wires)
    joints = {new.board(end.key[0]) for made in wires for end in made.ends if end.kind in JOINTS}
    found = sorted(joints & names, key=natural)
    return listed(found, _ALL) if found else ""
