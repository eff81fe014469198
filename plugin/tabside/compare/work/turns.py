"""In which order the cables are worked on: what leaves first, then what no pack reaches, the last joint last."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet

from tabside.compare.fates.cable_fate import KEEP, RETIRE, CableFate
from tabside.compare.fates.sharing import order_between
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.new_wires import NewWires
from tabside.compare.work.packs.hot import Hot, hot_wires
from tabside.documents.build import CraftBuild
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.needs.working_order import in_working_order
from tabside.make.sheets.when.moments import is_volts
from tabside.model.natural import natural
from tabside.prove.measurement import At


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
    """The order of work, and what is live in it: what hangs on a pack's wire that is off comes before its joint."""
    old = rebuild.old
    bare = {row.where.lead or "" for row in build.proof.rows if is_volts(row) and row.where.at is At.BARE}
    ordered = list(_in_order(fates, build, old))
    for out in (off, ()):
        hot = hot_wires(rebuild, fates, out)
        found = _last_joint_last(ordered, wires, bare, order_between(fates), hot, old)
        turns = [set(fate.new.leads) if fate.new is not None and fate.what != KEEP else set() for fate in found]
        joints = [n for n, leads in enumerate(turns) if leads & hot.off]
        if not joints or not any(leads & hot.dead for leads in turns[joints[0] + 1 :]):
            break
    return found, hot


def _last_joint_last(
    ordered: Sequence[CableFate],
    wires: NewWires,
    bare: AbstractSet[str],
    comes_after: Mapping[str, Collection[str]],
    hot: Hot,
    old: Side,
) -> list[CableFate]:
    """What waits, bare, for the volts of a pack comes after the pack's own wires, or before its own plus.

    That one is the last of all where no fuse keeps power from the craft.
    """
    soldered = [at for at in hot.circuits if not at.has_plug]
    beyond = (frozenset[str]().union(*(at.wires for at in soldered)) & hot.new) - hot.mine - hot.minus
    last = (frozenset[str]().union(*(at.wires for at in soldered if not at.gated)) & hot.mine) - hot.minus
    last |= hot.off if hot.dead else frozenset()
    last |= frozenset[str]().union(*(at.wires & hot.mine for at in soldered if at.wires & hot.dead))
    waited_for = {name for names in comes_after.values() for name in names}

    def turn(fate: CableFate) -> int:
        if fate.new is None or fate.name in waited_for:
            return 0
        leads = set(fate.new.leads) if fate.what != KEEP else set()
        if leads & last:
            return 4
        if {old.leads[wire].mark for wire in fate.gone} & set(old.live) and not leads & beyond:
            return 0  # first off, then on again by another sheet
        sheet = wires.whole.get(fate.name)
        rows = [row for step in sheet.steps for row in step.rows] if sheet is not None else []
        if leads & beyond & bare or any(is_volts(row) and row.where.at is At.BARE for row in rows):
            return 3
        return (1 if leads & hot.mine else 2) if leads & beyond else 0

    return sorted(ordered, key=turn)
