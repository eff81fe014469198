"""The sheet of a board in whose place another one goes: plugs out, wires off it, the old one out, the new one in.

What goes onto the new one is on the sheets of the cables, in their turn.  Common practice of work at packs, no source
outside: what a pack feeds comes off first, each end taped at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec.structs import replace

from tabside.compare.changes.parts_across import parts_on
from tabside.compare.fates.cable_fate import KEEP, OTHER_BOARD, OTHER_PART, CableFate
from tabside.compare.reuse.other_boards import OtherBoard
from tabside.compare.work.cable_work import CableWork, each_once
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.places import ALREADY, called, old_ends
from tabside.compare.work.packs.live_order import Standing, before_live
from tabside.compare.work.plugs import OLD
from tabside.compare.work.worded import OFF_BOARD, old_number, with_tape
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.make.sheets.step_list import StepFacts, StepList
from tabside.model.craft import Kind
from tabside.model.natural import natural
from tabside.prove.measurement import When
from tabside.words.contacts import listed

_MOST = 40  # places of one board
_SAID = (
    "Another board goes in: all plugs out of the old one, all wires off it, the new one in. Where the board in the "
    "craft has what is drawn now, it stays: pass over this sheet, and leave on it what goes back as it was."
)
_SAID_OF_PART = (
    "Another part goes in: its wires off the old one, and onto the new one in their turn. Where it sits in a holder "
    "that takes the new one, put that in there: pass over this sheet, and leave on the holder what goes back as it was."
)
_JOINED = (Kind.PAD, Kind.INLINE)
_Left = tuple[Step, ...]  # an end off the board, and the tape over it


def look_at_boards(boards: Sequence[OtherBoard]) -> Iterator[str]:
    """Before all else: only the eye tells which of the two it is."""
    for board in boards:
        if board.is_part:
            yield (
                f"hold {board.was} against the new drawing: {'; '.join(board.connectors)}. Where it sits in a holder "
                "that takes the new one, put that in there, and pass over the steps that take it off its wires"
            )
            continue
        yield (
            f"hold the board {board.was} against the new drawing: {'; '.join(board.connectors)}. Where the one in the "
            f"craft has what is drawn now, it stays: pass over the steps that take it out and put another board "
            f"{board.name} in, and leave on it what goes back as it was"
        )


def board_sheets(builds: BothBuilds) -> Iterator[CableWork]:
    """As far as plugs go: what is in an old board comes out, and goes where its own sheet says.

    Not of a board with one cold cable, whose own sheet has it all.
    """
    return (_plugs_out(builds, board) for board in builds.boards if _only_cable(builds, board) is None)


def _only_cable(builds: BothBuilds, board: OtherBoard) -> CableFate | None:
    places = {*board.comes, *(builds.plugs.seat(ref) for ref in board.leaves)}
    users = [fate for fate, met in builds.places_of if places & met]
    if len(users) != 1 or users[0].what == KEEP or users[0].new is None:
        return None
    old = users[0].old.leads if users[0].old is not None else ()
    fed = {*builds.hot.old_fed} & set(old) or any(set(users[0].new.leads) & at.wires for at in builds.hot.circuits)
    return None if fed else users[0]


def _plugs_out(builds: BothBuilds, board: OtherBoard) -> CableWork:
    what, said = (OTHER_PART, _SAID_OF_PART) if board.is_part else (OTHER_BOARD, _SAID)
    if board.was != board.name and not board.is_part:
        said += f" Places of {board.was} are called by those of {board.name} here."
    fate = CableFate(what, None, None, said, board=board)
    _forget_ends(builds, board)
    steps = StepList(old_ends(builds, board.leaves), StepFacts())
    for reference in board.leaves:
        already = ALREADY if builds.plugs.is_aside(reference) else ""
        other = builds.plugs.in_the_way(fate, builds.plugs.seat(reference))
        if other is not None:
            cable, was, goes = other
            at = f"{OLD}{reference}"
            then = called(builds, cable, was, goes)
            steps.whole_plug(Action.TAKE_OUT, at, f"unplug {cable.label} from {steps.shown(at)}{already}{then}")
    _swap(builds, steps, board)
    return CableWork(fate, tuple(steps.steps), ends=each_once(steps.ends))


def _forget_ends(builds: BothBuilds, board: OtherBoard) -> None:
    """What packs feed at the old board is off, its fuses out, when the sheets of cables come."""
    hot, mine = builds.hot, set(_pads(builds, board))
    fed = {mark for mark in hot.old_fed if any(ref in mine for ref, _ in builds.old.by_mark[mark].ends)}
    builds.fuse_is_in = builds.fuse_is_in and not fed - hot.old_dead
    for wire, mark in builds.becomes.items():
        if builds.old.leads[wire].mark in fed:
            builds.own_at.pop(mark, None)


def _pads(builds: BothBuilds, board: OtherBoard) -> Iterator[str]:
    """Of the old drawing."""
    return (ref for ref in board.leaves if builds.old.terminations[ref].kind in _JOINED)


def _swap(builds: BothBuilds, steps: StepList, board: OtherBoard) -> None:
    """The old one out, the new one in, and that one alone under the meter."""
    at = f"{OLD}{board.leaves[0]}"
    if board.is_part:
        _swap_part(builds, steps, board, at)
        return
    if own := _own_ends(builds, board):
        steps.label(
            at,
            f"its own wires go with it: {listed(own, _MOST)}: each plug out, each joint off one at a time, its end "
            "taped at once; when the new board is in, its own go there, each by its marks, not by its colour, and are "
            "tested as the plan of the new drawing has it (`tabside plan`)",
        )
    across = "; ".join(parts_on(builds.rebuild, board))
    out = f"take the old board {board.was} out: nothing is plugged into it or soldered to it by now"
    if across:
        out += f" but what lies across its wires: take that off it, and keep it: {across}"
    _label(steps, at, "out", out)
    names = listed([builds.new.name(ref) for ref in board.comes], _MOST)
    words = "find contact 1 of each connector and the name of each pad on it, and hold them against the new drawing"
    _label(steps, at, "in", f"put the new board {board.name} in: {words}: {names}")
    steps.test(
        at,
        f"meter {board.name} alone, nothing on it, no USB: from its known ground to each supply, at its pads or by a "
        "spare mating plug with pigtails: no steady beep; hold until the reading climbs",
    )


def _own_ends(builds: BothBuilds, board: OtherBoard) -> list[str]:
    """Wires of a board's own that another board of its name brings again: where they end."""
    if board.was != board.name:
        return []  # sheets of theirs say it
    old, found = builds.old, []
    for reference in board.leaves:
        for wire in old.wires_at(reference) if old.terminations[reference].kind is Kind.CAPTIVE else ():
            mark = old.leads[wire].mark
            far = next((key for key in sorted(wire) if key[0] != reference), None)
            if far is not None:
                found.append(f"{builds.becomes.get(wire, mark)} at {old.name(far[0])} {far[1]}")
    return sorted(found, key=natural)


