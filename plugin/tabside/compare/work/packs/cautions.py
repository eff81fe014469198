"""What can hurt on a sheet of a comparison: all that the plan says at a pack's own wires, as far as it holds there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.packs.circuits import Circuit
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.packs.last_joint import last_joint
from tabside.compare.work.packs.soldered import Parted
from tabside.make.needs.live_leads import packs_in_parallel
from tabside.make.sheets.cable_plan import Action, Step
from tabside.model.craft import Kind
from tabside.model.natural import natural
from tabside.words.cautions import (
    LIVE_CAUTIONS_OF_CHANGES,
    NO_PLUG,
    PARALLEL,
    SOLDERING,
    powered_already,
    switch_alone,
)
from tabside.words.fuses import out_now


def with_cautions(cables: Iterable[CableWork], hot: Hot, rebuild: Rebuild) -> Iterator[CableWork]:
    """Each sheet with its own."""
    listed, closed = list(cables), list[tuple[str, str]]()
    joints: dict[int, list[Circuit]] = {}
    for at in hot.circuits:
        joint = last_joint(listed, at, hot) if at.powers else None
        if joint is not None:
            joints.setdefault(joint.sheet, []).append(at)
    for n, work in enumerate(listed):
        said = list(live_cautions(hot, rebuild)) if any(step.live for step in work.steps) else []
        if any(_joins_plus(step, hot) for step in work.steps):
            said += _powers(hot)
        here = [(_board(at, rebuild.new), at.packs[0]) for at in joints.get(n, ())]
        said += [powered_already(*pack) for pack in (*closed, *here[1:]) if any(step.live for step in work.steps)]
        closed += here
        said += [SOLDERING] if any(map(_by_iron, work.steps)) else []
        yield work._replace(cautions=tuple(said))


def beside_sheets(packs: Sequence[Parted], hot: Hot, rebuild: Rebuild) -> tuple[str, ...]:
    """For what is done at packs before the first sheet and after the last one."""
    if not any(pack.wires for pack in packs):
        return ()
    return (*live_cautions(hot, rebuild), *_powers(hot), SOLDERING)


def live_cautions(hot: Hot, rebuild: Rebuild) -> Iterator[str]:
    """Wherever hands are on a pack's own wires."""
    yield from LIVE_CAUTIONS_OF_CHANGES
    if any(packs_in_parallel(side.craft, side.live) for side in (rebuild.old, rebuild.new)):
        yield PARALLEL
    yield from map(out_now, hot.out)
    yield from (f"{reference} off." for reference in hot.off_now)


def _board(at: Circuit, new: Side) -> str:
    """What it powers."""
    return next(
        new.terminations[ref].board
        for ref in sorted(at.places, key=natural)
        if new.terminations[ref].kind is Kind.PAD or new.terminations[ref].board not in at.packs
    )


def _powers(hot: Hot) -> list[str]:
    """Of a pack whose last joint nothing parts from the craft."""
    if not any(at.powers for at in hot.circuits):
        return []
    return [switch_alone(hot.switches) if hot.switches else NO_PLUG]


def _joins_plus(step: Step, hot: Hot) -> bool:
    return step.live and step.action is Action.SOLDER and step.lead not in hot.minus


def _by_iron(step: Step) -> bool:
    return step.action is Action.SOLDER or (step.by_words and step.cavity is not None)
