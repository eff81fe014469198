"""The comparison as the JSON object that `tabside compare --json` prints."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from tabside.compare.changes.change import Change
from tabside.compare.changes.findings import Retest
from tabside.compare.comparison import Comparison
from tabside.compare.fates.cable_fate import RE_MAKE, SHORTEN, CableFate
from tabside.compare.held import held_words, not_yet
from tabside.compare.matched.matching import BY_FIT
from tabside.compare.order.numbers_and_labels import labels_told
from tabside.compare.order.order_of_work import order_of_work
from tabside.compare.order.parts_to_get import ground_plugs, spare_plugs
from tabside.compare.order.sheets import work_words
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.parts.thing import Need
from tabside.documents.as_json.plan import step_json
from tabside.documents.as_json.proof import row_json
from tabside.documents.as_json.verdict import finding_json
from tabside.make.sheets.cable_plan import Aside, Step
from tabside.prove.measurement import Measurement
from tabside.words.cautions import CAUTIONS, ORDER_OF_CHANGES

FORMAT = "tabside/compare/1"
_DO = {SHORTEN: RE_MAKE}


def comparison_json(comparison: Comparison) -> dict[str, Any]:
    """A plain object for `json.dumps`; what does not apply is null."""
    order = order_of_work(comparison)
    return {
        "format": FORMAT,
        "changes": [_change(change) for change in comparison.changes],
        "same": comparison.same,
        "cleared": comparison.cleared,
        "not_yet": not_yet(comparison) or None,
        "findings": _findings(comparison.retest),
        "matching": list(_matching(comparison)),
        "recounted": [list(count) for count in comparison.recounted],
        "chosen": order.chosen or None,
        "numbers": [[number.was, number.now or None] for number in comparison.todo.numbers],
        "numbers_stay": order.stamp or None,
        "labels": [
            {"where": labels.where, "flags": list(labels.flags), "tubes": list(labels.tubes)}
            for labels in labels_told(comparison)
        ],
        "cautions": [] if comparison.same else [*CAUTIONS, *ORDER_OF_CHANGES, *comparison.todo.cautions],
        "cables": [_cable(work, comparison) for work in comparison.work],
        "first": list(order.first),
        "meter": _rows(comparison, order.meter_rows),
        "tape_off": order.tape_off or None,
        "measure_last": _rows(comparison, order.last_rows),
        "last": list(order.at_packs),
        "plug_in": _asides(comparison.todo.plug_in),
        "parts": [_part(need) for need in comparison.purchases],
        "spare_plugs": [
            {"family": family, "ways": ways, "count": count} for family, ways, count in spare_plugs(comparison)
        ],
        "ground_plugs": [
            {"family": family, "ways": ways, "at": place} for family, ways, place in ground_plugs(comparison)
        ],
        "tools": list(order.tools),
        "stock": order.stock or None,
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "kind": change.kind,
        "subject": change.subject,
        "name": change.name,
        "before": change.before,
        "after": change.after,
        "bench": change.bench,
    }


def _findings(retest: Retest) -> dict[str, Any]:
    return {
        "new": [finding_json(finding) for finding in retest.new],
        "gone": [finding_json(finding) for finding in retest.gone],
        "standing": len(retest.still),
        "still": [finding_json(finding) for finding in retest.still],
    }


def _rows(comparison: Comparison, rows: Iterable[Measurement]) -> list[dict[str, Any]]:
    """With the number of each on the continuity sheet."""
    return [row_json(row, comparison.step_of.get(row.id)) for row in rows]


def _asides(asides: Iterable[Aside]) -> list[dict[str, str]]:
    return [{"termination": aside.termination, "words": aside.words} for aside in asides]


def _part(need: Need) -> dict[str, Any]:
    """As `more` and `to_buy` count it: pieces, or millimetres of wire."""
    thing = need.thing
    return {
        "item": need.item,
        "more": need.more,
        "to_buy": need.to_buy,
        "unit": thing.unit,
        "part_number": thing.part_number,
        "family": thing.family,
        "ways": thing.ways,
        "gauge_awg": thing.gauge_awg,
        "colour": thing.colour,
        "length_mm": thing.length_mm,
        "note": need.note or None,
    }


def _cable(work: CableWork, comparison: Comparison) -> dict[str, Any]:
    fate = work.fate
    return {
        "old": (fate.old.mark or None) if fate.old else None,
        "new": (fate.new.mark or None) if fate.new else None,
        "do": _DO.get(fate.what, fate.what),
        "from": _source(fate),
        "old_leads": list(fate.old.leads) if fate.old else [],
        "new_leads": list(fate.new.leads) if fate.new else [],
        "wires": [list(pair) for pair in comparison.wires_of(fate)],
        "sources": list(fate.sources),
        "board": fate.board.name if fate.board is not None else None,
        "words": work_words(work),
        "stopped": work.stopped or None,
        "not_yet": list(held_words(comparison, fate)),
        "cautions": list(work.cautions),
        "needs_one_look": list(work.looks),
        "steps": [_step(step, work) for step in work.steps],
        "measure": _rows(comparison, work.measure),
    }


def _source(fate: CableFate) -> str | None:
    """The old cable that gives its wires; of several the one that becomes the new one, or the first."""
    if not fate.old or not fate.new or not fate.wires:
        return None
    return fate.old.mark or next(iter(fate.sources), None)


def _step(step: Step, work: CableWork) -> dict[str, Any]:
    """As in a plan; and which wire of the old build it is, which of two housings, and of which drawing the end is."""
    return step_json(step) | {
        "old_lead": work.old_leads.get(step.lead) if step.lead else None,
        "housing": step.housing or None,
        "unplug": _asides(step.unplug),
        "plug_in": _asides(step.plug_in),
        "of_old": step.of_old,
        "swap": step.swap or None,
    }


def _matching(comparison: Comparison) -> Iterator[list[str | None]]:
    """Each termination of both drawings once; null where it has gone, or is new."""
    matching = comparison.matching
    for reference in comparison.old.terminations:
        yield [reference, matching.pairs.get(reference), matching.how.get(reference, BY_FIT)]
    known = set(matching.pairs.values())
    for reference in comparison.new.terminations:
        if reference not in known:
            yield [None, reference, BY_FIT]
