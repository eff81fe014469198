"""What OLD and NEW may be: a root schematic, one of a git revision, or a saved export."""

from __future__ import annotations

import json
import os
import re
import tempfile
from pathlib import Path
from typing import Any, NamedTuple

from tabside.compare.git_objects import write_revision
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.model.craft import Cable, Contact, Craft, CraftSettings, Kind, Lead, Link, Termination
from tabside.model.drawing import Place
from tabside.model.natural import natural
from tabside.model.roles import Role, RoleClass
from tabside.words.how_chosen import how_of_words

_DRIVE = re.compile(r"[A-Za-z]:[\\/]")
_PLUG = re.compile(r"plug (?P<family>\w+)(?:, (?P<ways>\d+) ways?)?")


class Loaded(NamedTuple):
    craft: Craft
    partial: bool  # read back from an export


class Revision(NamedTuple):
    """One file of one commit."""

    revision: str
    path: str


def load(text: str, *, kicad: int | None = None, variant: str | None = None) -> Loaded:
    """The craft that OLD or NEW names; `kicad` and `variant` say how a drawing is read, see `read_craft`.

    Raises: TabsideError when it cannot be read, or is not in that revision.
    """
    named = split_revision(text)
    if named is not None:
        return Loaded(_craft_of_revision(named, kicad, variant), False)
    if text.endswith(".json"):
        return Loaded(_from_export(Path(text)), True)
    return Loaded(read_craft(text, kicad=kicad, variant=variant), False)


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
    """The leads of a saved `export --json`.

    Raises: TabsideError when the file is no such answer.
    """
    try:
        said: Any = json.loads(path.read_text(encoding="utf-8"))
        if said["format"] != "tabside/export/1":
            raise KeyError("format")
        rows = said["documents"]["wire-list"]
        return _craft_of_rows(rows, path.stem)
    except OSError as error:
        raise TabsideError(f"cannot be read ({error.strerror})", file=path.name) from None
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise TabsideError(
            "is no answer of `tabside export --json` with its wire list; save that, or give a schematic", file=path.name
        ) from None


def _craft_of_rows(rows: list[dict[str, Any]], name: str) -> Craft:
    ends: dict[str, dict[str, Contact]] = {}
    facts: dict[str, tuple[str, str]] = {}
    leads = []
    place = Place(file="", sheet="/", at_mm=(0.0, 0.0))
    for row in rows:
        keys = []
        for side in ("from", "to"):
            reference, number = str(row[f"{side}_termination"]), str(row[f"{side}_contact"])
            role = Role(RoleClass.UNKNOWN, "unknown")
            contact = Contact(reference, number, "", role, str(row["net"]), -1, "", False, place)
            ends.setdefault(reference, {})[number] = contact
            facts[reference] = (str(row[f"{side}_board"]), str(row[f"{side}_end"]))
            keys.append((reference, number))
        a, b = sorted(keys, key=lambda key: (natural(key[0]), natural(key[1])))
        link = (a[0], b[0])
        how = how_of_words(str(row["chosen"]))
        leads.append(
            Lead(str(row["mark"]), a, b, str(row["net"]), -1, how, link, row["cable"], row["gauge_awg"],
                 colour=row["colour"], length_mm=row["length_mm"])
        )  # fmt: skip
    terminations = {
        reference: _termination(reference, facts[reference], tuple(ends[reference].values()), place)
        for reference in sorted(ends, key=natural)
    }
    links: dict[tuple[str, str], list[Lead]] = {}
    for lead in leads:
        links.setdefault(lead.link, []).append(lead)
    return Craft(
        name=name, revision="", terminations=terminations, leads=tuple(leads),
        links=tuple(Link(ends_of, tuple(found)) for ends_of, found in links.items()),
        cables=_cables(leads), parts=(), crowded=(), oddities=(), settings=CraftSettings(), drawing_hash="",
    )  # fmt: skip


def _cables(leads: list[Lead]) -> tuple[Cable, ...]:
    """Leads under one mark are one cable, as the wire list has it."""
    by_mark: dict[str, list[Lead]] = {}
    for lead in leads:
        if lead.cable is not None:
            by_mark.setdefault(lead.cable, []).append(lead)
    return tuple(
        Cable(
            mark,
            tuple(sorted({reference for lead in found for reference in lead.link}, key=natural)),
            tuple(lead.mark for lead in found),
        )
        for mark, found in sorted(by_mark.items(), key=lambda each: natural(each[0]))
    )


def _termination(reference: str, facts: tuple[str, str], contacts: tuple[Contact, ...], place: Place) -> Termination:
    board, end = facts
    plug = _PLUG.match(end)
    kind = Kind.RECEPTACLE if plug else Kind.PAD if "pad" in end else Kind.CAPTIVE if "captive" in end else (
        Kind.SPLICE if "splice" in end else Kind.INLINE
    )  # fmt: skip
    family = plug["family"] if plug else None
    ways = int(plug["ways"]) if plug and plug["ways"] else None
    return Termination(reference, board, board != reference, kind, family, "", ways, "", 1, contacts, place)
