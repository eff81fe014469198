"""Volts of a pack on which hands worked: once, when the last of its joints is made, with the fuse in again."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Sequence

from msgspec.structs import replace

from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.looks import without_rows
from tabside.compare.work.packs.hot import Circuit, Hot, fuse_waits, power_on
from tabside.compare.work.packs.last_joint import Left, is_own_plug, joined_last, looks_before_covers, no_short_first
from tabside.compare.work.worded import ON, of_no_wire
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.loose_sheets import MEASURE_VOLTS
from tabside.make.sheets.moments import is_volts
from tabside.prove.measurement import At, Measurement
from tabside.words.fuses import put_back, take_out_again


def volts_last(
    cables: Sequence[CableWork], hot: Hot, rows: Sequence[Measurement], left: Left, later: Collection[str]
) -> list[CableWork]:
    """`rows`: of the whole sheet; `later`: packs that come on again after the last sheet."""
    nowhere = {row.id for row in rows if is_own_plug(row) and any(at.is_of(row) for at in hot.circuits)}
    done = [without_rows(looks_before_covers(work), nowhere) for work in cables]
    turns = {at: _last_sheet(done, at) for at in hot.circuits}
    for at in sorted(hot.circuits, key=lambda circuit: (turns[circuit] is None, turns[circuit] or 0)):
        if turns[at] is not None:
            done = _measured(done, at, hot, rows, left, waits=at.waits_for(later))
        elif not at.has_plug:  # where it comes on again after all else, or at first power
            ids = {row.id for row in rows if is_volts(row) and at.is_of(row)}
            done = [without_rows(work, ids) for work in done]
    live = [n for n, work in enumerate(done) if any(step.live for step in work.steps)]
    untouched = [fuse for fuse in hot.fuses if not any(fuse in at.fuses for at in turns if turns[at] is not None)]
    waits = [fuse for fuse in untouched if any(fuse in at.fuses and not at.has_plug for at in hot.circuits)]
    for n in live[-1:]:
        done[n] = _fuse_back(done[n], [fuse for fuse in untouched if fuse not in waits], has_plug=True)
        done[n] = _fuse_back(done[n], waits, has_plug=False)
    return [_one_end_at_a_time(work, hot) for work in done]


def _one_end_at_a_time(work: CableWork, hot: Hot) -> CableWork:
    """Wires behind a fuse that wait for a pack's own: soldered, the fuse out again, before that one is bare."""
    for n, step in enumerate(work.steps):
        bare = [row for row in step.rows if is_volts(row) and row.where.at is At.BARE]
        waiting = tuple(row for row in bare if row.where.lead not in hot.mine)
        own = tuple(row for row in step.rows if row not in waiting)
        labels = list(itertools.takewhile(lambda step: step.action is Action.LABEL, work.steps[n + 1 :]))
        if not waiting or len(waiting) == len(bare) or not labels:
            continue
        after = work.steps[n + 1 + len(labels) :]
        joints = _joints_of(after, {row.where.lead or "" for row in waiting})
        rest = [step for step in after if step not in joints]
        volts = replace(step, full=MEASURE_VOLTS, short=MEASURE_VOLTS, rows=own)
        first = [*work.steps[:n], replace(step, rows=waiting), *labels, *joints]
        return work.with_steps([*first, volts, *rest])
    return work


def _joints_of(steps: Sequence[Step], leads: Collection[str]) -> list[Step]:
    """Of these wires, each with the look before its cover."""
    found: list[Step] = []
    for before, step in itertools.pairwise([*steps[:1], *steps]):
        if step.lead not in leads:
            continue
        look = before.action is Action.TEST and not before.rows and step.action is Action.INSULATE
        found += [before, step] if look else [step]
    return found


def _last_sheet(cables: Sequence[CableWork], at: Circuit) -> int | None:
    """On which hands are at a live wire of the circuit that is in the new build, and the last one that joins to it."""

    def at_circuit(work: CableWork, *, live: bool) -> bool:
        steps = (step for step in work.steps if step.cavity and step.lead in at.wires)
        return work.fate.new is not None and any(step.live if live else step.action in ON for step in steps)

    worked = [n for n, work in enumerate(cables) if at_circuit(work, live=True)]
    joined = [n for n, work in enumerate(cables) if at_circuit(work, live=False)]
    return max((*worked, *joined)) if worked else None


