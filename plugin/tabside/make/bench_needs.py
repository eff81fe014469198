"""What has to lie on the bench besides the parts of the craft: tools, what is used up, what tests and power need."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from tabside.facts import families
from tabside.facts.wire import gauge_text
from tabside.make.buy.purchase import MILLIMETRES, NOT_KNOWN, Purchase
from tabside.make.craft_plan import CraftPlan
from tabside.make.needs.crimping import crimp_of
from tabside.make.sheets.cable_plan import Action, CablePlan, Step
from tabside.make.sheets.handling import RELEASE_NOT_KNOWN
from tabside.make.sheets.part_steps import PartStep
from tabside.model.craft import Craft
from tabside.model.roles import Volts
from tabside.prove.continuity import SPREAD_MM
from tabside.prove.measurement import At, Measurement, RowKind
from tabside.prove.power.rows import FirstPower
from tabside.words.contacts import counted
from tabside.words.parts import part_name, sheet_name

SHRINK_MM = 20  # for one joint: common practice, no source
_COMMON = "common practice, no source"


class Shelf(StrEnum):
    """Where a line of the shopping list belongs."""

    CRAFT = "Parts of the craft"
    USED_UP = "Used up on the bench"
    TOOLS = "Tools"
    TESTS = "For tests and first power"


@dataclass(frozen=True, slots=True)
class Need:
    shelf: Shelf
    what: Purchase


def bench_needs(
    craft: Craft, plan: CraftPlan, rows: Iterable[Measurement], power: FirstPower, pack: Volts | None
) -> tuple[Need, ...]:
    """In the order in which they are used."""
    work = _Work(craft, plan.cables, plan.parts)
    measured = [row for row in rows if row.kind is not RowKind.LOOK]
    return (
        *(Need(Shelf.USED_UP, what) for what in work.used_up()),
        *(Need(Shelf.TOOLS, what) for what in work.tools()),
        *(Need(Shelf.TESTS, what) for what in _test_needs(craft, measured, power, pack)),
    )


def needs_of_sheets(
    craft: Craft, sheets: Sequence[CablePlan], parts: Sequence[PartStep], rows: Iterable[Measurement]
) -> tuple[Purchase, ...]:
    """What these sheets use up, their tools, and what these rows are measured with."""
    work = _Work(craft, sheets, parts)
    measured = [row for row in rows if row.kind is not RowKind.LOOK]
    return (*work.used_up(), *work.tools(), *_meter(craft, measured))


class _Work:
    """What the steps of all sheets do, by where it is done."""

    def __init__(self, craft: Craft, cables: Sequence[CablePlan], parts: Sequence[PartStep]) -> None:
        self._gauge = {lead.mark: lead.gauge_awg for lead in craft.leads}
        self._cables, self._parts = cables, parts
        self._steps = [(cable, step) for cable in cables for step in cable.steps]

    def _of(self, *actions: Action) -> list[tuple[CablePlan, Step]]:
        return [(cable, step) for cable, step in self._steps if step.action in actions]

    def used_up(self) -> Iterator[Purchase]:
        yield from self._shrink()
        soldered = self._of(Action.SOLDER)
        if soldered or self._parts:
            used = (*_labels(soldered), *(part_name(part.reference) for part in self._parts))
            yield Purchase(item="solder, with flux", part_number="", unit="", quantity=1, used_for=used)
        live = [(cable, step) for cable, step in self._steps if step.live]
        if live:
            yield Purchase(
                item="insulating tape", part_number="", unit="", used_for=_labels(live), note="over a pack's bare leads"
            )

    def _shrink(self) -> Iterator[Purchase]:
        joints: dict[int | None, list[tuple[CablePlan, Step]]] = {}
        for cable, step in self._of(Action.SHRINK):
            joints.setdefault(self._gauge.get(step.lead), []).append((cable, step))
        for gauge, found in sorted(joints.items(), key=lambda item: (item[0] is None, item[0] or 0)):
            over = "wire of a gauge that is not known" if gauge is None else f"{gauge_text(gauge)} AWG wire"
            yield Purchase(
                item=f"heat-shrink tube over {over}",
                part_number="",
                gauge_awg=gauge,
                quantity=SHRINK_MM * len(found),
                unit=MILLIMETRES,
                used_for=_labels(found),
                note=f"{counted(len(found), 'piece')} of {SHRINK_MM} mm ({_COMMON})",
            )
        if again := self._covered_again():
            yield Purchase(
                item="heat-shrink tube, or insulating tape where no end is free",
                part_number="",
                unit="",
                used_for=_labels(again),
                note="over joints that are covered again",
            )
        legs = [part for part in self._parts for _ in range(part.joints)]
        if legs:
            yield Purchase(
                item="heat-shrink tube over legs of parts",
                part_number="",
                quantity=SHRINK_MM * len(legs),
                unit=MILLIMETRES,
                used_for=tuple(dict.fromkeys(part_name(part.reference) for part in legs)),
                note=f"{counted(len(legs), 'piece')} of {SHRINK_MM} mm ({_COMMON})",
            )

    def tools(self) -> Iterator[Purchase]:
        if cut := self._of(Action.CUT, Action.STRIP):
            gauges = sorted({gauge for _, step in cut if (gauge := self._gauge.get(step.lead)) is not None})
            span = dict.fromkeys(gauge_text(gauge) for gauge in (gauges[:1] + gauges[-1:]))
            note = f"for {' to '.join(span)} AWG" if span else ""
            yield Purchase(item="wire stripper and cutter", part_number="", used_for=_labels(cut), note=note)
        yield from self._crimp_tools()
        yield from self._release_tools()
        if opened := [(cable, step) for cable, step in self._steps if step.uncovers]:
            note = "to cut covers off joints: away from you, clear of the wires' insulation"
            yield Purchase(item="sharp knife", part_number="", used_for=_labels(opened), note=note)
        if soldered := [*self._of(Action.SOLDER), *self._joints_undone()]:
            yield Purchase(
                item="soldering iron", part_number="", used_for=_labels(soldered), note="ventilation, eye protection"
            )
        if shrunk := [*self._of(Action.SHRINK), *self._covered_again()]:
            yield Purchase(item="hot-air tool for heat-shrink", part_number="", used_for=_labels(shrunk))
        if any(end.has_plug and not end.is_cup for cable in self._cables if cable.steps for end in cable.ends):
            yield Purchase(item="fine pen", part_number="", note="for the contact-1 mark on each plug")

    def _covered_again(self) -> list[tuple[CablePlan, Step]]:
        """Covers for which no tube was slid on before a joint."""
        tubes = {(cable.label, step.end, step.lead) for cable, step in self._of(Action.SHRINK)}
        covers = [(cable, step) for cable, step in self._of(Action.INSULATE) if not step.live]
        return [(cable, step) for cable, step in covers if (cable.label, step.end, step.lead) not in tubes]

    def _joints_undone(self) -> list[tuple[CablePlan, Step]]:
        joints = {
            (cable.label, end.name) for cable in self._cables for end in cable.ends if not end.has_plug or end.is_cup
        }
        off = self._of(Action.TAKE_OUT, Action.LEAVE_OUT)
        return [(cable, step) for cable, step in off if step.cavity is not None and (cable.label, step.end) in joints]

    def _crimp_tools(self) -> Iterator[Purchase]:
        tools: dict[tuple[str, str], list[tuple[CablePlan, Step]]] = {}
        for cable, step in self._of(Action.CRIMP):
            family = _families(cable).get(step.end)
            if family is not None:
                tools.setdefault((family, crimp_of(family, self._gauge.get(step.lead)).tool), []).append((cable, step))
        for (family, tool), found in tools.items():
            yield Purchase(
                item="hand crimp tool", part_number=tool or NOT_KNOWN, family=family, used_for=_labels(found)
            )

    def _release_tools(self) -> Iterator[Purchase]:
        released: dict[str, list[tuple[CablePlan, Step]]] = {}
        for cable, step in self._of(Action.TAKE_OUT, Action.LEAVE_OUT):
            if step.cavity is None or not step.occupancy or step.end in _cups(cable):
                continue  # a whole plug, or a joint
            family = _families(cable).get(step.end)
            if family is not None:
                released.setdefault(family, []).append((cable, step))
        for family, found in released.items():
            known = families.family(family)
            how = known.extraction or RELEASE_NOT_KNOWN
            yield Purchase(
                item="fine tweezers and a needle, to release contacts",
                part_number="",
                family=family,
                used_for=_labels(found),
                source=known.retention_source.words,
                note=how,
            )


def _labels(found: Iterable[tuple[CablePlan, Step]]) -> tuple[str, ...]:
    """What it is used for, as sheets are called."""
    return tuple(dict.fromkeys(sheet_name(cable.label, cable.mark) for cable, _ in found))


def _families(cable: CablePlan) -> Mapping[str, str | None]:
    return {end.name: end.family for end in cable.ends}


def _cups(cable: CablePlan) -> set[str]:
    """Places whose plug is soldered."""
    return {end.name for end in cable.ends if end.is_cup}


def _meter(craft: Craft, rows: list[Measurement], *, volts: bool = False) -> Iterator[Purchase]:
    if rows or volts:
        yield Purchase(item="multimeter", part_number="", note="continuity that beeps, DC volts to 0.01 V")
    fine = _fine_families(craft, rows)
    if fine:
        yield Purchase(
            item="needle probes",
            part_number="",
            quantity=2,
            used_for=tuple(families.family(family).title for family in fine),
            note="at the edge of a contact, never into it",
        )


def _test_needs(craft: Craft, rows: list[Measurement], power: FirstPower, pack: Volts | None) -> Iterator[Purchase]:
    yield from _meter(craft, rows, volts=bool(power.rows))
    if power.rows:
        volts = f"; for {pack}" if pack else ""
        yield Purchase(
            item="current limiter",
            part_number="",
            used_for=("first power",),
            note=f"{power.limiter.needed()}{volts}",
        )
    for family, ways in power.mating_plugs:
        yield Purchase(
            item="spare mating connector with pigtails",
            family=family,
            ways=ways,
            used_for=("first power", "continuity sheet"),
            note="what the plug of the cable goes into, with a wire on each contact for the probes",
        )


def _fine_families(craft: Craft, rows: Iterable[Measurement]) -> list[str]:
    touched = {end.termination for row in rows for end in row.ends if end.at is At.CONTACT and end.termination}
    found = {craft.terminations[reference].family for reference in touched if reference in craft.terminations}
    known = sorted(family for family in found if family is not None)
    return [family for family in known if (families.family(family).pitch_mm or SPREAD_MM) < SPREAD_MM]
