"""The page on which a pinout is entered as the picture in the manual lies: one file, no server, no requests."""

from __future__ import annotations

import json
from typing import Any

from markupsafe import Markup

from tabside.documents.about import About
from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, Page
from tabside.documents.rows import Column
from tabside.facts import families
from tabside.facts.families import Family
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered


def entry_page(about: About | None = None) -> bytes:
    """The page as UTF-8; `about` is the craft in whose folder it lies."""
    known = [_family(family) for family in families.all_families() if family.kind not in ("coax", "pad")]
    return rendered(
        "boards/entry.html.j2",
        styles=("tables/page.css", "boards/entry.css"),
        script="boards/entry.js",
        families=known,
        about=clean_about(about) if about else None,
        lines=[clean(line) for line in about_lines(about)] if about else [],
        # Between script marks, where only "<" could end it; it is no text that a browser runs.
        data=Markup(json.dumps({"families": known}).replace("<", "\\u003c")),
    )


def _family(known: Family) -> dict[str, Any]:
    named = families.family_by_text(known.title)
    return {
        "id": known.id,
        "title": known.title,
        "written": known.title if named is known else known.id,
        "pitch": known.pitch_mm,
        "two_rows": known.is_two_row,
        "perhaps_two_rows": known.may_be_two_row and not known.is_two_row,
        "circuits": sorted(known.circuits) if known.circuits is not None else None,
        "faces": known.has_faces,
    }


def write_entry(page: Page, build: CraftBuild) -> bytes:
    """The page as a document of the folder, beside which its board files go."""
    return entry_page(page.about)


DOCUMENT = Document(
    id="board-entry",
    title="Enter a board",
    row="board",
    columns=(Column("board", "what is entered on the page"),),
    rows=lambda build: (),
    purpose="Type the pinout of a new board as its picture lies in the manual; the page gives the board file",
    written_by={"html": write_entry},
)
