"""All that there is to do between two builds, as lists in the order of work."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from enum import StrEnum

from msgspec import Struct

from tabside.compare.changes.change import CHANGED, Change
from tabside.compare.changes.craft_files import NAME as CRAFT_FILE
from tabside.compare.changes.craft_files import craft_file_words
from tabside.compare.changes.findings import finding_words
from tabside.compare.comparison import Comparison
from tabside.compare.fates.cable_fate import KEEP
from tabside.compare.order.numbers_and_labels import label_lines, number_lines, stamp_words
from tabside.compare.order.parts_to_get import need_line, spare_plug_lines
from tabside.compare.order.sheets import row_line
from tabside.compare.order.tools import tools_on_bench
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.parts.freed import stock_text
from tabside.prove.measurement import Measurement, When
from tabside.words.contacts import listed

_MOST_CHOSEN = 60
FIRST_POWER = (
    "then first power, stage by stage, as on the page of first power of the new drawing (`tabside export` writes it): "
    "plugs that stay unplugged here go in there, and its current limiter and mating plugs are in the BOM"
)


class Listed(StrEnum):
    """What a line of the order of work is, as a table names it."""

    STOP = "stop"
    CAUTION = "caution"
    CRAFT_FILE = "craft file"
    CHOSEN = "chosen"
    GET = "get"
    TOOL = "tool"
    BOARD = "board"
    NUMBER = "number"
    STAMP = "how numbers stay"
    LABEL = "label"
    BEFORE_ALL = "before all else"
    METER = "meter"
    CABLE = "cable"
    LOOK = "check by eye first"
    TEST = "test"
    PART = "part"
    PLUG_IN = "plug in"
    LAST = "measure last"
    FIRST_POWER = "first power"
    FIRMWARE = "firmware"
    STATED = "stated again"
    NEW_FINDING = "new finding"
    FIXED_FINDING = "finding fixed"
    OPEN_FINDING = "finding open"
    ACCEPTANCE = "acceptance"
    FREE = "becomes free"

    @property
    def is_work(self) -> bool:
        """Whether hands do it; the others are only told."""
        return self not in _TOLD


_TOLD = frozenset(
    (
        Listed.CAUTION,
        Listed.CRAFT_FILE,
        Listed.CHOSEN,
        Listed.STAMP,
        Listed.STATED,
        Listed.NEW_FINDING,
        Listed.FIXED_FINDING,
        Listed.OPEN_FINDING,
        Listed.ACCEPTANCE,
    )
)


class Order(Struct, frozen=True):
    """Each list is empty where there is nothing of its kind to do."""

    comparison: Comparison
    matched: tuple[str, ...]
    get: tuple[str, ...]  # parts
    tools: tuple[str, ...]  # and what is used up
    boards: tuple[str, ...]
    numbers: tuple[str, ...]  # to put on cables and wires that are there, in this order
    stamp: str  # how numbers stay, where they changed and need not have; "" else
    labels: tuple[str, ...]  # to be printed again
    cautions: tuple[str, ...]  # what can hurt at packs before the first cable and after the last one
    first: tuple[str, ...]  # before all else, at packs
    meter_rows: tuple[Measurement, ...]  # the meter itself, and parts before a wire is on them
    works: tuple[CableWork, ...]  # cables on which there is something to do
    parts: tuple[str, ...]  # across wires
    plug_in: tuple[str, ...]  # what is still out for tests
    tape_off: str  # what is still taped and is measured last; "" for nothing
    last_rows: tuple[Measurement, ...]  # measurements that belong to no cable
    at_packs: tuple[str, ...]  # what comes after the last measurement, at packs that no cable's steps touch
    power: tuple[str, ...]  # and then
    settings: tuple[Change, ...]
    craft_file: str  # that one side has none, and what that means; "" else
    chosen: str  # that wires of the old drawing, which this changes, were not drawn one by one; "" else
    facts: tuple[str, ...]
    stated: tuple[str, ...]  # of cables that stay what must be looked at all the same; among the facts as well
    new: tuple[str, ...]
    gone: tuple[str, ...]
    still: tuple[str, ...]
    acceptances: tuple[str, ...]
    free: tuple[str, ...]
    stock: str  # what becomes free, in the words of the craft file
    kept: tuple[str, ...]

    @property
    def meter(self) -> tuple[str, ...]:
        """Its rows in words."""
        return tuple(row_line(self.comparison, row) for row in self.meter_rows)

    @property
    def last(self) -> tuple[str, ...]:
        """Its rows in words, after the tape."""
        return (*filter(None, [self.tape_off]), *(row_line(self.comparison, row) for row in self.last_rows))

    @property
    def rest(self) -> tuple[tuple[Listed, tuple[str, ...]], ...]:
        """What comes after the cables."""
        settings = tuple(
            f"{settings.name}: {settings.after or 'nothing'}. {settings.bench}" for settings in self.settings
        )
        return (
            (Listed.PART, self.parts),
            (Listed.PLUG_IN, self.plug_in),
            (Listed.LAST, self.last),
            (Listed.CAUTION, self.cautions if self.at_packs else ()),
            (Listed.FIRST_POWER, (*self.at_packs, *self.power)),
            (Listed.FIRMWARE, settings),
            (Listed.STATED, self.facts),
            (Listed.NEW_FINDING, self.new),
            (Listed.FIXED_FINDING, self.gone),
            (Listed.OPEN_FINDING, self.still),
            (Listed.ACCEPTANCE, self.acceptances),
            (Listed.FREE, self.free),
        )


def order_of_work(found: Comparison) -> Order:
    """From the boards to the drawer; where a sheet stops, nothing is begun, and nothing follows the sheets."""

    def told(*subjects: str) -> tuple[str, ...]:
        return tuple(_told(change) for change in found.changes if change.subject in subjects)

    works = tuple(work for work in found.work if work.steps or work.stopped or work.fate.what != KEEP)
    in_steps = {row.id for work in works for row in work.tested}
    first = [row for row in found.measure if row.when in (When.METER, When.PART)]
    meter = [row for row in first if row.id not in in_steps]
    stops = any(work.stopped for work in works)
    stated = tuple(_stated_now(found, works))
    return Order(
        found,
        matched=tuple(found.how_matched()),
        get=(*map(need_line, (need for need in found.purchases if need.more > 0)), *spare_plug_lines(found)),
        tools=tuple(tools_on_bench(found, works)),
        boards=tuple(_told(change) for change in _of_boards(found)),
        works=works,
        parts=told("part"),
        cautions=found.todo.cautions,
        first=found.todo.first,
        meter_rows=tuple(meter),
        tape_off="" if stops else found.todo.bared,
        last_rows=() if stops else tuple(row for row in found.measure if row.id not in in_steps and row not in meter),
        plug_in=tuple(aside.words for aside in found.todo.plug_in),
        at_packs=() if stops else found.todo.last,
        power=(FIRST_POWER,) if found.measure and not stops else (),
        numbers=tuple(number_lines(found)),
        stamp=stamp_words(found),
        labels=tuple(label_lines(found)),
        settings=tuple(change for change in found.changes if change.subject == "setting" and change.is_work),
        craft_file=craft_file_words(found.changes),
        chosen=_chosen_words(found),
        facts=(*_facts(found), *stated),
        stated=stated,
        new=tuple(map(finding_words, found.retest.new)),
        gone=tuple(map(finding_words, found.retest.gone)),
        still=tuple(map(finding_words, found.retest.still)),
        acceptances=told("acceptance"),
        free=tuple(f"{-need.more} x {need.item}" for need in found.purchases if need.more < 0),
        stock=stock_text(found.old, found.cables),
        kept=tuple(found.kept()),
    )


def _chosen_words(found: Comparison) -> str:
    """What is built may be wired another way than was chosen, where only names join the wires that this changes."""
    leads = found.leads
    touched = {*leads.removed, *(a for a, _ in (*leads.moved, *leads.altered))}
    nets = {found.old.leads[wire].net_id for wire in touched}
    marks = [lead.mark for lead in found.old.craft.leads if lead.how == "chosen" and lead.net_id in nets]
    if not marks:
        return ""
    it = "it" if len(marks) == 1 else "each"
    return (
        f"Not drawn but chosen in the old drawing: {listed(marks, _MOST_CHOSEN)}. What you built may connect the same "
        f"contacts by other wires: see that {it} is there before you follow the steps; else draw the wires as they are "
        "and compare again."
    )


def _facts(found: Comparison) -> Iterator[str]:
    """That a craft file is missing stands at the top."""
    return (_told(change) for change in found.changes if change.subject == "fact" and change.name != CRAFT_FILE)


def _stated_now(found: Comparison, works: Collection[CableWork]) -> Iterator[str]:
    """Of cables that stay what must be looked at all the same."""
    for work in found.work:
        fate = work.fate
        if work not in works and fate.new is not None and fate.said:
            yield f"{' - '.join(found.new.name(end) for end in fate.new.ends)} ({fate.name}): {fate.words}"


def _of_boards(found: Comparison) -> Iterator[Change]:
    """Boards, and the connectors of those that stay."""
    names = {change.name for change in found.changes if change.subject == "board" and change.kind != CHANGED}
    for change in found.changes:
        if change.subject == "board" or (change.subject == "termination" and change.place not in names):
            yield change


def _told(change: Change) -> str:
    if change.kind == CHANGED and change.before and change.after:
        return f"{change.name}: before {change.before}; now {change.after}. {change.bench}"
    return f"{change.name}: {change.bench}"
