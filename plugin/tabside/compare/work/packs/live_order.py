"""In which order a sheet's steps are done where some are at live wires: those last, wire by wire, LIVE and taped.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.work.packs.at_live_wires import at_live_wire, place_words, tape_words
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.worded import ON, of_no_wire
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement, RowKind
from tabside.words.contacts import listed


class Standing(NamedTuple):
    """How it stands at packs when the sheet begins."""

    at: Mapping[str, str]  # own wire of a pack that stays on -> where it ends now
    fuse: bool  # it is still in


def in_live_order(
    hot: Hot,
    steps: Sequence[Step],
    olds: Mapping[str, str],
    rows: Mapping[str, Sequence[str | None]],
    standing: Standing,
) -> list[Step]:
    """The same steps, those at live wires last, wire by wire; `olds` as in `Hot.is_live`.

    `rows`: what sat in each plug before, by the name of its end, empty for a sheet of the plan.
    """
    live = [step for step in steps if hot.is_live(step, olds)]
    if not live:
        return list(steps)
    if not rows and all(step.live or step.spare for step in live):
        return list(_in_place(hot, steps, live, standing))  # the plan's own order
    cold = _cold(steps, live)
    filled = {(step.end, step.cavity) for step in cold.steps if step.action in ON}
    early = [step for step in live if step.spare or _makes_room(step, filled) or not hot.stays(step)]
    late = [step for step in live if step not in early]
    hands = (n for n, step in enumerate(cold.steps) if step.cavity is not None or step.action not in OFF)
    unplugged = next(hands, len(cold.steps))  # whole plugs come out first
    told = [
        *cold.steps[:unplugged],
        *_before(hot, live, standing),
        *_by_wire(hot, early),
        *cold.steps[unplugged:],
        *_by_wire(hot, late),
        *cold.at_joints,
    ]
    if cold.looks:
        seen_once = {row.id: row for step in cold.looks for row in step.rows}
        told.append(_inspect(cold.looks[-1], tuple(seen_once.values())))
    return list(_followed(told, rows))


class _Cold(NamedTuple):
    """Steps at no live wire."""

    steps: list[Step]
    looks: list[Step]  # of all these what the eye sees: once, when all is done
    at_joints: list[Step]  # looks at joints of live wires


def _cold(steps: Sequence[Step], live: Sequence[Step]) -> _Cold:
    found = _Cold([], [], [])
    places = {step.end for step in live}
    for step in (step for step in steps if step not in live):
        if step.action is Action.TEST and not step.rows and step.end in places:
            found.at_joints.append(step)
            continue
        seen = tuple(row for row in step.rows if row.kind is RowKind.LOOK)
        if seen:
            found.looks.append(replace(step, rows=seen))
        left = tuple(row for row in step.rows if row.kind is RowKind.BEEP)  # volts come last of all
        if left or not step.rows:
            found.steps.append(replace(step, rows=left))
    return found


def before_live(hot: Hot, steps: Sequence[Step], standing: Standing) -> Iterator[Step]:
    """What comes before these steps, where one of them is live."""
    yield from _before(hot, [step for step in steps if step.live], standing)


def _before(hot: Hot, live: Sequence[Step], standing: Standing) -> Iterator[Step]:
    if live:
        yield from _fuse_out(hot, live[0]) if standing.fuse else ()
        yield from _covered_first(live, standing)


def _in_place(hot: Hot, steps: Sequence[Step], live: Sequence[Step], standing: Standing) -> Iterator[Step]:
    for step in steps:
        if step is live[0]:
            yield from _before(hot, live, standing)
        yield from _marked_and_taped(step) if step in live else [step]


def _fuse_out(hot: Hot, near: Step) -> list[Step]:
    again = "; it goes in again for the volts" if hot.fuses and hot.has_plug else ""
    done = [f"no fuse in {', '.join(hot.out)} from here on: take it out{again}"] if hot.out else []
    done += [f"switch {', '.join(hot.off_now)} off"] if hot.off_now else []
    return [of_no_wire(near, Action.LABEL, "; ".join(done))] if done else []


def _covered_first(live: Sequence[Step], standing: Standing) -> Iterator[Step]:
    """What is bare on the pack's other wires."""
    worked = {step.lead for step in live}
    others = sorted((mark for mark in standing.at if mark not in worked), key=natural)
    if others:
        told = listed([f"{mark} at {standing.at[mark]}" for mark in others], 40)
        words = f"first see that nothing is bare on the pack's other wires, {told}: tape over what is"
        yield at_live_wire(live[0], Action.INSULATE, others[0], words)


def _marked_and_taped(step: Step) -> Iterator[Step]:
    yield replace(step, live=True)
    if step.action in OFF and step.cavity is not None:
        bare = f"at once tape over its bare end, and over what is bare at {place_words(step)}"
        yield at_live_wire(step, Action.INSULATE, step.lead, bare, cavity=step.cavity)


def _by_wire(hot: Hot, live: Sequence[Step]) -> Iterator[Step]:
    """What goes for good first, then one wire after the other, those on ground before the rest."""
    turns: dict[str, list[Step]] = {}
    for step in live:
        turns.setdefault(step.lead, []).append(step)

    def order(lead: str) -> tuple[object, ...]:
        return (not turns[lead][0].spare, lead not in hot.minus, natural(lead))

    for lead in sorted(turns, key=order):
        mine = turns[lead]
        for n, step in enumerate(mine):
            yield from _marked_and_taped(step)
            there = [later.action for later in mine[n:] if (later.end, later.cavity) == (step.end, step.cavity)]
            if step.action is Action.SOLDER and Action.INSULATE not in there:
                yield at_live_wire(step, Action.INSULATE, lead, tape_words(step), cavity=step.cavity)


def _makes_room(step: Step, filled: Collection[tuple[str, str | None]]) -> bool:
    """Whether a cold wire is to go where this one comes off."""
    return step.action in OFF and step.cavity is not None and (step.end, step.cavity) in filled


def _inspect(step: Step, rows: tuple[Measurement, ...]) -> Step:
    return replace(step, full="inspect now", short="inspect now", rows=rows, unplug=(), plug_in=(), around=())


def _followed(steps: Iterable[Step], rows: Mapping[str, Sequence[str | None]]) -> Iterator[Step]:
    """With what sits in each plug after each step, in their new order."""
    now = {name: list(row) for name, row in rows.items()}
    for step in steps:
        row = now.get(step.end)
        cavity = step.cavity or ""
        if row is None or step.of_old or step.housing or not cavity.isdecimal() or not 1 <= int(cavity) <= len(row):
            yield step
            continue
        if step.action in OFF:
            row[int(cavity) - 1] = None
        elif step.action in ON:
            row[int(cavity) - 1] = step.lead
        yield replace(step, occupancy=tuple(row)) if step.occupancy else step
