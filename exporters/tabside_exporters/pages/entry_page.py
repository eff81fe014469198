"""The page on which a pinout is entered as the picture in the manual lies: one file, no server, no requests."""

from __future__ import annotations

import json
from typing import Any

from markupsafe import Markup

from tabside.facts import families
from tabside.facts.families import Family
from tabside_exporters.formats.page_templates import rendered


def entry_page() -> bytes:
    """The page as UTF-8."""
    known = [_family(each) for each in families.all_families() if each.kind not in ("coax", "pad")]
    return rendered(
        "entry.html.j2",
        styles=("page.css", "entry.css"),
        script="entry.js",
        families=known,
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