def _swap_part(builds: BothBuilds, steps: StepList, part: OtherBoard, at: str) -> None:
    _label(steps, at, "out", f"put the old {part.was} away: no wire is on it by now")
    _label(steps, at, "in", f"take the new {part.name}, and hold what is printed on it against the new drawing")
    rows = [row for row in builds.build.proof.rows if row.when is When.PART and row.where.termination == part.name]
    steps.test(at, "test the new part, no wire on it yet", rows)


def _label(steps: StepList, at: str, swap: str, words: str) -> None:
    """`swap`: as in `Step.swap`."""
    steps.label(at, words)
    steps.steps[-1] = replace(steps.steps[-1], swap=swap)


def boards_swapped(cables: Sequence[CableWork], builds: BothBuilds) -> list[CableWork]:
    """The same, where the ends of all wires leave a board that goes on that board's sheet."""
    done = list(cables)
    for board in builds.boards:
        only = _only_cable(builds, board)
        if only is None:
            n = next(k for k, work in enumerate(done) if work.fate.is_board and work.fate.board == board)
            done = _ends_off_first(done, n, builds, board)
        else:
            n = next(k for k, work in enumerate(done) if work.fate is only)
            done[n] = _swapped_here(done[n], builds, board)
    return done


def _swapped_here(work: CableWork, builds: BothBuilds, board: OtherBoard) -> CableWork:
    """On the sheet of its only cable, when that is off."""
    if work.stopped:
        return work
    steps = StepList(old_ends(builds, board.leaves), StepFacts())
    _swap(builds, steps, board)
    pads, plugs = _is_at(builds, board, pads=True), _is_at(builds, board, pads=False)
    off = [
        n for n, step in enumerate(work.steps) if step.action in OFF and (plugs if step.cavity is None else pads)(step)
    ]
    after = off[-1] + 1 if off else 0
    done = work.with_more(steps.steps, after)
    return done._replace(ends=each_once((*work.ends, *steps.ends)))


def _ends_off_first(cables: list[CableWork], n: int, builds: BothBuilds, board: OtherBoard) -> list[CableWork]:
    done, leaves = list(cables), _is_at(builds, board, pads=True)
    found: list[tuple[_Left, CableWork]] = []
    for k in range(n + 1, len(done)):
        off = list(_ends_off(done[k], leaves))
        found += [(left, done[k]) for left in off]
        gone = [step for left in off for step in left]
        done[k] = done[k].with_steps(step for step in done[k].steps if step not in gone)
    found.sort(key=lambda taken: _turn(builds, *taken))
    olds = {left[0].lead: work.old_leads[left[0].lead] for left, work in found if left[0].lead in work.old_leads}
    steps = [replace(step, swap=OFF_BOARD) if step.action in OFF else step for left, _ in found for step in left]
    out = next(k for k, step in enumerate(done[n].steps) if step.swap == "out")
    fuse = not any(step.live for work in done[:n] for step in work.steps)
    told = [*before_live(builds.hot, steps, Standing(builds.own_at, fuse)), *steps]
    done[n] = done[n]._replace(old_leads=olds).with_more(told, out)
    return done


def _is_at(builds: BothBuilds, board: OtherBoard, *, pads: bool) -> Callable[[Step], bool]:
    """Whether a step is at one of the old board's pads, else connectors."""
    places = {ref for ref in board.leaves if (builds.old.terminations[ref].kind in _JOINED) is pads}
    names = {(False, builds.matching.pairs[ref]) for ref in places if ref in builds.matching.pairs}
    names |= {(True, ref) for ref in places}
    return lambda step: (step.of_old, step.termination) in names


def _ends_off(work: CableWork, leaves: Callable[[Step], bool]) -> Iterator[_Left]:
    for n, step in enumerate(work.steps):
        is_old = old_number(step, work.old_leads) is not None and step.by_words
        if step.action in OFF and step.cavity is not None and is_old and leaves(step):
            yield with_tape(work.steps, n)


def _turn(builds: BothBuilds, left: _Left, work: CableWork) -> tuple[object, ...]:
    """What a pack feeds first, its plus before its minus."""
    step = left[0]
    is_minus = bool(builds.hot.is_minus_of_pack(step, work.old_leads))
    return (not step.live, is_minus, natural(old_number(step, work.old_leads) or step.lead))
