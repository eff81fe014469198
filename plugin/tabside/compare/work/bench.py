"""All the work between two builds: each cable's steps in the order of work, what is measured, what is needed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec import Struct, field

from tabside.compare.changes.parts_across import changes_of_parts, parts_to_fit
from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.fates.packs import boards_that_go
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import Exchanged
from tabside.compare.work.boards import board_sheets, boards_swapped, look_at_boards
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.covering.joints import joints_covered
from tabside.compare.work.covering.splices import splices_covered, splices_untaped
from tabside.compare.work.covering.tape import tape_off
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.cables import work_on
from tabside.compare.work.measuring.alone import boards_alone
from tabside.compare.work.measuring.as_it_stands import as_it_stands
from tabside.compare.work.measuring.looks import idle_looks, looked_at
from tabside.compare.work.measuring.of_no_step import (
    as_looked_at,
    measurable,
    rows_of_no_cable,
    wired_before,
    with_rows_of_steps,
    work_from_ground,
)
from tabside.compare.work.measuring.spoiled_rows import SpoiledRows
from tabside.compare.work.new_wires import NOTHING_MADE, plan_new_wires
from tabside.compare.work.numbers import Number, new_numbers
from tabside.compare.work.packs.bare_ends import ends_and_joints, live_where_live
from tabside.compare.work.packs.cautions import beside_sheets, with_cautions
from tabside.compare.work.packs.clear_pads import own_ends_off_first, pads_cleared, pads_freed
from tabside.compare.work.packs.first_power import power_said
from tabside.compare.work.packs.hot import Hot, joints_that_stay
from tabside.compare.work.packs.last_joint import Left, Metering, from_ground
from tabside.compare.work.packs.poles import Poles
from tabside.compare.work.packs.soldered import (
    Again,
    Parted,
    first_words,
    last_words,
    off_already,
    off_before,
    on_again,
    parted,
)
from tabside.compare.work.packs.volts import volts_last
from tabside.compare.work.packs.ways import Ways, packs_that_stay
from tabside.compare.work.parts.needs import crimped_anew, needs_between
from tabside.compare.work.parts.thing import Need
from tabside.compare.work.plugs import Plugs
from tabside.compare.work.taped import Taped, touched_by
from tabside.compare.work.turns import cables_in_order
from tabside.documents.build import CraftBuild
from tabside.make.sheets.cable_plan import OFF, Aside
from tabside.make.sheets.when.moments import is_volts
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement


class Work(Struct, frozen=True):
    """What there is to do; nothing of it between two drawings of one build."""

    cables: tuple[CableWork, ...] = ()  # in the order of work
    measure: tuple[Measurement, ...] = ()  # all that the work can have spoiled, in the order of the sheet
    step_of: Mapping[str, int] = field(default_factory=dict)  # row of the continuity sheet -> its step
    needs: tuple[Need, ...] = ()  # what to get, and what becomes free
    plug_in: tuple[Aside, ...] = ()  # last of all: what is still out for a test
    first: tuple[str, ...] = ()  # how packs without a plug are parted from the craft before all else
    last: tuple[str, ...] = ()  # how those that no step touches come on again after all else
    cautions: tuple[str, ...] = ()  # what can hurt at `first` and `last`
    fits: frozenset[str] = frozenset()  # parts that are soldered across wires, by the new drawing's references
    at_soldered_packs: bool = False  # a pack's own wire comes off before the first sheet, or goes on after the last one
    bared: str = ""  # what is still taped and is measured last
    on_again: frozenset[str] = frozenset()  # packs' own wires that come off before all else and go on again after it
    numbers: tuple[Number, ...] = ()  # new ones for what is there, to be given before anything is moved


def work_between(rebuild: Rebuild, fates: tuple[CableFate, ...], build: CraftBuild, exchanged: Exchanged) -> Work:
    """`build` is that of the new drawing."""
    rows, plugs = SpoiledRows(rebuild, build, fates), Plugs(rebuild, fates)
    if not rows.any and not exchanged.swapped:
        needs = needs_between(rebuild, fates, NOTHING_MADE, plugs, exchanged)
        return Work(tuple(map(CableWork, fates)), needs=needs, numbers=new_numbers(rebuild, fates))
    begun = _begun(rebuild, fates, build, exchanged, rows, plugs)
    cables = _sheets(begun)
    again = on_again(rebuild, begun.packs, cables)
    cables = _with_packs(begun, cables, again)
    cables, taped = tape_off(
        off_already(cables, begun.off), begun.off.values(), joints_that_stay(rebuild.new, begun.hot, _lifted(cables))
    )
    cables = splices_untaped(cables, rebuild.new)
    idle = idle_looks(cables)
    cables = as_it_stands([work.without_rows(idle) for work in cables], begun.builds.tests)
    return _listed(begun, cables, idle, taped, again)


class _Begun(NamedTuple):
    """What is known before the first step."""

    builds: BothBuilds
    exchanged: Exchanged
    rows: SpoiledRows
    ordered: list[CableFate]
    packs: list[Parted]  # that are soldered to the craft
    off: dict[str, str]  # old numbers of wires that come off before all else -> as the steps call them

    @property
    def hot(self) -> Hot:
        return self.builds.hot

    @property
    def build(self) -> CraftBuild:
        return self.builds.build

    def poles(self) -> Poles:
        """How things stand before the first step."""
        return Poles(self.builds.rebuild, self.builds.fates, self.off, self.exchanged.packs)


def _begun(
    rebuild: Rebuild,
    fates: tuple[CableFate, ...],
    build: CraftBuild,
    exchanged: Exchanged,
    rows: SpoiledRows,
    plugs: Plugs,
) -> _Begun:
    wires = plan_new_wires(build, fates, build.proof.rows, wired_before(rebuild).same)
    packs = parted(rebuild, fates)
    off = off_before(rebuild, packs, fates)
    ordered, hot = cables_in_order(rebuild, fates, build, wires, off)
    rows.share_out(ordered)
    builds = BothBuilds(rebuild, build, plugs, wires, fates, hot, exchanged.swapped)
    return _Begun(builds, exchanged, rows, ordered, packs, off)


def _sheets(begun: _Begun) -> list[CableWork]:
    """What hands do, in an order in which nothing stands in the way and no two poles meet, all covered."""
    builds, rebuild = begun.builds, begun.builds.rebuild
    in_turn = boards_swapped(list(_in_turn(begun)), builds)
    cables = pads_freed(pads_cleared(in_turn, begun.poles), rebuild)
    cables = own_ends_off_first(cables, rebuild, begun.exchanged.packs)
    return joints_covered(splices_covered(cables, rebuild), rebuild)


def _in_turn(begun: _Begun) -> Iterator[CableWork]:
    """What hands do with each cable, as it stands when its turn comes."""
    builds, rows, ordered = begun.builds, begun.rows, begun.ordered
    wanted = [boards_alone(rows.of(fate)) for fate in ordered]
    leaving = sum(fate.new is None for fate in ordered)  # they leave the craft before all else
    for n, fate in enumerate(ordered):
        if n == leaving:
            yield from board_sheets(builds)
        builds.later = frozenset[str]().union(*wanted[n + 1 :])
        yield work_on(builds, fate, rows.of(fate))
    if leaving == len(ordered):
        yield from board_sheets(builds)


def _with_packs(begun: _Begun, cables: list[CableWork], again: Sequence[tuple[str, str]]) -> list[CableWork]:
    """With the volts of packs, with what comes with power, and LIVE and tape where they belong.

    `again`: packs that come on again after the last sheet, and their wires.
    """
    hot, build, rebuild = begun.hot, begun.build, begun.builds.rebuild
    left = Left(list(rows_of_no_cable(cables, begun.rows)), any(changes_of_parts(rebuild)))
    becomes = becomes_of_wires(rebuild, begun.builds.fates)
    come_again = (becomes[mark] for mark in begun.off if mark in becomes)
    ways = Ways(rebuild.new, come_again, packs_that_stay(rebuild, begun.exchanged.packs))
    cables = volts_last(cables, Metering(hot, build.proof.rows, left, ways), {pack for pack, _ in again})
    cables = power_said(list(map(with_rows_of_steps, cables)), begun.poles(), {*rebuild.old.fuses, *rebuild.new.fuses})
    cables = ends_and_joints(live_where_live(cables, hot), rebuild.new, hot)
    return [work_from_ground(work, _volts(build), hot) for work in cables]


def _volts(build: CraftBuild) -> list[Measurement]:
    return [row for row in build.proof.rows if is_volts(row)]


def _lifted(cables: Iterable[CableWork]) -> set[str]:
    """Wires that a step takes off."""
    return {step.lead for work in cables for step in work.steps if step.action in OFF}


def _listed(
    begun: _Begun,
    cables: list[CableWork],
    idle: Collection[str],
    taped: dict[Taped, str],
    again: Sequence[tuple[str, str]],
) -> Work:
    """All that there is to do; `idle`: looks where no hand was; `taped`: what is so after the last sheet."""
    builds, hot, build, rebuild = begun.builds, begun.hot, begun.build, begun.builds.rebuild
    needs = needs_between(rebuild, builds.fates, builds.wires, builds.plugs, begun.exchanged, crimped_anew(cables))
    told = {row.id: row for work in cables for row in work.measure}
    spoiled = (told.get(row.id, row) for row in begun.rows.all(told) if row.id not in idle)
    measure = tuple(from_ground(row, _volts(build), hot) for row in looked_at(build, cables, spoiled))
    seen = {row.id: row for row in measure}
    cables = [as_looked_at(work, seen) for work in cables]
    untaped = _untaped_for(measure, cables, taped)
    facts = Again(rebuild.new, build.proof.rows, build.proof.step_of, taped, hot)
    last = tuple(last_words(begun.packs, again, cables, facts))
    measure = tuple(measurable(measure, cables, facts.measured(again), hot, rebuild))
    nobody = seen.keys() - {row.id for row in measure}
    cables = [work._replace(measure=tuple(row for row in work.measure if row.id not in nobody)) for work in cables]
    return Work(
        cables=tuple(with_cautions(cables, hot, rebuild)),
        measure=measure,
        step_of=build.proof.step_of,
        needs=needs,
        plug_in=tuple(builds.tests.give_back(())),
        first=tuple(_first(begun, cables)),
        last=last,
        cautions=beside_sheets(begun.packs, hot, rebuild),
        numbers=new_numbers(rebuild, builds.fates, {step.spare for work in cables for step in work.steps} - {""}),
        fits=parts_to_fit(rebuild),
        at_soldered_packs=any(pack.wires for pack in begun.packs),
        on_again=frozenset(mark for _, mark in again),
        bared=f"take the tape off {' and '.join(untaped)}" if untaped else "",
    )


def _untaped_for(rows: Iterable[Measurement], cables: Iterable[CableWork], taped: dict[Taped, str]) -> list[str]:
    """What is bared for rows of no step; it is under tape no longer."""
    tested = {row.id for work in cables for row in work.tested}
    places = (place for row in rows if row.id not in tested for place in touched_by(row) if place.reference)
    return sorted({words for place in places if (words := taped.pop(place, ""))})


def _first(begun: _Begun, cables: Iterable[CableWork]) -> Iterator[str]:
    """Before all else."""
    rebuild, fates = begun.builds.rebuild, begun.builds.fates
    yield from _not_begun(cables)
    yield from look_at_boards(begun.exchanged.swapped)
    away = begun.exchanged.packs - boards_that_go(rebuild.old, fates)
    yield from map(_put_away, sorted(away, key=natural))
    yield from (first_words(rebuild, pack, fates) for pack in begun.packs)


def _put_away(pack: str) -> str:
    """Where wires stay that the pack's own plug goes into: no sheet of theirs says it."""
    return f"another pack: unplug {pack}, the old one, and put it away before the new one comes near"


def _not_begun(cables: Iterable[CableWork]) -> Iterator[str]:
    """What cannot be done is said before a hand is on the craft."""
    for work in cables:
        if work.stopped:
            yield f"do not begin: {work.fate.name} cannot be done as drawn, its sheet says why"
