"""The order of work as Markdown: a text that reads as it stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tabside.compare.held import held_prefix, held_words, not_yet, title_of, why_not_yet
from tabside.compare.order.order_of_work import Order
from tabside.compare.order.sheets import doing, work_words
from tabside.compare.order.titles import (
    FIRST_TITLE,
    LABELS_TITLE,
    LAST_TITLE,
    METER_TITLE,
    NUMBERS_TITLE,
    PARTS_TITLE,
    PLUG_IN_TITLE,
    POWER_TITLE,
    ROWS,
    STATED_TITLE,
    TOOLS_TITLE,
)
from tabside.compare.work.cable_work import CableWork
from tabside.documents.about import About
from tabside.make.sheets.cable_plan import PlugRow
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import CAUTIONS, ORDER_OF_CHANGES
from tabside_exporters.comparisons.order_page import between, compared_with
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.markdown_pages import escaped

_BOX = "\\[ \\]"
_STOCK = "The same for the craft file's stock"


def order_markdown(order: Order, about: About) -> bytes:
    """The same as the page, with rows of boxes for plugs."""
    found = order.comparison
    parts = [f"# Order of work: {escaped(about.craft_line)}"]
    if about.not_cleared:
        parts.append(f"**{why_not_yet(found)}**")
    parts.append("\n".join(f"- {escaped(line)}" for line in (about.made_from_line, *compared_with(order))))
    if found.same:
        rest = "Only labels change." if order.labels else "There is nothing to do at the bench."
        parts.append(f"Same build: every cable stays as it is. {rest}")
        parts += _list(LABELS_TITLE, order.labels, _BOX)
        return ("\n\n".join(parts) + "\n").encode()
    parts += ["Caution:", "\n".join(f"- {escaped(line)}" for line in (*CAUTIONS, *ORDER_OF_CHANGES))]
    parts += _list("Is it so? Matched without a name that tells it", order.matched)
    parts += _todo("Get these first", order.get, order)
    parts += _todo(TOOLS_TITLE, order.tools, order)
    parts += _todo("Boards and connectors", order.boards, order)
    parts += _todo(NUMBERS_TITLE, order.numbers, order)
    parts += _todo(LABELS_TITLE, order.labels, order)
    parts += _at_packs(FIRST_TITLE, order.first, order)
    parts += _todo(METER_TITLE, order.meter, order)
    if order.works:
        parts.append(ROWS)
    for work in order.works:
        parts += _work(work, order)
    parts += _todo(PARTS_TITLE, order.parts, order)
    parts += _todo(PLUG_IN_TITLE, order.plug_in, order)
    parts += _todo(LAST_TITLE, order.last, order)
    parts += _at_packs(POWER_TITLE, (*order.at_packs, *order.power), order)
    settings = [
        f"{setting.name}: {setting.before or 'nothing'}; now {setting.after or 'nothing'}. {setting.bench}"
        for setting in order.settings
    ]
    parts += _todo("Set again in the firmware", settings, order)
    parts += _todo(STATED_TITLE, order.facts, order)
    parts += _list("New findings", order.new)
    parts += _list("Findings fixed", order.gone)
    parts += _list("Findings still open", order.still)
    parts += _list("Acceptances", order.acceptances)
    parts += _list(title_of(found, "For the drawer: what becomes free"), order.free)
    if order.stock:
        parts += [f"## {title_of(found, _STOCK)}", f"```toml\n{order.stock}\n```"]
    parts += _list("Cables that stay as they are", order.kept)
    return ("\n\n".join(parts) + "\n").encode()


def _todo(title: str, lines: Iterable[str], order: Order) -> list[str]:
    """What is done and ticked; without boxes where nothing is to be done yet."""
    return _list(title_of(order.comparison, title), lines, _box(order))


def _box(order: Order) -> str:
    return "" if not_yet(order.comparison) else _BOX


def _list(title: str, lines: Iterable[str], box: str = "") -> list[str]:
    listed = [f"- {box} {escaped(line)}" if box else f"- {escaped(line)}" for line in lines]
    return [f"## {title}", "\n".join(listed)] if listed else []


def _at_packs(title: str, lines: Sequence[str], order: Order) -> list[str]:
    """With the cautions of work at packs, where there is some."""
    told = _todo(title, lines, order)
    if told and (title == FIRST_TITLE or order.at_packs):
        told[1:1] = _cautions(order.cautions)
    return told


def _cautions(cautions: Iterable[str]) -> list[str]:
    told = "\n".join(f"- **{escaped(text)}**" for text in cautions)
    return [told] if told else []


def _work(work: CableWork, order: Order) -> Iterator[str]:
    found = order.comparison
    place = escaped(between(work.fate, found.old, found.new))
    yield f"## {held_prefix(found)}{escaped(work.fate.label)}: {doing(work.fate)}{f'. {place}' if place else ''}"
    yield from (f"**{escaped(text)}**" for text in held_words(found, work.fate))
    if work.stopped:
        yield f"**Stop.** {escaped(work.stopped)}"
    yield escaped(work_words(work))
    yield from _cautions(work.cautions)
    box = f"{_box(order)} ".lstrip()
    if work.looks:
        yield "\n".join(f"- {box}Check by eye first: {escaped(text)}" for text in work.looks)
    for row in work.rows:
        if row.before != row.after:
            name = escaped(f"{row.board}/{row.termination}")
            before, after = _row(row, before=True), _row(row, before=False)
            was = f"{before} becomes " if before != "``" else "an empty plug becomes "
            yield f"{name}: {was}{after}" if before != after else f"{name}: {after}, before and after"
    lines = []
    for step in work.steps:
        lines.append(f"- {box}{step.number}. {escaped(step.words)}")
        lines += [f"  - {escaped(text)}" for text in step.around]
        lines += [f"  - {box}{escaped(aside.words)}" for aside in step.unplug]
        for measured in step.rows:
            number = found.step_of.get(measured.id, "-")
            lines.append(f"  - {box}row {number}: {escaped(row_words(measured))}")
        lines += [f"  - {box}{escaped(aside.words)}" for aside in step.plug_in]
    if lines:
        yield "\n".join(lines)


def _row(row: PlugRow, *, before: bool) -> str:
    boxes = " ".join(f"{cavity.number}:{cavity.lead or '-'}" for cavity in (row.before if before else row.after))
    return f"`{clean(boxes).replace('`', '')}`"
