"""Packs that are soldered to a board: off before any other work, on again after all of it.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind
from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.side import Side
from tabside.compare.work.hot import far_end, on_ground, reached
from tabside.compare.work.steps import CableWork
from tabside.compare.work.worded import OFF, old_number
from tabside.make.needs.live_leads import fuses, switches
from tabside.make.sheets.cable_plan import Step
from tabside.make.sheets.loose_sheets import MEASURE_VOLTS
from tabside.make.sheets.moments import is_volts
from tabside.model.craft import Kind
from tabside.model.natural import natural
from tabside.prove.measurement import At, Measurement, Test
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import at_live
from tabside.words.contacts import listed

_OFF_ALREADY = " (it is off already, before all else)"


class Parted(NamedTuple):
    """How one pack of the old drawing is parted from the craft."""

    pack: str
    fuses: tuple[str, ...]  # next to the pack, all else is behind them
    switches: tuple[str, ...]
    wires: tuple[str, ...]  # old numbers of the wires that come off where there is no fuse


def parted(old: Side, fates: Iterable[CableFate]) -> list[Parted]:
    """Each pack without a plug, soldered to a board, that does not leave the craft by a sheet of its own."""
    goes = {old.leads[wire].mark for fate in fates if fate.pack_goes for wire in fate.gone}
    was = old.live
    by_mark = {made.lead.mark: made for made in old.made.values()}
    found = []
    for pack in sorted(set(was.values()), key=natural):
        mine = sorted((mark for mark in was if was[mark] == pack), key=natural)
        if goes & set(mine) or not any(end.kind is EndKind.PAD for m in reached(old, mine) for end in by_mark[m].ends):
            continue
        plus = [mark for mark in mine if not on_ground(old, mark)] or mine
        far = {end.key[0] for mark in plus for end in by_mark[mark].ends if end.kind is not EndKind.OWN}
        near, off = fuses(old.craft, far), switches(old.craft, far)
        behind = all(old.terminations[ref].kind is Kind.INLINE for ref in far) and set(near) | set(off) >= far
        found.append(Parted(pack, near, off, ()) if behind else Parted(pack, (), (), tuple(plus)))
    return found


def first_words(old: Side, new: Side, each: Parted, fates: Iterable[CableFate]) -> str:
    """A wire that stays is called by the number that it has been given before this."""
    becomes = becomes_of_wires(old, new, fates)
    called = {mark: _called(mark, becomes.get(mark, mark)) for mark in each.wires}
    done = [f"take the fuse out of {name}" for name in each.fuses]
    done += [f"switch {name} off, and tape it so" for name in each.switches]
    by_mark = {made.lead.mark: made for made in old.made.values()}
    hands = [
        f"unsolder {called[mark]} at {far_end(old, by_mark[mark])}, tape its bare end at once" for mark in each.wires
    ]
    if hands:
        done.append(at_live(f"{', then '.join(hands)}, and keep the pack's other wires covered"))
    return f"{each.pack} has no plug: before any other work {' and '.join(done)}"


def _called(was: str, now: str) -> str:
    return now if was == now else f"{now} (was {was})"


def off_already(cables: Sequence[CableWork], packs: Iterable[Parted]) -> list[CableWork]:
    """The same, where a wire that a step takes off its joint is off before all else."""
    off = {mark for each in packs for mark in each.wires}
    return [work._replace(steps=tuple(_already(step, work.old_leads, off) for step in work.steps)) for work in cables]


def _already(step: Step, olds: Mapping[str, str], off: set[str]) -> Step:
    if step.action not in OFF or old_number(step, olds) not in off:
        return step
    return replace(step, full=f"{step.full}{_OFF_ALREADY}", short=f"{step.short}{_OFF_ALREADY}")


def last_words(
    old: Side,
    new: Side,
    packs: Iterable[Parted],
    cables: Sequence[CableWork],
    rows: Sequence[Measurement],
    step_of: Mapping[str, int],
) -> Iterator[str]:
    """How each pack that no step takes off its joints comes on again."""
    becomes = becomes_of_wires(old, new, (work.fate for work in cables))
    worked = {old_number(step, work.old_leads) for work in cables for step in work.steps if step.action in OFF}
    live = any(step.live for work in cables for step in work.steps)
    for each in packs:
        names = [*each.fuses, *each.switches]
        if names and not live:
            yield (
                f"{each.pack}: leave the fuse out of {listed(names, 40)} until first power; then a smoke stopper in "
                "its place first"
                if each.fuses
                else f"{each.pack}: leave {listed(names, 40)} off until first power"
            )
        for mark in each.wires:
            if mark not in worked and mark in becomes:
                yield from _on_again(new, each.pack, becomes[mark], rows, step_of)


def _on_again(
    new: Side, pack: str, mark: str, rows: Sequence[Measurement], step_of: Mapping[str, int]
) -> Iterator[str]:
    made = next(made for made in new.made.values() if made.lead.mark == mark)
    place = far_end(new, made)
    ref = next((end.key[0] for end in made.ends if end.kind is not EndKind.OWN), made.ends[-1].key[0])
    short = [f"row {step_of[row.id]}" for row in rows if row.test is Test.SHORT and row.id in step_of]
    told = f" ({listed(short, 40)})" if short else ""
    yield f"{pack}: while {mark} is still off and taped: no short at the craft's side{told}, capacitors empty"
    volts = [row for row in rows if is_volts(row) and row.where.at is At.BARE and row.where.lead == mark]
    bared = f"take the tape off the bare end of {mark}, "
    if volts:
        for row in volts:
            yield at_live(f"{bared}{MEASURE_VOLTS}: row {step_of.get(row.id, '-')}: {row_words(row)}")
    else:
        yield at_live(f"{bared}{MEASURE_VOLTS}: red on the bare end of {mark}, black on a known ground: no minus sign")
    yield at_live(
        f"{mark}: first power now, through a smoke stopper between the bare end and {place}; then solder it to {place}"
    )
    looks = [f"row {step_of[row.id]}" for row in rows if row.test is Test.LOOK and row.where.termination == ref]
    seen = f" ({listed(looks, 40)})" if looks else ""
    yield at_live(f"{mark}: look at the joint with a magnifier: no solder and no strand beyond it{seen}; then cover it")
