"""The order of work as HTML: pictures of both builds, each cable with its steps, its plugs before and after."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from markupsafe import Markup

from tabside.compare.changes.change import CHANGED, Change
from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.held import NOT_YET, held_words, not_yet, why_not_yet
from tabside.compare.order.order_of_work import Order
from tabside.compare.order.sheets import as_plan, doing, work_words
from tabside.compare.order.titles import FIRST_TITLE, LABELS_TITLE, NUMBERS_TITLE, ROWS
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork
from tabside.documents.about import About
from tabside.make.sheets.cable_plan import HANDS, CablePlan
from tabside.make.sheets.handling import handling_of
from tabside.model.craft import Craft
from tabside.words.cautions import CAUTIONS, ORDER_OF_CHANGES
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.plug_drawing import plug_faces
from tabside_exporters.pages.sheet_layout import LONG, blocks_of, handling_block, is_dense, pads_of, sheet_anchor
from tabside_exporters.picture.content import Note, Notes, runs_of
from tabside_exporters.picture.drawing import craft_svg, draw_craft

_TITLE = "Order of work"
_OLD_KEY = (
    "Heavy: what is measured again; heavy and dashed: what is worked on or goes. The words in a cable say what becomes "
    "of it; its number is that of the old drawing."
)
_NEW_KEY = "Heavy: what is new here, or has been worked on. Numbers are those of the new drawing."

_STYLES = ("tables/page.css", "bench/plug.css", "bench/plan.css", "craft/craft-picture.css", "bench/order-of-work.css")
_LISTS = (  # of `Order`, lines of text each
    *("matched", "get", "tools", "boards", "numbers", "labels", "first", "meter", "parts", "plug_in", "last"),
    *("at_packs", "power", "facts", "new", "gone", "still", "acceptances", "free", "kept"),
)


def order_html(order: Order, about: About) -> bytes:
    """One page to work from."""
    found = order.comparison
    sheets = [_sheet(work, order) for work in order.works]
    return rendered(
        "bench/order-of-work.html.j2",
        styles=_STYLES,
        title=_TITLE,
        about=clean_about(about),
        cleared=why_not_yet(found),
        held=bool(not_yet(found)),
        not_yet=NOT_YET,
        lines=[clean(line) for line in (*about_lines(about), *compared_with(order))],
        same=found.same,
        cautions=(*CAUTIONS, *ORDER_OF_CHANGES),
        index=[{key: sheet[key] for key in ("id", "label", "between", "what")} for sheet in sheets],
        pictures=list(_pictures(order)),
        handling=list(_handling(order)),
        sheets=sheets,
        rows_words=ROWS,
        has_boxes=any(sheet["plugs"] for sheet in sheets)
        or any(step.occupancy and step.cavity for work in order.works for step in work.steps),
        first_title=FIRST_TITLE,
        at_packs_cautions=[clean(text) for text in order.cautions],
        numbers_title=NUMBERS_TITLE,
        labels_title=LABELS_TITLE,
        settings=[_setting(setting) for setting in order.settings],
        stock=order.stock,
        **_lists(order),
    )


def _lists(order: Order) -> dict[str, Any]:
    return {name: [clean(line) for line in getattr(order, name)] for name in _LISTS}


def _setting(setting: Change) -> dict[str, str]:
    return {
        "name": clean(setting.name),
        "before": clean(setting.before or ""),
        "after": clean(setting.after or ""),
        "bench": clean(setting.bench),
    }


def compared_with(order: Order) -> tuple[str, ...]:
    """The old drawing; why nothing is begun; what is not known of what is there; and how numbers would stay."""
    stops = (f"Do not begin: {work.fate.label}: {work.stopped}" for work in order.works if work.stopped)
    told = (f"From {order.comparison.old.described}", *stops, order.craft_file, order.chosen, order.stamp)
    return tuple(filter(None, told))


def _sheet(work: CableWork, order: Order) -> dict[str, object]:
    sheet = as_plan(work)
    numbers = dict(order.comparison.step_of)
    ends = {end.termination: end for end in work.ends if not end.of_old}
    rows = [row for row in work.rows if row.termination in ends and row.after]
    faces = 3 * len(rows)
    return {
        "id": _anchor(work),
        "label": clean(work.fate.label),
        "between": clean(between(work.fate, order.comparison.old, order.comparison.new)),
        "what": doing(work.fate),
        "words": clean(work_words(work)),
        "stopped": clean(work.stopped),
        "held": [clean(text) for text in held_words(order.comparison, work.fate)],
        "cautions": [clean(text) for text in work.cautions],
        "looks": [clean(text) for text in work.looks],
        "blocks": _blocks(sheet, numbers) if work.steps else [],
        "twin_tests": [],
        "dense": is_dense(sheet),
        "wide": any(len(step.occupancy) > LONG for step in work.steps),
        "pads": pads_of(sheet),
        "plugs": [Markup(plug_faces(row, ends[row.termination], among=max(2, faces), true_size=False)) for row in rows],
    }


def _blocks(sheet: CablePlan, numbers: dict[str, int]) -> list[dict[str, Any]]:
    """As on the plan, with rows called so: beside the steps of a sheet a bare number would be taken for one."""
    blocks: list[dict[str, Any]] = blocks_of(sheet, numbers)
    for row in (row for block in blocks for row in block.get("rows", ())):
        row["number"] = f"row {row['number']}:" if row["number"] else ""
    return blocks


def _anchor(work: CableWork) -> str:
    return sheet_anchor(work.fate.name) + ("-gone" if work.fate.new is None else "")


def between(fate: CableFate, old: Side, new: Side) -> str:
    """The places that it joins; of what leaves the craft those of the old drawing."""
    if fate.new is not None:
        return " - ".join(new.name(end) for end in fate.new.ends)
    return " - ".join(old.name(end) for end in fate.old.ends) if fate.old is not None else ""


def _handling(order: Order) -> Iterator[dict[str, object]]:
    """How contacts are released and seated, of each family that hands work on."""
    worked = {
        end.family
        for work in order.works
        for end in work.ends
        for step in work.steps
        if step.end == end.name and step.action in HANDS and step.cavity and step.occupancy
    }
    for family in sorted(text for text in worked if text):
        yield handling_block(handling_of(family))


def _pictures(order: Order) -> Iterator[dict[str, object]]:
    """Where cables are now, and where they are to be."""
    found = order.comparison
    changed = [work.fate for work in order.works]
    if not changed and not any(change.subject == "board" for change in found.changes):
        return
    came: dict[str, list[Note]] = {}
    goes: dict[str, list[Note]] = {}
    for work in order.works:
        fate = work.fate
        if fate.new is not None:
            note = Note((doing(fate), *_was_at(fate, found.old, found.new)), f"#{_anchor(work)}", strong=True)
            _note(came, found.new.craft, fate.new.leads, note)
        if fate.old is not None:
            becomes = f"{doing(fate)}: {fate.name}" if fate.new is not None else fate.what
            note = Note((becomes,), strong=True, dashed=fate.what != KEEP)
            _note(goes, found.old.craft, fate.old.leads, note)
    boards = [change for change in found.changes if change.subject == "board"]
    new_boards = {
        c.after or c.name: Note(("new" if c.kind != CHANGED else "swapped",), strong=True) for c in boards if c.after
    }
    old_boards = {c.before or c.name: Note(("goes",), strong=True, dashed=True) for c in boards if c.before}
    old = draw_craft(found.old.craft, Notes(_joined(goes), boards=old_boards))
    new = draw_craft(found.new.craft, Notes(_joined(came), boards=new_boards))
    yield {"title": "The build as it is now", "key": _OLD_KEY, "svg": craft_svg(old)}
    yield {"title": "The build as it is to be", "key": _NEW_KEY, "svg": craft_svg(new)}


def _note(notes: dict[str, list[Note]], craft: Craft, marks: Collection[str], note: Note) -> None:
    """At each cable, or each link of single wires, of the picture in which one of these wires is."""
    for run in runs_of(craft):
        if set(run.marks) & set(marks):
            notes.setdefault(run.label, []).append(note)


def _joined(notes: Mapping[str, list[Note]]) -> dict[str, Note]:
    """What several things are done with says all of them."""
    return {
        label: Note(
            tuple(dict.fromkeys(line for note in found for line in note.lines)),
            found[0].link,
            strong=True,
            dashed=any(note.dashed for note in found),
        )
        for label, found in notes.items()
    }


def _was_at(fate: CableFate, old: Side, new: Side) -> Iterator[str]:
    """Where a plug comes from that goes elsewhere."""
    if fate.what == KEEP or fate.new is None:
        return
    for ref, to in fate.places:
        if old.name(ref) != new.name(to):
            yield f"was at {old.name(ref)}"
