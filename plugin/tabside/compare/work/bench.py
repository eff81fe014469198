"""All the work between two builds: each cable's steps in the order of work, what is measured, what is needed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from tabside.analysis.power_ways import PowerWays
from tabside.compare.changes.parts_across import changes_of_parts, parts_to_fit
from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.fates.packs import boards_that_go
from tabside.compare.matched.matching import Matching
from tabside.compare.reuse.other_boards import Exchanged
from tabside.compare.reuse.what_part import is_another
from tabside.compare.side import Side
from tabside.compare.work.boards import board_sheets, boards_swapped, look_at_boards
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.covering.joints import joints_covered
from tabside.compare.work.covering.splices import splices_covered, splices_untaped
from tabside.compare.work.covering.tape import tape_off, touched_by
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.cables import work_on
from tabside.compare.work.measuring.alone import boards_alone
from tabside.compare.work.measuring.as_it_stands import as_it_stands
from tabside.compare.work.measuring.looks import idle_looks, looked_at, without_rows
from tabside.compare.work.measuring.spoiled_rows import SpoiledRows
from tabside.compare.work.new_wires import NOTHING_MADE, plan_new_wires
from tabside.compare.work.numbers import Number, new_numbers
from tabside.compare.work.packs.bare_ends import ends_and_joints, live_where_live
from tabside.compare.work.packs.cautions import beside_sheets, with_cautions
from tabside.compare.work.packs.clear_pads import own_ends_off_first, pads_cleared, pads_freed
from tabside.compare.work.packs.first_power import power_said
from tabside.compare.work.packs.hot import Hot, joints_that_stay
from tabside.compare.work.packs.last_joint import Left, from_ground, is_own_plug
from tabside.compare.work.packs.poles import Poles
from tabside.compare.work.packs.soldered import (
    Again,
    first_words,
    last_words,
    off_already,
    off_before,
    on_again,
    parted,
)
from tabside.compare.work.packs.volts import volts_last
from tabside.compare.work.packs.ways import Ways
from tabside.compare.work.parts.needs import needs_between
from tabside.compare.work.parts.thing import Need
from tabside.compare.work.plugs import Plugs
from tabside.compare.work.turns import cables_in_order
from tabside.documents.build import CraftBuild
from tabside.make.sheets.cable_plan import OFF, Action, Aside
from tabside.make.sheets.when.moments import is_volts
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.measurement import At, Measurement, RowKind, When
from tabside.prove.rows.eye import PLUGGING

ANOTHER = "of the new part, in the hand: not of the one that has wires on it"


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


def work_between(
    old: Side, new: Side, matching: Matching, fates: tuple[CableFate, ...], build: CraftBuild, exchanged: Exchanged
) -> Work:
    """`build` is that of the new drawing."""
    sides = old, new
    rows = SpoiledRows(old, new, matching, build, fates)
    plugs = Plugs(old, new, matching, fates)
    swapped = exchanged.swapped
    look = tuple(look_at_boards(swapped))
    if not rows.any and not swapped:
        needs = needs_between(old, new, matching, fates, NOTHING_MADE, plugs, exchanged)
        given = new_numbers(old, new, matching, fates)
        return Work(tuple(map(CableWork, fates)), needs=needs, numbers=given)
    wires = plan_new_wires(build, fates, build.proof.rows, _wired_before(sides, matching)[0])
    soldered = parted(old, new, matching, fates)
    off = off_before(old, new, soldered, fates)
    ordered, hot = cables_in_order(old, new, matching, fates, build, wires, off)
    builds = BothBuilds(old, new, matching, build, plugs, wires, fates, hot, swapped)
    rows.share_out(ordered)
    in_turn = boards_swapped(list(_in_turn(builds, ordered, rows)), builds)
    cables = pads_cleared(in_turn, lambda: Poles(old, new, matching, fates, off, exchanged.packs))
    pads = {ref for ref, termination in new.terminations.items() if termination.kind is Kind.PAD}
    cables = pads_freed(cables, old, pads)
    cables = own_ends_off_first(cables, _made_again(old, new, matching, fates, exchanged.packs))
    cables = joints_covered(splices_covered(cables, old, new, matching), old, new, matching)
    left = Left(list(_of_no_cable(cables, rows)), any(changes_of_parts(old, new, matching)))
    again = on_again(old, soldered, cables, new)
    later = {pack for pack, _ in again}
    off_now = becomes_of_wires(old, new, fates)
    come_again = (off_now[mark] for mark in off if mark in off_now)
    stay = _packs_that_stay(sides, matching, exchanged.packs)
    ways = Ways(new.craft, PowerWays(new.craft, new.made.values()), come_again, stay)
    cables = list(map(_with_rows_of_steps, volts_last(cables, hot, build.proof.rows, left, ways, later)))
    poles = Poles(old, new, matching, fates, off, exchanged.packs)
    cables = power_said(cables, poles, {*old.fuses, *new.fuses})
    cables = ends_and_joints(live_where_live(cables, hot), new, hot)
    volts = [row for row in build.proof.rows if is_volts(row)]
    cables = [_from_ground(work, volts, hot) for work in cables]
    lifted = {step.lead for work in cables for step in work.steps if step.action in OFF}
    cables, taped = tape_off(off_already(cables, off), off.values(), joints_that_stay(new, hot, lifted))
    cables = splices_untaped(cables, new)
    idle = idle_looks(cables)
    cables = as_it_stands([without_rows(work, idle) for work in cables], builds.tests)
    needs = needs_between(old, new, matching, fates, wires, plugs, exchanged, _crimped_anew(cables))
    told = {row.id: row for work in cables for row in work.measure}
    spoiled = (told.get(row.id, row) for row in rows.all(told) if row.id not in idle)
    measure = tuple(from_ground(row, volts, hot) for row in looked_at(build, cables, spoiled))
    seen = {row.id: row for row in measure}
    cables = [_as_looked_at(work, seen) for work in cables]
    away = sorted(exchanged.packs - boards_that_go(old, fates), key=natural)
    first = (
        *_not_begun(cables),
        *look,
        *map(_put_away, away),
        *(first_words(old, new, pack, fates, matching) for pack in soldered),
    )
    own_places = {row.id for row in measure} - {row.id for work in cables for row in work.tested}
    bared = [place for row in measure if row.id in own_places for place in touched_by(row) if place.reference]
    untaped = sorted({words for place in bared if (words := taped.pop(place, ""))})
    facts = Again(new, build.proof.rows, build.proof.step_of, taped, hot)
    last = tuple(last_words(soldered, again, cables, hot, facts))
    measure = tuple(_measurable(measure, cables, facts.measured(again), hot, sides, matching))
    nobody = seen.keys() - {row.id for row in measure}
    cables = [work._replace(measure=tuple(row for row in work.measure if row.id not in nobody)) for work in cables]
    named = {step.spare for work in cables for step in work.steps if step.spare}
    numbers = new_numbers(old, new, matching, fates, named)
    return Work(
        cables=tuple(with_cautions(cables, hot, sides)),
        measure=measure,
        step_of=build.proof.step_of,
        needs=needs,
        plug_in=tuple(builds.tests.give_back(())),
        first=first,
        last=last,
        cautions=beside_sheets(soldered, hot, sides),
        numbers=numbers,
        fits=parts_to_fit(old, new, matching),
        at_soldered_packs=any(pack.wires for pack in soldered),
        on_again=frozenset(mark for _, mark in again),
        bared=f"take the tape off {' and '.join(untaped)}" if untaped else "",
    )


def _in_turn(builds: BothBuilds, ordered: Sequence[CableFate], rows: SpoiledRows) -> Iterator[CableWork]:
    """What hands do with each cable, as it stands when its turn comes."""
    wanted = [boards_alone(rows.of(fate)) for fate in ordered]
    gone = sum(fate.new is None for fate in ordered)  # they leave the craft before all else
    for n, fate in enumerate((*ordered, None)):
        if n == gone:
            yield from board_sheets(builds)
        if fate is None:
            break
        builds.later = frozenset[str]().union(*wanted[n + 1 :])
        yield work_on(builds, fate, rows.of(fate))


def _made_again(
    old: Side, new: Side, matching: Matching, fates: Iterable[CableFate], going: Collection[str]
) -> dict[str, str]:
    """New number of each own wire of a pack that stays, but is made anew elsewhere -> its old one.

    `going`: packs that do not stay.
    """
    on = becomes_of_wires(old, new, fates)
    made = {key: mark for mark in new.live if mark not in on.values() for key in _own_keys(new, mark)}
    gone = [(matching.key(key), mark) for mark in old.live if mark not in on for key in _own_keys(old, mark)]
    return {made[key]: mark for key, mark in gone if key in made and old.live[mark] not in going}


def _own_keys(side: Side, mark: str) -> set[ContactKey]:
    return side.own_ends(frozenset(side.by_mark[mark].ends))


def _put_away(pack: str) -> str:
    """Where wires stay that the pack's own plug goes into: no sheet of theirs says it."""
    return f"another pack: unplug {pack}, the old one, and put it away before the new one comes near"


