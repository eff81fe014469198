"""In which order the cables are worked on: what leaves first, then what no pack reaches, the last joint last."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from enum import IntEnum, auto

from tabside.compare.fates.cable_fate import KEEP, RETIRE, CableFate
from tabside.compare.fates.sharing import order_between
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.new_wires import NewWires
from tabside.compare.work.packs.circuits import Circuit
from tabside.compare.work.packs.hot import Hot, hot_wires
from tabside.documents.build import CraftBuild
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.needs.working_order import in_working_order
from tabside.make.sheets.when.moments import is_volts
from tabside.model.natural import natural
from tabside.prove.measurement import At, Measurement


def _in_order(fates: tuple[CableFate, ...], build: CraftBuild, old: Side) -> Iterator[CableFate]:
    """What leaves the craft first; then whatever never meets a pack; a pack's own leads last of all.

    A cable whose plugs hold wires of another comes before that.
    """
    leaves = [fate for fate in fates if fate.what == RETIRE or fate.new is None]
    own = {fate.name for fate in leaves if any(old.leads[wire].mark in old.live for wire in fate.gone)}
    yield from sorted(leaves, key=lambda fate: fate.name not in own)  # what hangs on a pack is dead when that is off
    made = {made_lead.lead.mark: made_lead for made_lead in build.leads}
    by_name = {fate.name: fate for fate in fates if fate.new is not None}
    jobs = [
        CableJob(fate.new.mark or None, name, tuple(made[mark] for mark in fate.new.leads), fate.new.ends)
        for name, fate in by_name.items()
        if fate.new is not None
    ]
    comes_after, done = order_between(fates), set[str]()

    def with_those_before(name: str) -> Iterator[CableFate]:
        if name not in done:
            done.add(name)
            for earlier in sorted(comes_after.get(name, ()), key=natural):
                yield from with_those_before(earlier)
            yield by_name[name]

    for job in in_working_order(build.craft, jobs):
        yield from with_those_before(job.label)


def cables_in_order(
    rebuild: Rebuild,
    fates: tuple[CableFate, ...],
    build: CraftBuild,
    wires: NewWires,
    off: Collection[str],
) -> tuple[list[CableFate], Hot]:
    """The order of work, and what is live in it: what hangs on a pack's wire that is off comes before its joint.

    Where that cannot be, what is off does not count: all that hangs on it is worked on as live.
    """
    old = rebuild.old
    ordered = list(_in_order(fates, build, old))
    waited_for = {name for names in order_between(fates).values() for name in names}
    for out in (off, ()):
        hot = hot_wires(rebuild, fates, out)
        found = sorted(ordered, key=_Turns(build, wires, hot, old, waited_for).when)
        turns = [set(fate.new.leads) if fate.new is not None and fate.what != KEEP else set() for fate in found]
        joints = [n for n, leads in enumerate(turns) if leads & hot.off]
        if not joints or not any(leads & hot.dead for leads in turns[joints[0] + 1 :]):
            break
    return found, hot


class _When(IntEnum):
    """When a cable's turn comes, by what of packs it has to do with; earlier ones first."""

    COLD = auto()  # no pack reaches it, or another cable waits for it
    OWN = auto()  # packs' own wires
    BEYOND = auto()  # what goes on from them
    WAITS = auto()  # bare until the volts of a pack are measured
    LAST = auto()  # no fuse keeps the power of its last joint from the craft


class _Turns:
    """What waits, bare, for the volts of a pack comes after the pack's own wires, or before its own plus.

    That one is the last of all where no fuse keeps power from the craft.
    """

    def __init__(self, build: CraftBuild, wires: NewWires, hot: Hot, old: Side, waited_for: Collection[str]) -> None:
        """`waited_for`: cables out of whose plugs wires of others come."""
        self._wires, self._hot, self._old, self._waited_for = wires, hot, old, waited_for
        self._bare = {row.where.lead or "" for row in build.proof.rows if _is_at_bare_end(row)}
        soldered = [at for at in hot.circuits if not at.has_plug]
        self._beyond = (_wires_of(soldered) & hot.new) - hot.mine - hot.minus
        last = (_wires_of(at for at in soldered if not at.gated) & hot.mine) - hot.minus
        last |= hot.off if hot.dead else frozenset()
        self._last = last | (_wires_of(at for at in soldered if at.wires & hot.dead) & hot.mine)

    def when(self, fate: CableFate) -> _When:
        if fate.new is None or fate.name in self._waited_for:
            return _When.COLD
        leads = set(fate.new.leads) if fate.what != KEEP else set()
        if leads & self._last:
            return _When.LAST
        beyond = leads & self._beyond
        if {self._old.leads[wire].mark for wire in fate.gone} & set(self._old.live) and not beyond:
            return _When.COLD  # first off, then on again by another sheet
        if beyond & self._bare or self._measures_bare_ends(fate):
            return _When.WAITS
        if not beyond:
            return _When.COLD
        return _When.OWN if leads & self._hot.mine else _When.BEYOND

    def _measures_bare_ends(self, fate: CableFate) -> bool:
        sheet = self._wires.whole.get(fate.name)
        return sheet is not None and any(_is_at_bare_end(row) for step in sheet.steps for row in step.rows)


def _is_at_bare_end(row: Measurement) -> bool:
    return is_volts(row) and row.where.at is At.BARE


def _wires_of(circuits: Iterable[Circuit]) -> frozenset[str]:
    return frozenset[str]().union(*(at.wires for at in circuits))
