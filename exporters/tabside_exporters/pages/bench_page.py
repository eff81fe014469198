"""The page to work from: cable by cable, steps and tests in order, with boxes that stay ticked."""

from __future__ import annotations

import json
from collections.abc import Iterator

from markupsafe import Markup

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.words.cautions import CAUTIONS, ORDER_OF_WORK
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.bench_items import Item, Section, bench_sections
from tabside_exporters.pages.bench_tables import diagnosis_tables

COLUMNS = (
    Column("section", "cable, or what is done before and after all cables"),
    Column("id", "made of what is done or measured: the same as long as that is the same"),
    Column("step", "number on the continuity sheet; nothing for what is made, not measured", CellKind.WHOLE),
    Column("meter", "how the meter is set"),
    Column("words", "what to do"),
    Column("done", "tick it", CellKind.TICK),
)


def bench_table(build: CraftBuild) -> Iterator[Row]:
    """One row for each box."""
    for section in bench_sections(build):
        for item in section.items:
            yield {
                "section": section.title,
                "id": item.id,
                "step": item.number,
                "meter": item.meter,
                "words": item.words,
                "done": "",
            }


def write_bench(page: Page, build: CraftBuild) -> bytes:
    """One file that needs no other and asks for nothing."""
    sections = bench_sections(build)
    data = {
        "craft": clean(page.about.craft),
        "drawing": page.about.drawing_hash,
        "readings": {item.id: _limits(item) for section in sections for item in section.items if item.reading},
        **diagnosis_tables(build.proof),
    }
    return rendered(
        "bench/bench.html.j2",
        styles=("tables/page.css", "bench/plan.css", "bench/bench.css"),
        script="bench/bench.js",
        title=page.document.title,
        about=clean_about(page.about),
        lines=[clean(line) for line in (*about_lines(page.about), *build.plan.legend)],
        cautions=(*CAUTIONS, *ORDER_OF_WORK),
        worth=clean(build.proof.worth),
        sections=sections,
        boxes=_boxes(sections),
        # Between script marks, where only "<" could end it; it is no text that a browser runs.
        data=Markup(json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")),
    )


def _boxes(sections: tuple[Section, ...]) -> int:
    return len({item.id for section in sections for item in section.items})


def _limits(item: Item) -> dict[str, object]:
    reading = item.reading
    assert reading is not None
    return {"unit": reading.unit, "lowest": reading.lowest, "highest": reading.highest, "expected": reading.expected}


DOCUMENT = Document(
    id="bench",
    title="Bench",
    purpose="The page to work from: steps and tests in order, with boxes that stay ticked",
    row="box",
    columns=COLUMNS,
    rows=bench_table,
    bench=True,
    group="section",
    written_by={"html": write_bench},
)
