"""Tape on what is live: it comes off before the place, or the end of the wire, is soldered or touched by a probe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from msgspec.structs import replace

from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.packs.at_live_wires import place_words
from tabside.compare.work.taped import Taped, touched_by
from tabside.compare.work.worded import BARED, OFF_BOARD, ON, of_no_wire
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.craft import ContactKey


def tape_off(
    cables: Iterable[CableWork], before: Iterable[str], joints: Mapping[ContactKey, str]
) -> tuple[list[CableWork], dict[Taped, str]]:
    """`before`: wires, as the steps call them, whose ends are taped before the first sheet.

    `joints`: of packs' own wires that stay on and are covered, in words.

    Returns the same with more steps, and what is taped after the last one: each with words for it.
    """
    taped = {Taped(wire=name): f"the bare end of {name}" for name in before}
    shared = {Taped(reference=ref, contact=contact): words for (ref, contact), words in joints.items()}
    on_board: dict[Taped, str] = {}
    done = []
    for work in cables:
        steps: list[Step] = []
        soldered: set[tuple[str, str, str | None]] = set()
        for step in work.steps:
            here = _place(step)
            if step.action in (*ON, *OFF) and here in shared:
                taped.pop(here, None)
                steps.append(_off(step, [shared[here]], live=True))
            bared = [place for place in dict.fromkeys(_touched(step)) if place in taped]
            if bared:
                steps.append(_off(step, [taped.pop(place) for place in bared], live=any(place.wire for place in bared)))
            if step.action in BARED or step.action is Action.SOLDER:
                taped.pop(Taped(wire=step.lead), None)
                taped.pop(Taped(wire=step.lead, is_cold=True), None)
            if step.action is Action.SOLDER:
                soldered.add((step.lead, step.end, step.cavity))
            for place, words in _covered(step, steps, soldered):
                taped[place], on_board[place] = words, step.board
            if step.swap == "out":  # its tape goes with the old board
                for place in [place for place in taped if place.reference and on_board.get(place) == step.board]:
                    del taped[place]
            steps.append(step)
        done.append(work.with_steps(steps))
    return done, taped


def _place(step: Step) -> Taped:
    """The two drawings may call two places alike."""
    reference = f"{step.termination} of the old drawing" if step.of_old else step.termination
    return Taped(reference=reference, contact=step.cavity or "")


def _covered(step: Step, before: list[Step], soldered: set[tuple[str, str, str | None]]) -> Iterator[tuple[Taped, str]]:
    """What a step tapes that is to be bared again: not the cover of a joint."""
    if step.action is not Action.INSULATE:
        return
    if step.live and before and before[-1].action in OFF:
        if before[-1].swap != OFF_BOARD:  # that tape goes with its board
            yield _place(step), place_words(step)
        yield Taped(wire=step.lead), f"the bare end of {step.lead}"
    elif step.cavity is not None and (step.lead, step.end, step.cavity) not in soldered and _is_new(step, before):
        yield Taped(wire=step.lead, is_cold=not step.live), f"the bare end of {step.lead}"


def _is_new(step: Step, before: list[Step]) -> bool:
    """Whether the sheet has stripped an end of the wire: tape then goes over a bare end."""
    return any(earlier.action is Action.STRIP and earlier.lead == step.lead for earlier in before)


def _touched(step: Step) -> Iterator[Taped]:
    if step.action in (*ON, Action.SHRINK, Action.TEST) and step.lead:
        yield Taped(wire=step.lead)
    if step.action in ON and not step.of_old:
        yield Taped(reference=step.termination, contact=step.cavity or "")
    for row in step.rows:
        yield from touched_by(row)


def _off(near: Step, what: list[str], *, live: bool) -> Step:
    words = f"take the tape off {' and '.join(what)}"
    return replace(of_no_wire(near, Action.LABEL, words), live=live)
