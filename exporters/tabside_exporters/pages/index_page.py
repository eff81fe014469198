"""The first page of the folder: every document in it, and what it is for."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, Listed, Page
from tabside.documents.rows import Column, Row
from tabside.words.glossary import GLOSSARY
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered

COLUMNS = (
    Column("document", "its title"),
    Column("for", "what it is for"),
    Column("files", "names in this folder, the page to read first"),
)
# In the order in which a person needs them; what another package adds comes after.
_ORDER = ("findings", "craft-picture", "bom", "cut-list", "labels", "bench", "plan", "continuity-sheet", "first-power")


def index_table(folder: Sequence[Listed]) -> Iterator[Row]:
    """One row for each document that has a file."""
    for document in _in_order(folder):
        yield {"document": document.title, "for": document.purpose, "files": ", ".join(_files(document))}


def _in_order(folder: Sequence[Listed]) -> list[Listed]:
    place = {id: n for n, id in enumerate(_ORDER)}
    listed = [document for document in folder if document.files]
    return sorted(listed, key=lambda document: (place.get(document.id, len(_ORDER)), document.id))


def _files(document: Listed) -> list[str]:
    """Its names in the folder, the page to read first."""
    return [document.files[format] for format in sorted(document.files, key=lambda format: (format != "html", format))]


def write_index(page: Page, build: CraftBuild) -> bytes:
    """Links into the folder; nothing is fetched until one is followed."""
    about = page.about
    return rendered(
        "tables/index.html.j2",
        styles=("tables/page.css", "tables/index.css"),
        title=page.document.title,
        about=clean_about(about),
        saved=_time(build.saved_at),
        unsaved=_unsaved(build),
        lines=[clean(line) for line in about_lines(about)],
        documents=[
            {"title": clean(document.title), "for": clean(document.purpose), "files": _files(document)}
            for document in _in_order(page.folder)
        ],
        words=GLOSSARY,
    )


def _time(seconds: float | None) -> str:
    """As the clock of this computer shows it; "" when it is not known."""
    return "" if seconds is None else time.strftime("%Y-%m-%d %H:%M:%S", time.localtime(seconds))


def _unsaved(build: CraftBuild) -> tuple[str, str] | None:
    """What stands first while the files may not be what is on the screen."""
    if build.is_unsaved:
        return "Not what KiCad shows: changes are not saved.", "Save all sheets and make the documents again."
    if build.may_be_unsaved:
        return "KiCad has this drawing open:", "edits that are not saved yet are not in these documents."
    return None


DOCUMENT = Document(
    id="index",
    title="Documents",
    row="document",
    columns=COLUMNS,
    rows=lambda build: (),
    purpose="Every document of the folder",
    of_folder=index_table,
    written_by={"html": write_index},
)
