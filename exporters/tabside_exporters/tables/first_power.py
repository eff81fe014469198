"""First power: what is plugged in stage by stage, what is measured before, and what the limiter must do."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document
from tabside.documents.rows import CellKind, Column, Row
from tabside.facts import families
from tabside.prove.first_power import needs_words

COLUMNS = (
    Column("step", "order of work", CellKind.WHOLE),
    Column("stage", "what gets power in this stage"),
    Column("do", "what to do; a plug goes in or out only with all power out and the rail below 1 V"),
    Column("measure", "where to measure, DC volts; nothing where the cell is empty"),
    Column("expect", "what must be seen, felt or read"),
    Column("limiter", "what the current limiter that you use must show"),
    Column("result", "pass: tick it; fail: see the last column", CellKind.TICK),
    Column("otherwise", "what to do when it is not so"),
)
_HOW = (
    "Only after the whole continuity sheet is ticked; of a board whose ground nobody can name the ground check may be "
    "open.",
    "Which pigtail is contact 1: find out before any power. Of a spare connector on a cable's plug: the cable loose, "
    "one probe on the other end of the wire that the wire list names for contact 1; the pigtail that beeps is 1. Of a "
    "spare plug for a board: the cavity that lies on contact 1, by the mark on the board or its maker's drawing. Tag "
    "each pigtail with its number. No volts, or a minus sign: power out, and look at the tags first.",
    "Feel with the back of a finger, not on bare contacts; no rings; a way to pull the pack within reach.",
    "Volts of a regulated rail whose board states no range: 5 % either way (common practice, no source).",
)


def _rows(build: CraftBuild) -> Iterator[Row]:
    for step, row in enumerate(build.first_power.rows, 1):
        yield {
            "step": step,
            "stage": row.stage,
            "do": row.do,
            "measure": row.where,
            "expect": row.expect,
            "limiter": row.limiter,
            "result": "",
            "otherwise": row.otherwise,
        }


def notes(build: CraftBuild) -> tuple[str, ...]:
    """What must lie on the bench, and how it is done."""
    titles = {family: families.family(family).title for family, _ in build.first_power.mating_plugs}
    return (*needs_words(build.first_power, titles), *_HOW)


DOCUMENT = Document(
    id="first-power",
    title="First power",
    purpose="Stage by stage from the pack through a limiter to the motors",
    row="thing to do",
    columns=COLUMNS,
    rows=_rows,
    notes=notes,
    notes_first=True,
    bench=True,
    group="stage",
)
