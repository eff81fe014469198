"""What OLD and NEW may be: a root schematic, one of a git revision, or a saved export."""

from __future__ import annotations

import json
import os
import re
import tempfile
from pathlib import Path
from typing import NamedTuple

from tabside.compare.revisions.git_objects import write_revision
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.model.craft import Craft
from tabside.ordinary_file import read_ordinary

_DRIVE = re.compile(r"[A-Za-z]:[\\/]")


class Revision(NamedTuple):
    """One file of one commit."""

    revision: str
    path: str


def load(text: str, *, kicad: int | None = None, variant: str | None = None) -> Craft:
    """The craft that OLD or NEW names; `kicad` and `variant` say how a drawing is read, see `read_craft`.

    Raises: TabsideError when it cannot be read, or is not in that revision.
    """
    named = split_revision(text)
    if named is not None:
        return _craft_of_revision(named, kicad, variant)
    if text.endswith(".json"):
        return _from_export(Path(text))
    if not Path(text).suffix and os.sep not in text and not os.path.exists(text):
        raise TabsideError(f'is no file; of a git revision write "{text}:path/to/ROOT.kicad_sch"', file=text)
    return read_craft(text, kicad=kicad, variant=variant)


def split_revision(text: str) -> Revision | None:
    """`REV:path` as its two parts; None for a plain path, a Windows drive among them.

    Raises: TabsideError for a revision that looks like an option.
    """
    if _DRIVE.match(text) or ":" not in text or os.path.exists(text):
        return None
    revision, _, path = text.partition(":")
    if revision.startswith("-") or not revision or not path:
        raise TabsideError(f'"{text}" is no file, and no revision and path; write REV:path/to/ROOT.kicad_sch')
    return Revision(revision, path)


def _craft_of_revision(named: Revision, kicad: int | None, variant: str | None) -> Craft:
    with tempfile.TemporaryDirectory(prefix="tabside-") as folder:
        try:
            root = write_revision(named.revision, named.path, Path(folder))
            return read_craft(root, kicad=kicad, variant=variant)
        except TabsideError as error:
            if error.file is None or not error.file.startswith(folder):
                raise
            shown = f"{named.revision}:{os.path.relpath(error.file, folder)}"
            raise TabsideError(error.what, file=shown, line=error.line, column=error.column) from None


def _from_export(path: Path) -> Craft:
    """The craft of a saved `export --json`.

    Raises: TabsideError when the file is no such answer.
    """
    from tabside.documents.as_json.model import craft_of_model
    from tabside.documents.writing.export import EXPORT_FORMAT

    try:
        said: object = json.loads(read_ordinary(path))
        json.dumps(said, ensure_ascii=False).encode()  # half a surrogate pair can be written nowhere
    except (ValueError, RecursionError):
        said = None
    if not isinstance(said, dict) or said.get("format") != EXPORT_FORMAT:
        raise TabsideError("is no answer of `tabside export --json`; save that, or give a schematic", file=path)
    if "model" not in said:
        raise TabsideError("has no model block: an older Tabside saved it; save the export again", file=path)
    return craft_of_model(said["model"], str(path))
