"""All that there is to do between two builds, as lists in the order of work."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from enum import StrEnum
from itertools import groupby

from msgspec import Struct

from tabside.compare.change import CHANGED, Change
from tabside.compare.comparison import Comparison
from tabside.compare.craft_files import NAME as CRAFT_FILE
from tabside.compare.craft_files import craft_file_words
from tabside.compare.fates.cable_fate import KEEP, MOVE_PLUG, CableFate
from tabside.compare.fates.new_labels import NewLabels
from tabside.compare.fates.what_part import Told, told_by_value
from tabside.compare.stated import finding_words
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.numbers import ASIDE, Number, Renumber
from tabside.compare.work.parts import Need, stock_text
from tabside.facts import families
from tabside.make.buy.bench_needs import needs_of_sheets
from tabside.make.buy.purchase import MILLIMETRES, NOT_KNOWN
from tabside.make.method import Method
from tabside.make.sheets.cable_plan import CablePlan
from tabside.make.sheets.part_steps import part_steps
from tabside.model.craft import Kind
from tabside.model.natural import natural
from tabside.prove.continuity import ground_plugs_for, spare_plugs_for
from tabside.prove.measurement import Measurement, RowKind, Test, When
from tabside.prove.rows.row_words import row_words
from tabside.wiring.leads.marks import stamped_cable_marks, stamped_lead_marks
from tabside.words.contacts import listed

FIRST_TITLE = "Before all else"
_PRINTED = "`tabside export` of the new drawing has them"
LABELS_TITLE = (
    "Labels to print again: they go on in place of old labels, tags and pen marks; a tube that no loose end lets on "
    "is a strip around the wire, under clear tape"
)
NUMBERS_TITLE = "New numbers for what is there, before anything is moved, in this order, at both ends"
METER_TITLE = "The meter first, and parts before a wire is on them"
TOOLS_TITLE = "Tools, and what is used up"
STATED_TITLE = "Stated again: check it against what you have"
LAST_TITLE = "Measure last: what belongs to no single cable"
PARTS_TITLE = "Parts across wires, before any pack"
PLUG_IN_TITLE = "Plug in again"
POWER_TITLE = "Then first power"
_AT_SOLDERED_PACKS = (
    ("soldering iron", "ventilation, eye protection"),
    ("solder, with flux", "for the pack's joints"),
    ("insulating tape", "over a pack's bare leads"),
    ("smoke stopper", "at the last joint of a pack, and for first power"),
)
_AT_JOINTS = (
    ("soldering iron", "ventilation, eye protection"),
    ("solder, with flux", "for the joints of the other part"),
    ("insulating tape", "over what is bare"),
    ("heat-shrink tube", "over joints that are covered again"),
    ("sharp knife", "to cut covers off joints: away from you, clear of the wires' insulation"),
)
_STAYS = "It stays as it is. What the drawing says of it has changed: measure it."
_MOST_CHOSEN = 60
_ALL = 1000  # numbers of one cable: none may be left out
STAMP = (
    "Numbers of what stays changed only because other cables and wires came or went. `tabside stamp` writes them into "
    "the drawing: stamp what is built, and the next change leaves them as they are."
)
ROWS = "The rows of tests are those of the continuity sheet of the new drawing, by its numbers."
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
        get=(*map(_need, (need for need in found.purchases if need.more > 0)), *spare_plug_lines(found)),
        tools=tuple(_tools(found, works)),
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
        settings=tuple(c for c in found.changes if c.subject == "setting" and c.is_work),
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
        f"Not drawn but chosen in the old drawing: {listed(marks, _MOST_CHOSEN)}. What you built may join the same "
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


def row_line(found: Comparison, row: Measurement) -> str:
    """By its number on the continuity sheet."""
    return f"row {found.step_of.get(row.id, '-')}: {row_words(row)}"


def _need(need: Need) -> str:
    stocked = need.to_buy is not None and need.to_buy != need.more
    there = f", {need.more - (need.to_buy or 0)} from stock" if stocked else ""
    note = f" ({need.note})" if need.note else ""
    thing = need.thing
    count = f"{need.more} mm of {thing.words}" if thing.unit == MILLIMETRES else f"{need.more} x {thing.item}"
    return f"{count}{there}{note}"


def spare_plugs(found: Comparison) -> Iterator[tuple[str, int | None, int]]:
    """What a probe needs where it may not be pushed into a contact: family, ways, and how many."""
    if found.build is not None:
        yield from spare_plugs_for(found.build.proof.world, found.measure)


def ground_plugs(found: Comparison) -> Iterator[tuple[str, int | None, str]]:
    """By what a probe reaches a board's known ground: family, ways, and the board connector it goes into."""
    if found.build is not None:
        yield from ground_plugs_for(found.build.proof.world, found.measure)


