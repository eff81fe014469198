"""The order of work as Markdown: a text that reads as it stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from tabside.compare.comparison import cleared_words
from tabside.compare.order import FIRST_TITLE, LABELS_TITLE, NUMBERS_TITLE, ROWS, Order, doing, label_of, work_words
from tabside.compare.work.steps import CableWork
from tabside.documents.about import About
from tabside.make.sheets.cable_plan import PlugRow
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import CAUTIONS, ORDER_OF_CHANGES
from tabside_exporters.comparisons.order_page import between, compared_with
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.markdown_pages import escaped

_BOX = "\\[ \\]"


def order_markdown(order: Order, about: About) -> bytes:
    """The same as the page, with rows of boxes for plugs."""
    found = order.comparison
    parts = [f"# Order of work: {escaped(about.craft_line)}"]
    if about.not_cleared:
        parts.append(f"**{cleared_words(found)}**")
    parts.append("\n".join(f"- {escaped(line)}" for line in (about.made_from_line, compared_with(order))))
    if found.same:
        rest = "Only labels change." if order.labels else "There is nothing to do at the bench."
        parts.append(f"Same build: every cable stays as it is. {rest}")
        parts += _list(LABELS_TITLE, order.labels, _BOX)
        return ("\n\n".join(parts) + "\n").encode()
    parts += ["Caution:", "\n".join(f"- {escaped(line)}" for line in (*CAUTIONS, *ORDER_OF_CHANGES))]
    parts += _list("Is it so? Matched without a name that tells it", order.matched)
    parts += _list("Get these first", order.get, _BOX)
    parts += _list("Tools, and what is used up", order.tools, _BOX)
    parts += _list("Boards and connectors", order.boards, _BOX)
    parts += _list(NUMBERS_TITLE, order.numbers, _BOX)
    parts += _list(LABELS_TITLE, order.labels, _BOX)
    parts += _at_packs(FIRST_TITLE, order.first, order)
    parts += _list("The meter first, and parts before a wire is on them", order.meter, _BOX)
    if order.works:
        parts.append(ROWS)
    for work in order.works:
        parts += _work(work, order)
    parts += _list("Parts across wires, before any pack", order.parts, _BOX)
    parts += _list("Plug in again", order.plug_in, _BOX)
    parts += _list("Measure last: what belongs to no single cable", order.last, _BOX)
    parts += _at_packs("Then first power", (*order.at_packs, *order.power), order)
    settings = [
        f"{each.name}: {each.before or 'nothing'}; now {each.after or 'nothing'}. {each.bench}"
        for each in order.settings
    ]
    parts += _list("Set again in the firmware", settings, _BOX)
    parts += _list("Stated again: check it against what you have", order.facts, _BOX)
    parts += _list("New findings", order.new)
    parts += _list("Findings fixed", order.gone)
    parts += _list("Findings still open", order.still)
    parts += _list("Acceptances", order.acceptances)
    parts += _list("For the drawer: what becomes free", order.free)
    if order.stock:
        parts += ["## The same for the craft file's stock", f"```toml\n{order.stock}\n```"]
    parts += _list("Cables that stay as they are", order.kept)
    return ("\n\n".join(parts) + "\n").encode()


def _list(title: str, lines: Iterable[str], box: str = "") -> list[str]:
    listed = [f"- {box} {escaped(line)}" if box else f"- {escaped(line)}" for line in lines]
    return [f"## {title}", "\n".join(listed)] if listed else []


def _at_packs(title: str, lines: Sequence[str], order: Order) -> list[str]:
    """With the cautions of work at packs, where there is some."""
    told = _list(title, lines, _BOX)
    if told and (title == FIRST_TITLE or order.at_packs):
        told[1:1] = _cautions(order.cautions)
    return told


def _cautions(cautions: Iterable[str]) -> list[str]:
    told = "\n".join(f"- **{escaped(text)}**" for text in cautions)
    return [told] if told else []


def _work(work: CableWork, order: Order) -> Iterator[str]:
    found = order.comparison
    yield f"## {escaped(label_of(work.fate))}: {doing(work.fate)}. {escaped(between(work.fate, found.old, found.new))}"
    if work.stopped:
        yield f"**Stop.** {escaped(work.stopped)}"
    yield escaped(work_words(work))
    yield from _cautions(work.cautions)
    if work.looks:
        yield "\n".join(f"- {_BOX} Check by eye first: {escaped(text)}" for text in work.looks)
    for row in work.rows:
        if row.before != row.after:
            name = escaped(f"{row.board}/{row.termination}")
            yield f"{name}: {_row(row, before=True)} becomes {_row(row, before=False)}"
    lines = []
    for step in work.steps:
        lines.append(f"- {_BOX} {step.number}. {escaped(step.words)}")
        lines += [f"  - {escaped(text)}" for text in step.around]
        lines += [f"  - {_BOX} {escaped(each.words)}" for each in step.unplug]
        for measured in step.rows:
            number = found.step_of.get(measured.id, "-")
            lines.append(f"  - {_BOX} row {number}: {escaped(row_words(measured))}")
        lines += [f"  - {_BOX} {escaped(each.words)}" for each in step.plug_in]
    if lines:
        yield "\n".join(lines)


def _row(row: PlugRow, *, before: bool) -> str:
    boxes = " ".join(f"{each.number}:{each.lead or '-'}" for each in (row.before if before else row.after))
    return f"`{clean(boxes).replace('`', '')}`"