def _measured(
    cables: Sequence[CableWork], at: Circuit, hot: Hot, rows: Sequence[Measurement], left: Left, *, waits: bool
) -> list[CableWork]:
    """`waits`: for another pack, in series with what these sheets join."""
    done, last_n = list(cables), _last_sheet(cables, at) or 0
    volts = [row for row in rows if is_volts(row) and at.is_of(row)]
    ids = {row.id for row in volts}
    volts = [row for row in volts if not is_own_plug(row)]
    here = [row for row in cables[last_n].tested if row in volts] if cables[last_n].sheet is not None else []
    bare = any(row.where.at is At.BARE for row in here)
    planned = (
        bool(here) and not waits and _ends_wait(cables[last_n], here) and not (not at.has_plug and at.has_gate(bare))
    )  # the volts would be on a lamp as well
    for n in range(len(done)):
        if n != last_n or not planned:
            done[n] = without_rows(done[n], ids)
    if planned:  # the plan knows before which joint, but not of a fuse in wires that stay
        own_made = any(mark in hot.mine for work in done if work.sheet is not None for mark in work.sheet.leads)
        known = {end.termination for work in done if work.sheet is not None for end in work.sheet.ends}
        done[last_n] = _with_fuse(done[last_n], at, known if own_made else set(), hot)
        return done if at.has_plug else _fuse_waits(no_short_first(done, last_n, rows, left, hot), last_n, at)
    done = [work.with_steps(_unpowered(step, at) for step in work.steps) for work in done]
    soldered = None if at.has_plug or waits else joined_last(done, at, hot, rows, left)
    if soldered is not None:
        return _fuse_waits(soldered, last_n, at)
    last = done[last_n]
    words = power_on([at], MEASURE_VOLTS if volts else "")
    if not at.has_plug:  # its volts would be on the craft: they are measured at first power
        words, volts = at.fuse_stays_out() if at.fuses else "", []
    if words:
        action = Action.TEST if volts else Action.LABEL
        step = of_no_wire(last.steps[-1], action, words, tuple(volts))
        known = {row.id for row in last.measure}
        more = tuple(row for row in volts if row.id not in known)
        last = last.with_steps((*last.steps, step))._replace(measure=(*last.measure, *more))
    done[last_n] = last
    return done


def _ends_wait(work: CableWork, rows: Sequence[Measurement]) -> bool:
    """Whether each bare end on which volts are measured is soldered on this sheet, after that."""
    joints = {step.lead for step in work.steps if step.action is Action.SOLDER}
    return all(row.where.at is not At.BARE or row.where.lead in joints for row in rows)


def _fuse_waits(cables: list[CableWork], n: int, at: Circuit) -> list[CableWork]:
    """A fuse that does not part every pack of the circuit stays out all the same."""
    if at.fuses and not at.gated:
        cables[n] = _fuse_back(cables[n], at.fuses, has_plug=False)
    return cables


def _fuse_back(work: CableWork, fuses: Sequence[str], *, has_plug: bool) -> CableWork:
    """Of packs that have gone, or at whose wires in the new build no hand was."""
    if not fuses:
        return work
    words = f"{put_back(fuses)}, the pack away" if has_plug else fuse_waits(fuses)
    return work.with_steps((*work.steps, of_no_wire(work.steps[-1], Action.LABEL, words)))


def _with_fuse(work: CableWork, at: Circuit, planned: Collection[str], hot: Hot) -> CableWork:
    """The plan of the new wires knows of fuses and switches in these wires alone: of those it has `planned`."""
    known = {*(work.sheet.fuses_out if work.sheet is not None else ()), *set(at.switches).intersection(planned)}
    fuses = [fuse for fuse in at.fuses if fuse not in known]
    switches = [switch for switch in at.switches if switch not in known]
    steps: list[Step] = []
    for n, step in enumerate(work.steps):
        if not any(map(is_volts, step.rows)):
            steps.append(_unpowered(step, at) if fuses and at.gated else step)
            continue
        words = power_on([circuit for circuit in hot.circuits if any(map(circuit.is_of, step.rows))], MEASURE_VOLTS)
        steps.append(replace(step, full=words, short=words))
        later = any(step.live and step.action is Action.SOLDER for step in work.steps[n:])
        if fuses and later:
            again = f"{take_out_again(fuses)}; it stays so until first power, through a smoke stopper"
            steps.append(of_no_wire(step, Action.LABEL, again))
        if switches and later:
            steps.append(of_no_wire(step, Action.LABEL, f"switch {', '.join(switches)} off again"))
    return work.with_steps(steps)


def _unpowered(step: Step, at: Circuit) -> Step:
    """The plan of the new wires alone does not know where first power is: not at this joint."""
    return replace(step, power="") if step.lead in at.wires else step