def spare_plug_lines(found: Comparison) -> Iterator[str]:
    """The same in words."""
    for family, ways, number in spare_plugs(found):
        size = f" {ways}-way" if ways else ""
        yield (
            f"{number} x spare mating connector with pigtails, {families.family(family).title}{size} "
            "(for tests: what the plug goes into, with a wire on each contact for the probes)"
        )
    for family, ways, place in ground_plugs(found):
        size = f" {ways}-way" if ways else ""
        yield (
            f"1 x spare cable plug with pigtails, {families.family(family).title}{size} "
            f"(for tests: it goes into {place}, a known ground is on it)"
        )


def _tools(found: Comparison, works: Collection[CableWork]) -> Iterator[str]:
    """What lies on the bench besides the parts."""
    todo = found.todo
    across = any(change.subject == "part" for change in found.changes)
    other = _has_other_inline_part(found)
    if found.build is None or not (works or across or other or todo.at_soldered_packs or found.measure):
        return
    parts = [step for step in part_steps(found.build.craft) if step.reference in todo.fits]
    items = set[str]()
    for need in needs_of_sheets(found.build.craft, [as_plan(work) for work in works], parts, found.measure):
        family = families.family(need.family).title if need.family else ""
        number = need.part_number if need.part_number != NOT_KNOWN else "(which one is not known)"
        amount = f"{need.quantity} mm" if need.unit == MILLIMETRES else ""
        said = " ".join(filter(None, (need.item, number, family)))
        told = [*filter(None, (amount, need.note))]
        items.add(need.item)
        yield f"{said}: {'; '.join(told)}" if told else said
    more = _AT_SOLDERED_PACKS if todo.at_soldered_packs else _AT_SOLDERED_PACKS[:1] if across else ()
    more = (*more, *_AT_JOINTS) if other else more
    yield from (f"{item}: {what_for}" for item, what_for in dict(more).items() if item not in items)
    if any(row.kind is RowKind.LOOK and row.test is Test.LOOK for row in found.measure):
        yield "magnifier: to look at joints"
    if found.todo.numbers:
        yield "tags or a pen, for the new numbers"
    if found.labels:
        yield f"labels printed again, those listed below ({_PRINTED})"
    if new := list(_marks_of_new(found, works)):
        yield f"labels of what is new, one for each end: {listed(new, len(new))} ({_PRINTED})"


def _has_other_inline_part(found: Comparison) -> bool:
    """Whether a fuse, a switch or a diode is another one now, while its wires stay where they are."""
    pairs = ((found.old.terminations[a], found.new.terminations[b]) for a, b in found.matching.pairs.items())
    return any(a.kind is b.kind is Kind.INLINE and told_by_value(a, b) is not Told.SAME for a, b in pairs)


def _marks_of_new(found: Comparison, works: Iterable[CableWork]) -> Iterator[str]:
    """Cables and wires that had no label in the old build."""
    for work in works:
        fate = work.fate
        if fate.new is None or work.stopped:
            continue
        if fate.new.mark and not fate.wires:
            yield f"cable {fate.new.mark}"
        yield from sorted((found.new.leads[wire].mark for wire in fate.made), key=natural)