def _not_begun(cables: Iterable[CableWork]) -> Iterator[str]:
    """What cannot be done is said before a hand is on the craft."""
    for work in cables:
        if work.stopped:
            yield f"do not begin: {work.fate.name} cannot be done as drawn, its sheet says why"


def _measurable(
    rows: Iterable[Measurement],
    cables: Iterable[CableWork],
    later: Collection[str],
    hot: Hot,
    sides: tuple[Side, Side],
    matching: Matching,
) -> Iterator[Measurement]:
    """Without rows of no step that nobody can measure: volts that would be on a craft, a part with its wires on.

    `later`: rows that are told where a pack comes on again.
    """
    told = {row.id for work in cables for row in work.tested}
    stays, another = _wired_before(sides, matching)
    for row in rows:
        volts = is_volts(row) and (
            row.id in later or any(at.is_of(row) for at in hot.circuits if not at.has_plug or is_own_plug(row))
        )
        part = row.when is When.PART and row.where.termination in stays
        if row.when is When.PART and row.where.termination in another and row.kind is RowKind.BEEP:
            row = replace(row, notes=(ANOTHER, *row.notes))
        if row.id in told or not (
            volts or part or (row.kind is RowKind.BEEP and _at_soldered_pack(row, hot, sides[1]))
        ):
            yield row


