"""What OLD and NEW may be: a root schematic, one of a git revision, or a saved export."""

from __future__ import annotations

import json
import os
import re
import subprocess
import tempfile
from pathlib import Path, PurePosixPath
from typing import Any, NamedTuple

from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.model.craft import Cable, Contact, Craft, CraftSettings, Kind, Lead, Link, Termination
from tabside.model.drawing import Place
from tabside.model.natural import natural
from tabside.model.roles import Role, RoleClass

_OF_A_PROJECT = (".kicad_sch", ".kicad_pro", ".craft.toml")
_DRIVE = re.compile(r"[A-Za-z]:[\\/]")
_PLUG = re.compile(r"plug (?P<family>\w+)(?:, (?P<ways>\d+) ways?)?")


class Loaded(NamedTuple):
    craft: Craft
    partial: bool  # read back from an export


class Revision(NamedTuple):
    """One file of one commit."""

    revision: str
    path: str


def load(text: str) -> Loaded:
    """The craft that OLD or NEW names.

    Raises: TabsideError when it cannot be read, or is not in that revision.
    """
    named = split_revision(text)
    if named is not None:
        with tempfile.TemporaryDirectory(prefix="tabside-") as folder:
            return Loaded(read_craft(_checked_out(named, Path(folder))), False)
    if text.endswith(".json"):
        return Loaded(_from_export(Path(text)), True)
    return Loaded(read_craft(text), False)


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


def _checked_out(named: Revision, folder: Path) -> Path:
    """Copy the root's folder of that revision, as far as it belongs to the drawing; returns the root's copy."""
    commit = _git("rev-parse", "--verify", "--quiet", "--end-of-options", f"{named.revision}^{{commit}}").strip()
    if not commit:
        raise TabsideError(f'git knows no revision "{named.revision}"; look with `git log`')
    revision = commit.decode()
    top = _git("rev-parse", "--show-toplevel").decode().strip()
    root = _path_in(named.path, revision, Path(top))
    below = str(PurePosixPath(root).parent)
    listed = _git("ls-tree", "-r", "-z", "--full-tree", revision, *([] if below == "." else ["--", f"{below}/"]))
    for entry in listed.split(b"\0"):
        described, _, name = entry.partition(b"\t")
        words = described.split()
        file = os.fsdecode(name)
        if len(words) != 3 or words[0] == b"120000" or words[1] != b"blob" or not file.endswith(_OF_A_PROJECT):
            continue
        target = folder / PurePosixPath(file).relative_to(below) if below != "." else folder / file
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(_git("cat-file", "blob", words[2].decode()))
    return folder / PurePosixPath(root).name


def _path_in(path: str, revision: str, top: Path) -> str:
    """The path from the top of the repository: as git has it, `./` and what is not found there from this folder."""
    here = os.path.relpath(os.path.join(os.path.realpath(os.getcwd()), path), os.path.realpath(top)).replace(
        os.sep, "/"
    )
    tries = [here] if path.startswith(("./", "../")) else [path, here]
    for each in tries:
        if each.startswith("../"):
            continue
        if _git("ls-tree", "-z", "--full-tree", "--name-only", revision, "--", each):
            return each
    raise TabsideError(f"revision {revision[:10]} has no {path}; give the path from the top of the repository")


def _git(*arguments: str) -> bytes:
    try:
        done = subprocess.run(["git", *arguments], capture_output=True, check=False)
    except OSError as error:
        raise TabsideError(f"git cannot be run ({error.strerror}); install it, or give two files") from None
    if done.returncode and arguments[:2] != ("rev-parse", "--verify"):
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()
        raise TabsideError(f"git: {said[0] if said else 'failed'}; run it inside the repository of the drawing")
    return done.stdout


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
        leads.append(
            Lead(str(row["mark"]), a, b, str(row["net"]), -1, str(row["chosen"]), link, row["cable"], row["gauge_awg"],
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
