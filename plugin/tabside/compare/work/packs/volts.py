"""Volts of packs on which hands worked: each at the last joint of its circuit, with the fuse in for it alone.

The plan of a new craft has the same order and words (`make.sheets.when.pack_volts`).  Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.compare.work.packs.circuits import Circuit, fuse_waits
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.packs.last_joint import (
    Metering,
    is_own_plug,
    joints_with_volts,
    looks_before_covers,
    shorts_first,
    with_volts,
)
from tabside.compare.work.packs.ways import Ways
from tabside.compare.work.worded import ON, of_no_wire
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.when.moments import is_volts
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS, power_off, power_on, powered_again, volts_in_turn
from tabside.prove.measurement import Measurement


def volts_last(cables: Sequence[CableWork], metering: Metering, later: Collection[str]) -> list[CableWork]:
    """`later`: packs that come on again after the last sheet."""
    hot, rows, ways = metering.hot, metering.rows, metering.ways
    nowhere = {row.id for row in rows if is_own_plug(row) and any(at.is_of(row) for at in hot.circuits)}
    done = [looks_before_covers(work).without_rows(nowhere) for work in cables]
    last = {at: _last_sheet(done, at, hot) for at in hot.circuits}
    worked = sorted((n, order) for order, at in enumerate(hot.circuits) if (n := last[at]) is not None)
    for _, order in worked:
        at = hot.circuits[order]
        done = _measured(done, at, metering, later)
    for at in hot.circuits:
        if last[at] is None and not at.has_plug:  # where it comes on again after all else, or at first power
            elsewhere = _volts_of(rows, at)
            done = [work.without_rows(elsewhere) for work in done]
    for row in rows:
        bare = row.id in nowhere and ways.craft.terminations[row.where.termination].family is None
        if bare and row.where.board not in ways.kept:
            done = _by_itself(done, row, hot)
    return _gates_back(done, metering, [hot.circuits[order] for _, order in worked])


def _volts_of(rows: Iterable[Measurement], at: Circuit) -> set[str]:
    return {row.id for row in rows if is_volts(row) and at.is_of(row)}


def _gates_back(cables: list[CableWork], metering: Metering, measured: Collection[Circuit]) -> list[CableWork]:
    """Fuses and switches of packs that have gone, or at whose wires in the new build no hand was."""
    hot, ways = metering.hot, metering.ways
    touched = {gate for at in measured for gate in (*at.fuses, *at.switches)}
    on_board = {gate for at in hot.circuits if not at.has_plug for gate in (*at.fuses, *at.switches)}
    back = [gate for gate in (*hot.fuses, *hot.switches) if gate not in touched | on_board]
    waits = [fuse for fuse in hot.fuses if fuse in on_board - touched]
    live = [n for n, work in enumerate(cables) if any(step.live for step in work.steps)]
    if live and back:
        _say_last(cables, live[-1], f"{powered_again(back, ways.craft)}, the pack away")
    if live and waits:
        _say_last(cables, live[-1], fuse_waits(waits))
    return cables


def _by_itself(cables: list[CableWork], row: Measurement, hot: Hot) -> list[CableWork]:
    """A pack of several in series at its bare ends, before the first of its wires is touched."""
    own = {mark for mark, pack in hot.packs.items() if pack == row.where.board}
    turns = [turn for turn, step in each_step(cables) if step.lead in own]
    if turns:
        work, at = cables[turns[0].sheet], turns[0].step
        step = of_no_wire(work.steps[at], Action.TEST, MEASURE_VOLTS, (row,))
        cables[turns[0].sheet] = work.with_more([step], at)
    return cables


def _last_sheet(cables: Sequence[CableWork], at: Circuit, hot: Hot) -> int | None:
    """On which hands are at a live wire of the circuit that is in the new build, and the last one that joins to it.

    Its fuse stays out while wires of the old build, which it may have fed, come off as well.
    """

    def at_circuit(work: CableWork, *, live: bool) -> bool:
        steps = (step for step in work.steps if step.cavity and step.lead in at.wires)
        return work.fate.new is not None and any(step.live if live else step.action in ON for step in steps)

    worked = [n for n, work in enumerate(cables) if at_circuit(work, live=True)]
    joined = [n for n, work in enumerate(cables) if at_circuit(work, live=False)]
    if not worked:
        return None
    off = [
        n
        for n, work in enumerate(cables)
        if work.fate.new is not None and any(step.live and step.spare in hot.old_fed for step in work.steps)
    ]
    more = off if at.has_plug and at.fuses else []
    return max([*worked, *joined, *more])


def _measured(cables: Sequence[CableWork], at: Circuit, metering: Metering, later: Collection[str]) -> list[CableWork]:
    """`later`: packs that come on again after the last sheet."""
    hot, rows, ways = metering.hot, metering.rows, metering.ways
    last_n = _last_sheet(cables, at, hot) or 0
    ids = _volts_of(rows, at)
    volts = [row for row in rows if row.id in ids and not is_own_plug(row)]
    done = [work.without_rows(ids) for work in cables]
    joints = {} if at.waits_for(later) else joints_with_volts(done, at, metering, volts)
    for turn in sorted(joints, reverse=True):
        before = len(done[turn.sheet].steps)
        if turn == min(joints) and not at.has_plug:
            done = shorts_first(done, turn, at, metering)
        more = len(done[turn.sheet].steps) - before
        done = with_volts(done, Turn(turn.sheet, turn.step + more), joints[turn], ways)
    if at.has_plug:
        told = {row.id for measured in joints.values() for row in measured}
        told |= ids if at.comes_again(later) else set()  # there is nothing at its plugs yet
        return _at_plug(done, last_n, at, [row for row in volts if row.id not in told], ways)
    # where no joint is the last one, its volts would be on the craft: they are measured at first power
    if at.fuses:
        _say_last(done, last_n, at.fuse_stays_out() if at.gated or not joints else fuse_waits(at.fuses))
    return done


def _at_plug(cables: list[CableWork], n: int, at: Circuit, volts: Sequence[Measurement], ways: Ways) -> list[CableWork]:
    """At the plugs in which the circuit ends, when all is made; its fuse stays in."""
    near = cables[n].steps[-1]
    turns = volts_in_turn(volts, ways.ways, ways.joints_before(cables, Turn(n, len(cables[n].steps))), ways.craft)
    steps: list[Step] = []
    for each in turns[:-1]:
        steps.append(of_no_wire(near, Action.TEST, each.words(ways.craft), each.rows))
        steps += [of_no_wire(near, Action.LABEL, power_off(each.gates))] if each.gates else []
    gates = (*at.fuses, *at.switches)
    if turns:
        words = turns[-1]._replace(gates=gates).words(ways.craft)
        steps.append(of_no_wire(near, Action.TEST, words, turns[-1].rows))
    elif gates:
        steps.append(of_no_wire(near, Action.LABEL, power_on(gates, ways.craft).removesuffix(", then ")))
    last = cables[n]
    known = {row.id for row in last.measure}
    more = tuple(row for row in volts if row.id not in known)
    cables[n] = last.with_steps((*last.steps, *steps))._replace(measure=(*last.measure, *more))
    return cables


def _say_last(cables: list[CableWork], n: int, words: str) -> None:
    """As the last step of this sheet."""
    steps = cables[n].steps
    cables[n] = cables[n].with_steps((*steps, of_no_wire(steps[-1], Action.LABEL, words)))
