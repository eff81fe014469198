"""What lies on the bench besides the parts: tools, and what is used up."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from tabside.compare.comparison import Comparison
from tabside.compare.order.sheets import as_plan
from tabside.compare.reuse.what_part import Told, told_by_value
from tabside.compare.work.cable_work import CableWork
from tabside.facts import families
from tabside.make.bench_needs import needs_of_sheets
from tabside.make.buy.purchase import MILLIMETRES, NOT_KNOWN
from tabside.make.sheets.part_steps import part_steps
from tabside.model.craft import Kind
from tabside.model.natural import natural
from tabside.prove.measurement import RowKind, Test
from tabside.words.contacts import listed

_PRINTED = "`tabside export` of the new drawing has them"
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


def tools_on_bench(found: Comparison, works: Collection[CableWork]) -> Iterator[str]:
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
    pairs = ((found.old.terminations[was], found.new.terminations[now]) for was, now in found.matching.pairs.items())
    return any(
        before.kind is after.kind is Kind.INLINE and told_by_value(before, after) is not Told.SAME
        for before, after in pairs
    )


def _marks_of_new(found: Comparison, works: Iterable[CableWork]) -> Iterator[str]:
    """Cables and wires that had no label in the old build."""
    for work in works:
        fate = work.fate
        if fate.new is None or work.stopped:
            continue
        if fate.new.mark and not fate.wires:
            yield f"cable {fate.new.mark}"
        yield from sorted((found.new.leads[wire].mark for wire in fate.made), key=natural)
