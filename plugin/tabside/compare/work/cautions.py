"""What can hurt on a sheet of a comparison: all that the plan says at a pack's own wires, as far as it holds there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tabside.compare.side import Side
from tabside.compare.work.hot import Hot
from tabside.compare.work.soldered import Parted
from tabside.compare.work.steps import CableWork
from tabside.make.needs.live_leads import packs_in_parallel
from tabside.make.sheets.cable_plan import Action, Step
from tabside.words.cautions import LIVE_CAUTIONS_OF_CHANGES, NO_PLUG, PARALLEL, SOLDERING, switch_alone


def with_cautions(cables: Iterable[CableWork], hot: Hot, sides: tuple[Side, Side]) -> Iterator[CableWork]:
    """Each sheet with its own."""
    for work in cables:
        said = list(live_cautions(hot, sides)) if any(step.live for step in work.steps) else []
        if any(_joins_plus(step, hot) for step in work.steps):
            said += _powers(hot)
        said += [SOLDERING] if any(map(_by_iron, work.steps)) else []
        yield work._replace(cautions=tuple(said))


def beside_sheets(packs: Sequence[Parted], hot: Hot, sides: tuple[Side, Side]) -> tuple[str, ...]:
    """For what is done at packs before the first sheet and after the last one."""
    if not any(each.wires for each in packs):
        return ()
    return (*live_cautions(hot, sides), *_powers(hot), SOLDERING)


def live_cautions(hot: Hot, sides: tuple[Side, Side]) -> Iterator[str]:
    """Wherever hands are on a pack's own wires."""
    yield from LIVE_CAUTIONS_OF_CHANGES
    if any(packs_in_parallel(side.craft, side.live) for side in sides):
        yield PARALLEL
    yield from (f"Fuse out of {reference}." for reference in hot.out)
    yield from (f"{reference} off." for reference in hot.switches)


def _powers(hot: Hot) -> list[str]:
    """Of a pack whose last joint nothing parts from the craft."""
    if hot.has_plug or hot.fuses:
        return []
    return [switch_alone(" and ".join(hot.switches)) if hot.switches else NO_PLUG]


def _joins_plus(step: Step, hot: Hot) -> bool:
    return step.live and step.action is Action.SOLDER and step.lead not in hot.minus


def _by_iron(step: Step) -> bool:
    return step.action is Action.SOLDER or (step.by_words and step.cavity is not None)
