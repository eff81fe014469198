"""Pages as JSON, with the same rows as `export --json`."""

from __future__ import annotations

import json

import msgspec

from tabside.documents.document import Format, Page
from tabside.documents.rows import json_rows
from tabside_exporters.formats.cells import clean


def write_json(page: Page) -> bytes:
    """One object: what every page carries, then the rows; ASCII only, so that any reader takes it."""
    about = page.about
    answer = {
        "format": "tabside/document/1",
        "document": page.document.id,
        "title": page.document.title,
        "cleared": not about.errors,
        "about": {
            "craft": about.craft,
            "revision": about.revision,
            "drawing_hash": about.drawing_hash,
            "tabside": about.tabside_version,
            "tables": about.tables_version,
            "not_cleared": about.not_cleared or None,
            "errors": about.errors,
            "warnings": about.warnings,
            "leads": about.leads,
            "not_judged": about.not_judged,
            "accepted": list(about.accepted),
        },
        "notes": [clean(note) for note in page.notes],
        **(page.tables or {"rows": json_rows(page.rows, page.document.columns)}),
    }
    # `json` indents in Python, in four times the time.
    return (msgspec.json.format(json.dumps(answer), indent=1) + "\n").encode()


FORMAT = Format(id="json", suffix="json", title="JSON, for programs", write=write_json)
