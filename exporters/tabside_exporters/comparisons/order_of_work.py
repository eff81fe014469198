"""What to do at the bench so that the old build becomes the new one, in the order of work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from tabside.compare.held import NOT_YET, held_words, not_yet, why_not_yet
from tabside.compare.order.order_of_work import Listed, Order
from tabside.compare.order.sheets import row_line, work_words
from tabside.documents.document import Document, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.make.sheets.cable_plan import Step
from tabside.words.cautions import CAUTIONS, ORDER_OF_CHANGES
from tabside_exporters.comparisons.order_page import order_html
from tabside_exporters.comparisons.order_text import order_markdown

if TYPE_CHECKING:
    from tabside.documents.about import About
    from tabside.documents.build import CraftBuild
    from tabside.documents.document import Format

COLUMNS = (
    Column("what", "parts, boards, cables, tests, settings, findings: in the order of work"),
    Column("where", "the cable or single wires, the port, the board"),
    Column("step", "order of work within the cable", CellKind.WHOLE),
    Column("action", "what the hand does"),
    Column("end", "board and connector where it is done"),
    Column("cavity", "the number as drawn", CellKind.CONTACT),
    Column("lead", "number of the wire in the new drawing"),
    Column("words", "what to do, as a sentence"),
    Column("done", "tick it", CellKind.TICK),
)


def write_order_of_work(order: Order, about: About, format: Format) -> bytes:
    """The work in a format; `about` is that of the new build."""
    if format.id == "html":
        return order_html(order, about)
    if format.id == "markdown":
        return order_markdown(order, about)
    return format.write(Page(_ORDER, about, tuple(_held(_rows(order), order)), None, ()))


def _held(rows: Iterable[Row], order: Order) -> Iterator[Row]:
    """Where nothing is to be done yet, that first, and with each row that is work."""
    if not not_yet(order.comparison):
        yield from rows
        return
    yield _row(Listed.STOP, "", why_not_yet(order.comparison))
    for row in rows:
        what = row["what"]
        is_work = isinstance(what, Listed) and what.is_work
        yield {**row, "what": f"{NOT_YET.lower()}: {what}"} if is_work else row


def _rows(order: Order) -> Iterator[Row]:
    yield from (_row(Listed.CAUTION, "", line) for line in (*CAUTIONS, *ORDER_OF_CHANGES))
    if order.craft_file:
        yield _row(Listed.CRAFT_FILE, "", order.craft_file)
    if order.chosen:
        yield _row(Listed.CHOSEN, "", order.chosen)
    yield from (_row(Listed.GET, "", line) for line in order.get)
    yield from (_row(Listed.TOOL, "", line) for line in order.tools)
    yield from (_row(Listed.BOARD, "", line) for line in order.boards)
    yield from (_row(Listed.NUMBER, "", line) for line in order.numbers)
    if order.stamp:
        yield _row(Listed.STAMP, "", order.stamp)
    yield from (_row(Listed.LABEL, "", line) for line in order.labels)
    yield from (_row(Listed.CAUTION, "", line) for line in order.cautions if order.first)
    yield from (_row(Listed.BEFORE_ALL, "", line) for line in order.first)
    yield from (_row(Listed.METER, "", line) for line in order.meter)
    for work in order.works:
        name = work.fate.name
        yield _row(Listed.CABLE, name, work_words(work))
        yield from (_row(Listed.CABLE, name, text) for text in held_words(order.comparison, work.fate))
        if work.stopped:
            yield _row(Listed.CABLE, name, f"Stop. {work.stopped}")
        yield from (_row(Listed.CAUTION, name, text) for text in work.cautions)
        yield from (_row(Listed.LOOK, name, text) for text in work.looks)
        for step in work.steps:
            yield _row(Listed.CABLE, name, step.words) | {
                "step": step.number,
                "action": step.action.value,
                "end": step.end,
                "cavity": step.cavity or "",
                "lead": step.lead if step.listed else "",
            }
            yield from _test_rows(name, step, order)
    for what, lines in order.rest:
        yield from (_row(what, "", line) for line in lines)


def _test_rows(name: str, step: Step, order: Order) -> Iterator[Row]:
    """What a test consists of."""
    told = [("unplug", aside.words) for aside in step.unplug]
    told += [("measure", row_line(order.comparison, row)) for row in step.rows]
    told += [("plug in", aside.words) for aside in step.plug_in]
    for action, words in told:
        yield _row(Listed.TEST, name, words) | {"step": step.number, "action": action}


def _row(what: Listed, where: str, words: str) -> dict[str, object]:
    empty: dict[str, object] = {"step": "", "action": "", "end": "", "cavity": "", "lead": "", "done": ""}
    return empty | {"what": what, "where": where, "words": words}


def _of_a_build(build: CraftBuild) -> tuple[Row, ...]:
    """A build alone has nothing to be compared with."""
    return ()


_ORDER = Document(
    id="order-of-work",
    title="Order of work",
    row="step",
    columns=COLUMNS,
    rows=_of_a_build,  # the cautions among them
    group="what",
)
