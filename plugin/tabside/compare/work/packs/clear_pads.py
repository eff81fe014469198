"""The two poles of a pack never meet: what still joins a place to the one comes off before the other is soldered there.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork, Turn, each_once, each_step
from tabside.compare.work.packs.poles import Poles
from tabside.compare.work.worded import BARED, ON, old_number, with_tape
from tabside.make.sheets.cable_plan import OFF, Action
from tabside.model.craft import ContactKey, Kind


def pads_cleared(cables: Sequence[CableWork], poles: Callable[[], Poles]) -> list[CableWork]:
    """The same in an order in which this holds, whichever sheet the wire that leaves belongs to.

    `poles`: how things stand before the first step.
    """
    done = list(cables)
    for _ in range(sum(len(work.steps) for work in cables)):
        found = _first_meeting(done, poles())
        if found is None:
            break
        done = _off_first(done, *found)
    return done


def _first_meeting(cables: Sequence[CableWork], poles: Poles) -> tuple[Turn, Turn] | None:
    """A joint, and the first later step that takes a wire off which parts the poles again."""
    for at, step in each_step(cables):
        wire = poles.does(step, cables[at.sheet].old_leads)
        met = poles.meeting(wire) if wire is not None else set()
        found = _parts_them(cables, at, poles, met) if met else None
        if found is not None:
            return at, found
    return None


def _parts_them(cables: Sequence[CableWork], joint: Turn, poles: Poles, met: set[tuple[str, ...]]) -> Turn | None:
    after = ((at, step) for at, step in each_step(cables) if at > joint)
    return next((at for at, step in after if poles.takes_off(step, cables[at.sheet].old_leads, met)), None)


def pads_freed(cables: Sequence[CableWork], rebuild: Rebuild) -> list[CableWork]:
    """The same, where a wire that leaves a place is off before another one is soldered there, whichever sheet it is on.

    At pads, of what no pack reaches: its wires have an order of their own.  At fuses and switches of all wires.
    """
    terminations = rebuild.new.terminations.items()
    pads = {ref for ref, termination in terminations if termination.kind is Kind.PAD}
    parts = {ref for ref, termination in terminations if termination.kind is Kind.INLINE}
    done = list(cables)
    for _ in range(sum(len(work.steps) for work in cables)):
        found = _first_taken(done, rebuild.old, pads, parts)
        if found is None:
            break
        done = _off_first(done, *found)
    return done


def _first_taken(
    cables: Sequence[CableWork], old: Side, pads: Collection[str], parts: Collection[str]
) -> tuple[Turn, Turn] | None:
    """A joint, and the step of a later sheet that takes another wire off there."""
    leaves: dict[tuple[str, str | None], list[Turn]] = {}
    for at, step in each_step(cables):
        if step.action in OFF and step.cavity is not None and not step.of_old:
            fed = old_number(step, cables[at.sheet].old_leads) in old.fed_by
            if step.termination in parts or (step.termination in pads and not fed):
                leaves.setdefault((step.end, step.cavity), []).append(at)
    for at, step in each_step(cables):
        if step.action is Action.SOLDER and not step.of_old:
            off = next((off for off in leaves.get((step.end, step.cavity), ()) if off.sheet > at.sheet), None)
            if off is not None:
                return at, off
    return None


def own_ends_off_first(cables: Sequence[CableWork], rebuild: Rebuild, going: Collection[str]) -> list[CableWork]:
    """A pack's own wire that is made anew elsewhere leaves its old joint, or its plug, before it is cut.

    `going`: packs that do not stay.
    """
    done = list(cables)
    for mark, was in _made_again(rebuild, [work.fate for work in cables], going).items():
        late = _late_off(done, mark, was)
        if late is not None and late.plug is not None:  # the whole plug first: other steps stand elsewhere by then
            done = _moved(done, late.plug, late.hands)
            late = _late_off(done, mark, was)
        if late is not None:
            done = _moved(done, late.off, late.hands)
    return done


class _LateOff(NamedTuple):
    """A wire that comes off after hands were at it."""

    hands: Turn
    off: Turn
    plug: Turn | None  # the whole plug there comes out in between


def _late_off(cables: Sequence[CableWork], mark: str, was: str) -> _LateOff | None:
    """`mark`, `was`: the wire's new number and its old one."""
    steps = list(each_step(cables))
    hands = next((at for at, step in steps if step.lead == mark and step.action in (*BARED, *ON)), None)
    if hands is None:
        return None
    later = [(at, step) for at, step in steps if at > hands and step.action in OFF]
    ends = (
        (at, step.termination)
        for at, step in later
        if step.cavity is not None and old_number(step, cables[at.sheet].old_leads) == was
    )
    off, place = next(ends, (None, ""))
    if off is None:
        return None
    plugs = (at for at, step in later if at < off and step.cavity is None and step.termination == place)
    return _LateOff(hands, off, next(plugs, None))


def _off_first(cables: list[CableWork], joint: Turn, off: Turn) -> list[CableWork]:
    """Before the first hand on the wire of the joint."""
    steps = cables[joint.sheet].steps
    lead = steps[joint.step].lead
    first = next(k for k, step in enumerate(steps) if step.lead == lead and step.cavity is not None)
    return _moved(cables, off, Turn(joint.sheet, first))


def _moved(cables: list[CableWork], off: Turn, before: Turn) -> list[CableWork]:
    """A step that takes something off, and its tape, to before another one of an earlier sheet.

    That sheet lists the place as well.
    """
    source = cables[off.sheet]
    taken = with_tape(source.steps, off.step)
    cables[off.sheet] = source.with_steps(step for step in source.steps if step not in taken)
    work = cables[before.sheet]
    olds = {name: was for name, was in source.old_leads.items() if name == taken[0].lead}
    ends = each_once((*work.ends, *(end for end in source.ends if end.name == taken[0].end)))
    there = work._replace(ends=ends, old_leads={**olds, **work.old_leads})
    cables[before.sheet] = there.with_more(taken, before.step)
    return cables


def _made_again(rebuild: Rebuild, fates: Iterable[CableFate], going: Collection[str]) -> dict[str, str]:
    """New number of each own wire of a pack that stays, but is made anew elsewhere -> its old one.

    `going`: packs that do not stay.
    """
    old, new, matching = rebuild
    on = becomes_of_wires(rebuild, fates)
    made = {key: mark for mark in new.live if mark not in on.values() for key in _own_keys(new, mark)}
    gone = [(matching.key(key), mark) for mark in old.live if mark not in on for key in _own_keys(old, mark)]
    return {made[key]: mark for key, mark in gone if key in made and old.live[mark] not in going}


def _own_keys(side: Side, mark: str) -> set[ContactKey]:
    return side.own_ends(frozenset(side.by_mark[mark].ends))
