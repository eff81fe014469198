"""By which face of a plug its contacts are released, and what to look at first where that is not known."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from tabside.facts import tables
from tabside.facts.sources import Source, read_source


class ReleaseFace(NamedTuple):
    """Of one family.  Empty texts are "not known": no left and right may be told from them."""

    family: str
    released_by: str
    face: str
    tabs_side_entry: str  # "board", "away", ""
    tabs_top_entry: str  # "near", "far", ""
    source: Source
    look: str  # what the hands must look at first


@cache
def release_face(family_id: str) -> ReleaseFace | None:
    """What is known of a family's release side; None when the table has nothing to say."""
    row = next((row for row in tables.table_rows("release_face") if row["family_id"] == family_id), None)
    if row is None:
        return None
    return ReleaseFace(
        family=family_id,
        released_by=row["released_by"],
        face=row["release_face"],
        tabs_side_entry=row["tabs_side_entry"],
        tabs_top_entry=row["tabs_top_entry"],
        source=read_source(row["source"]),
        look=row["look"],
    )