def as_plan(work: CableWork) -> CablePlan:
    """The work on a cable as a sheet of the plan, so that it is laid out like one."""
    cable = work.fate.new or work.fate.old
    return CablePlan(
        mark=None if cable is None else cable.mark or None,
        label=work.fate.name,
        leads=() if cable is None else cable.leads,
        ends=work.ends,
        method=Method.RE_PIN if work.sheet is None else work.sheet.method,
        start_from=None,
        from_what="",
        steps=work.steps,
        needs_one_look=work.looks,
        minutes=0.0,
        cost=0.0,
        why=work_words(work),
        rows=work.rows,
        start=None,
        handling=(),
        stopped=work.stopped,
        cautions=work.cautions,
    )


def doing(fate: CableFate) -> str:
    """In one word."""
    if fate.board is not None:
        return f"onto the new {fate.board.kind}" if fate.what == MOVE_PLUG else fate.what
    return "measure" if fate.what == KEEP else fate.what


def work_words(work: CableWork) -> str:
    if work.fate.what == KEEP and work.steps:
        return " ".join(filter(None, (_STAYS, work.fate.said)))
    return work.fate.words


def number_lines(found: Comparison) -> Iterator[str]:
    """New numbers, those of one cable that follow each other on one line."""
    for where, group in groupby(found.todo.numbers, key=lambda number: number.where):
        told = (_renumbered(list(alike)) for _, alike in groupby(group, key=_how_renumbered))
        yield f"{where}: {', then '.join(told)}"


def stamp_words(found: Comparison) -> str:
    """How numbers stay: where one of a cable or wire that stays as it is has changed, and no drawing holds it."""
    old = found.old
    held = {mark for marks in stamped_lead_marks(old.terminations)[0].values() for mark in marks}
    held |= set(stamped_cable_marks(old.terminations)[0].values())
    kept = {old.leads[wire].mark for fate in found.cables if fate.what == KEEP for wire, _ in fate.wires}
    kept |= {fate.old.mark for fate in found.cables if fate.what == KEEP and fate.old is not None}
    changed = {number.first for number in found.todo.numbers if number.how is Renumber.NEW}
    return STAMP if changed & kept - held else ""


def labels_told(found: Comparison) -> Iterator[NewLabels]:
    """Those to print again; none of a sheet that stops."""
    stopped = {work.fate.label for work in found.work if work.stopped}
    return (labels for labels in found.labels if labels.name not in stopped)


def label_lines(found: Comparison) -> Iterator[str]:
    """What to print again, and when it goes on."""
    by_sheet = {work.fate.label for work in found.work if work.steps and work.fate.new is not None}
    for labels in labels_told(found):
        yield f"{labels.words}: {'by its sheet' if labels.name in by_sheet else 'put them on now'}"


def _how_renumbered(number: Number) -> tuple[object, ...]:
    return (number.how, number.of_cable and number.how is not Renumber.ASIDE, number.into)


def _renumbered(numbers: Sequence[Number]) -> str:
    """Those of one cable that are changed in one way."""
    first = numbers[0]
    was, now = (listed([getattr(number, name) for number in numbers], _ALL) for name in ("was", "now"))
    many = len(numbers) > 1
    if first.how is Renumber.OFF:
        return f"take the number {was} off: it becomes part of {first.into}"
    if first.how is Renumber.APART:
        return f"take the number {was} off: its leads stay on the part that brings them, and go on as {first.into}"
    if first.how is Renumber.ASIDE:
        return f"write {ASIDE} before {was} for now"
    if first.how is Renumber.SPARE:
        marks = listed([f'"{number.now}"' for number in numbers], _ALL)
        return f"{was} {'are' if many else 'is'} no longer used: write {marks} on {'them' if many else 'it'}"
    return f"{was} {'become' if many else 'becomes'} {now}{', in this order' if many else ''}"