def _packs_that_stay(sides: tuple[Side, Side], matching: Matching, goes: Collection[str]) -> set[str]:
    """As the new drawing calls them; `goes`: old ones that do not."""
    old, new = sides
    there = ((old.terminations[was].board, new.terminations[now].board) for was, now in matching.pairs.items())
    return {now for was, now in there if was in old.packs and was not in goes}


def _wired_before(sides: tuple[Side, Side], matching: Matching) -> tuple[set[str], set[str]]:
    """What had wires on it before: that is the same now, and that is another part, by the new references."""
    old, new = sides
    there = [(was, now) for was, now in matching.pairs.items() if old.leads_at[was]]
    another = {now for was, now in there if is_another(old.terminations[was], new.terminations[now])}
    return {now for _, now in there} - another, another


def _at_soldered_pack(row: Measurement, hot: Hot, new: Side) -> bool:
    """Whether it is metered where a pack's own plug goes on, and another pack is soldered to these wires."""
    places = frozenset[str]().union(*(at.places for at in hot.circuits))
    at = {end.termination for end in row.ends if end.at is At.CONTACT}
    return any(ref in places and new.terminations[ref].board in new.packs for ref in at)


def _of_no_cable(cables: Iterable[CableWork], rows: SpoiledRows) -> Iterator[Measurement]:
    """What is measured when all else is done; parts by themselves and volts have their own places."""
    known = {row.id for work in cables for row in (*work.measure, *work.tested)}
    for row in rows.all(known):
        looks_at_wires = row.kind is RowKind.LOOK and row.leads
        if row.id not in known and row.when not in (When.METER, When.PART) and not is_volts(row) and not looks_at_wires:
            yield row


def _from_ground(work: CableWork, volts: Sequence[Measurement], hot: Hot) -> CableWork:
    """The joint of a pack's minus, covered by then, stays so in every look for a short."""
    steps = [replace(step, rows=tuple(from_ground(row, volts, hot) for row in step.rows)) for step in work.steps]
    rows = tuple(from_ground(row, volts, hot) for row in work.measure)
    return work.with_steps(steps)._replace(measure=rows)


def _as_looked_at(work: CableWork, seen: Mapping[str, Measurement]) -> CableWork:
    """Labels are looked at where plugs go in, on the cable's sheet as well; of one that is not worked on nothing is."""
    if work.stopped:
        return work._replace(measure=())
    rows = (seen.get(row.id, row) for row in work.measure if row.group != PLUGGING or row.id in seen)
    return work._replace(measure=tuple(rows))


def _with_rows_of_steps(work: CableWork) -> CableWork:
    """Each row that a step names stands in the cable's list."""
    known = {row.id for row in work.measure}
    more = {row.id: row for row in work.tested if row.id not in known}
    return work._replace(measure=(*work.measure, *more.values())) if more else work


def _crimped_anew(works: Iterable[CableWork]) -> Iterator[tuple[str, int | None]]:
    """Contacts for wires that stay and get a new end."""
    for work in works:
        families = {end.name: end.family for end in work.ends if not end.of_old}
        for step in work.steps:
            family = families.get(step.end)
            if step.action is Action.CRIMP and step.lead in work.old_leads and family is not None:
                yield family, work.gauges.get(step.lead)
