"""Writers of the ordinary formats, for a document that has one of its own besides."""

from __future__ import annotations

from collections.abc import Callable

from tabside.documents.build import CraftBuild
from tabside.documents.document import Page
from tabside_exporters.formats import csv_pages, json_pages, markdown_pages, xlsx_pages

Writer = Callable[[Page, CraftBuild], bytes]


def _plainly(write: Callable[[Page], bytes]) -> Writer:
    def written(page: Page, build: CraftBuild) -> bytes:
        return write(page)

    return written


TABLES = {
    "csv": _plainly(csv_pages.write_csv),
    "json": _plainly(json_pages.write_json),
    "markdown": _plainly(markdown_pages.write_markdown),
    "xlsx": _plainly(xlsx_pages.write_xlsx),
}
