"""`tabside stamp`: the marks go into the files, all of them or none."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any, NamedTuple

from tabside.craft_reading import craft_of
from tabside.errors import TabsideError
from tabside.files import read_file
from tabside.files_together import Replacement, replaced_together
from tabside.interruption import journal_beside
from tabside.model.craft import Craft
from tabside.model.drawing import Drawing
from tabside.read import load_hierarchy, read_drawing
from tabside.read.kicad.lock import locks_beside
from tabside.read.kicad.schematic_file import decoded
from tabside.read.nets.nets_json import nets_json
from tabside.read.wires.netlist import netlist
from tabside.stamping.tree import same, tree_of, with_marks
from tabside.stamping.wanted import LEAD_MARKS, NotStamped, Values, Wanted, wanted_marks
from tabside.stamping.writers import text_in_place, write_with_skip


class Stamped(NamedTuple):
    """What was written."""

    craft: Craft
    values: Mapping[str, Values]  # by termination: all that the drawing says now
    changed: tuple[str, ...]  # terminations whose fields changed
    files: tuple[str, ...]  # changed files, relative to the root's folder
    unconfirmed: tuple[str, ...]  # those of them that kicad-skip cannot write without other changes
    not_stamped: tuple[NotStamped, ...]
    gone: tuple[str, ...]  # marks that belong to nothing any more: their flags come off

    def as_json(self) -> dict[str, Any]:
        return {
            "format": "tabside/stamp/1",
            "craft": self.craft.name,
            "files": list(self.files),
            "unconfirmed": list(self.unconfirmed),
            "changed": list(self.changed),
            "terminations": [{"termination": name, "fields": dict(said)} for name, said in self.values.items()],
            "not_stamped": [said._asdict() for said in self.not_stamped],
            "gone": list(self.gone),
        }


class _NewFile(NamedTuple):
    name: str  # relative to the root's folder
    path: Path
    before: bytes
    content: bytes
    confirmed: bool  # kicad-skip writes the same


def stamp(root: str | Path, *, dry_run: bool = False, kicad: int | None = None, variant: str | None = None) -> Stamped:
    """Write the marks of cables and leads into fields `Cable mark` and `Lead marks` of the drawing's terminations.

    With `dry_run` all is worked out and proven, but no file is replaced.  `kicad` and `variant` as in `read_craft`.

    Raises: TabsideError when a file is open in KiCad, cannot be read or written, or when the new file would differ in
    anything but these fields; then every file is as it was.
    """
    root = Path(root)
    hierarchy = load_hierarchy(root, kicad=kicad, variant=variant)
    drawing = netlist(hierarchy)
    craft = craft_of(drawing, root)
    _must_be_clear(root, craft)
    wanted = wanted_marks(drawing, craft)
    _must_be_closed(root, wanted)
    versions = {os.path.realpath(sheet.file.path): sheet.file.version for sheet in hierarchy.sheets}
    new = [_new_file(root, name, symbols, versions) for name, symbols in wanted.edits.items()]
    if not dry_run and new:
        _must_be_closed(root, wanted)  # kicad-skip took its time
        files = [Replacement(file.name, file.before, file.content) for file in new]
        with replaced_together(Path(journal_beside(str(root))), files):
            _prove(read_drawing(root, kicad=kicad, variant=variant), root, craft, nets_json(drawing), wanted)
    edited = {symbol for symbols in wanted.edits.values() for symbol in symbols}
    changed = {symbol.reference for symbol in drawing.symbols if symbol.place.uuid in edited}
    return Stamped(
        craft=craft,
        values=wanted.values,
        changed=tuple(reference for reference in wanted.values if reference in changed),
        files=tuple(file.name for file in new),
        unconfirmed=tuple(file.name for file in new if not file.confirmed),
        not_stamped=wanted.not_stamped,
        gone=wanted.gone,
    )


def _must_be_clear(root: Path, craft: Craft) -> None:
    """Stamps of copied symbols belong to nobody knows which lead."""
    for oddity in craft.oddities:
        if oddity.what == "copied":
            raise TabsideError(f"{oddity.message}; nothing was changed", file=root)


def _must_be_closed(root: Path, wanted: Wanted) -> None:
    locks = locks_beside(root, wanted.edits) if wanted.edits else []
    if locks:
        raise TabsideError(
            "the drawing is open in KiCad, which would write over the numbers; save and close it there and try again "
            "(if KiCad does not run, delete this lock); nothing was changed",
            file=locks[0],
        )


def _new_file(root: Path, name: str, symbols: Mapping[str, Values], versions: Mapping[str, int]) -> _NewFile:
    """The file with its marks, proven to differ in them alone.

    kicad-skip sets the fields and writes the file; ours is written in place, where every other byte stays.  Both are
    read again.  Where kicad-skip's holds what it should, ours, which nobody would want to see laid out anew, is known
    to be right twice.

    Raises: TabsideError when neither way gives the tree that is wanted.
    """
    path = root.parent / name
    data = read_file(path)
    assert data is not None  # the drawing was read from it
    text = decoded(data, str(path))
    version = versions[os.path.realpath(path)]
    tree = tree_of(text)
    if tree is not None:
        expected = with_marks(tree, symbols, version)
        skips = _through_skip(path, symbols, version)
        confirmed = skips is not None and _says(skips, expected)
        written = text_in_place(text, symbols, version)
        start = b"\xef\xbb\xbf" if data.startswith(b"\xef\xbb\xbf") else b""
        if written is not None and _says(content := start + written.encode("utf-8"), expected):
            return _NewFile(name, path, data, content, confirmed)
        if skips is not None and confirmed:
            return _NewFile(name, path, data, skips, confirmed)
    raise TabsideError(
        "cannot be stamped: more than the numbers would change; open it in KiCad, save it, and try again; "
        "nothing was changed",
        file=path,
    )


def _through_skip(path: Path, symbols: Mapping[str, Values], version: int) -> bytes | None:
    handle, name = tempfile.mkstemp(prefix="tabside-", suffix=".kicad_sch")
    os.close(handle)
    try:
        return read_file(Path(name)) if write_with_skip(str(path), name, symbols, version) else None
    finally:
        with suppress(OSError):
            os.unlink(name)


def _says(content: bytes, expected: object) -> bool:
    try:
        return same(tree_of(decoded(content, "")), expected)
    except TabsideError:  # not UTF-8: written in the machine's own encoding
        return False


def _prove(drawing: Drawing, root: Path, craft: Craft, nets: Mapping[str, Any], wanted: Wanted) -> None:
    """The files as they lie there, read again, give the same nets, leads and wanted marks.  Raises: TabsideError.

    Leads whose mark cannot stand in the drawing are numbered on behind those that do.
    """
    after = craft_of(drawing, root)
    said = wanted_marks(drawing, after)
    written = {
        word.split(":", 1)[1] for values in wanted.values.values() for word in values[LEAD_MARKS].split() if ":" in word
    }
    same = {lead.ends: lead.mark for lead in after.leads if lead.mark in written} == {
        lead.ends: lead.mark for lead in craft.leads if lead.mark in written
    } and sorted(lead.ends for lead in after.leads) == sorted(lead.ends for lead in craft.leads)
    if nets_json(drawing) != nets or said.edits or said.values != wanted.values or not same:
        raise TabsideError("cannot be stamped: read again, the drawing is another; nothing was changed", file=root)
