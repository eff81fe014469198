"""The plan: how each cable is made, step by step, one cable a page."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document
from tabside.documents.rows import CellKind, Column, Row
from tabside.make.sheets.cable_plan import CablePlan, Step
from tabside_exporters.formats.plain import TABLES
from tabside_exporters.pages.plan_pages import write_plan_html, write_plan_markdown

COLUMNS = (
    Column("cable", "number of the cable, or of the wires that no plug ties together"),
    Column("between", "boards and connectors that it goes to"),
    Column("method", "how it is made"),
    Column("step", "order of work within the cable", CellKind.WHOLE),
    Column("action", "what the hand does"),
    Column("end", "board and connector where it is done"),
    Column("cavity", "the number as drawn", CellKind.CONTACT),
    Column("from_mark", "its place counted from the contact-1 mark", CellKind.WHOLE),
    Column(
        "from_left",
        "its place from the left, locking-tab side towards you and wires down; empty where it is not known",
        CellKind.WHOLE,
    ),
    Column("lead", "number of the wire in the wire list"),
    Column("colour", "IEC 60757 code, or as written in the drawing"),
    Column("words", "the step as a sentence; without steps, why the cable is made in this way"),
    Column("done", "tick it", CellKind.TICK),
)


def plan_table(build: CraftBuild) -> Iterator[Row]:
    """One row for each step, and one for each cable without steps."""
    return _rows(build)


def _rows(build: CraftBuild) -> Iterator[Row]:
    for cable in build.plan.cables:
        if not cable.steps:
            yield _row(cable, None)
        for step in cable.steps:
            yield _row(cable, step)


def _row(cable: CablePlan, step: Step | None) -> Row:
    said: dict[str, object] = {
        "cable": cable.label,
        "between": " - ".join(end.name for end in cable.ends),
        "method": cable.method.value,
        "step": "" if step is None else step.number,
        "action": "" if step is None else step.action.value,
        "end": "" if step is None else step.end,
        "cavity": "" if step is None else step.cavity or "",
        "from_mark": "" if step is None or step.from_mark is None else step.from_mark,
        "from_left": "" if step is None or step.from_left is None else step.from_left,
        "lead": "" if step is None else step.lead,
        "colour": "" if step is None else step.colour or "",
        "words": (cable.stopped or cable.why) if step is None else step.words,
        "done": "",
    }
    return said


DOCUMENT = Document(
    id="plan",
    title="Plan",
    purpose="How each cable is made, on paper, one sheet a cable",
    row="step",
    columns=COLUMNS,
    rows=plan_table,
    bench=True,
    group="cable",
    written_by={
        **TABLES,
        "html": write_plan_html,
        "markdown": write_plan_markdown,
    },
)
