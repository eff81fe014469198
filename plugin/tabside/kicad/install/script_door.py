"""The script door: our script as a legacy BOM generator and as a netlist exporter of the schematic editor."""

from __future__ import annotations

import copy
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from tabside.errors import TabsideError
from tabside.kicad.folders import KiCad
from tabside.kicad.install.record import our_folder
from tabside.kicad.install.scripts import DOOR
from tabside.kicad.install.settings import entries, parse_settings, section, settings_bytes
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.versions import Version
from tabside.ordinary_file import read_ordinary

NAME = "Tabside"
EXPORTERS_MAX = 8  # KiCad shows no more tabs; source: KiCad 9.0.8, netlist dialog

NEVER_STARTED = "the BOM script is not registered yet: start the schematic editor once, close it, and install again"

# What the editor itself writes when it ends for the first time.  Source: KiCad 9.0.8 and 10.0.7, run.
STOCK_SINCE: Version = (9, 0)
STOCK = ("bom_csv_grouped_extra", "bom_csv_grouped_by_value", "bom_csv_grouped_by_value_with_fp")


class ScriptDoor:
    """Its two entries in eeschema.json."""

    name = "script_door"

    def install(self, work: Installation) -> None:
        if work.kicad.imports:
            return
        path = work.kicad.editor_settings
        content = work.changes.read(path)
        before = {} if content is None else parse_settings(content, path)
        settings = copy.deepcopy(before)
        door = our_folder(work.kicad) / DOOR
        command = f'"{sys.executable}" "{door}" "%I" "%O"'
        bom = _bom_list(settings, work.kicad.version, path)
        if bom is None:
            work.changes.remarks.append(NEVER_STARTED)
        else:
            _put(bom, {"command": command, "name": NAME, "path": str(door)}, door)
        netlist = _list(settings, "netlist", path)
        if len([entry for entry in netlist if not _is_ours(entry, door)]) >= EXPORTERS_MAX:
            work.changes.remarks.append(f"KiCad takes {EXPORTERS_MAX} netlist exporters at most: Tabside's is left out")
        else:
            _put(netlist, {"command": command, "name": NAME, "path": ""}, door)
        if settings != before:
            work.edit(path, settings_bytes(settings), "register the BOM and netlist script")

    def remove(self, work: Removal) -> None:
        _forget_last_words(work)
        path = work.kicad.editor_settings
        content = work.changes.read(path)
        if content is None:
            return
        settings = parse_settings(content, path)
        door = our_folder(work.kicad) / DOOR
        found = False
        for name in ("bom", "netlist"):
            listed = entries(settings, name)
            others = [entry for entry in listed if not _is_ours(entry, door)]
            found = found or len(others) != len(listed)
            listed[:] = others
        if found:
            bom = settings["bom"]
            if isinstance(bom, dict) and bom.get("selected_plugin") == NAME:
                bom["selected_plugin"] = ""
            work.edit(path, settings_bytes(settings), "take the BOM and netlist script out")

    def state(self, kicad: KiCad) -> str:
        path = kicad.editor_settings
        if not path.exists():
            return "not registered"
        settings = parse_settings(read_ordinary(path), path)
        door = our_folder(kicad) / DOOR
        doors = {"bom": "BOM script", "netlist": "netlist exporter"}
        found = [
            word for name, word in doors.items() if any(_is_ours(entry, door) for entry in entries(settings, name))
        ]
        return " and ".join(found) if found else "not registered"


def _forget_last_words(work: Removal) -> None:
    """KiCad 10 keeps what last stood in the fields of its dialogs: our command line and what it printed.

    Source: `dialog` > `controls` in the kicad_common.json of KiCad 10.0.7 after our script had run from its dialog.
    """
    path = work.kicad.common_settings
    content = work.changes.read(path)
    if content is None:
        return
    settings = parse_settings(content, path)
    kept = settings.get("dialog")
    dialogs = kept.get("controls") if isinstance(kept, dict) else None
    door = str(our_folder(work.kicad) / DOOR)
    if not isinstance(dialogs, dict):
        return
    ours = [fields for fields in dialogs.values() if isinstance(fields, dict) and _says(fields.values(), door)]
    for fields in ours:
        for name, said in list(fields.items()):
            if _says([said], door) or said == NAME:
                del fields[name]
    if ours:
        work.edit(path, settings_bytes(settings), "forget what stood in the dialog of the BOM script")


def _says(values: Iterable[Any], door: str) -> bool:
    return any(isinstance(said, str) and door in said for said in values)


def _bom_list(settings: dict[str, Any], version: Version, path: Path) -> list[Any] | None:
    """The list of BOM scripts; None where it is missing and not known: a list of ours alone would hide KiCad's own."""
    bom = settings.get("bom")
    if isinstance(bom, dict) and "plugins" in bom:
        return _list(settings, "bom", path)
    if version < STOCK_SINCE:
        return None
    stock = _list(settings, "bom", path)
    stock += [{"command": "", "name": name, "path": f"{name}.py"} for name in STOCK]
    return stock


def _list(settings: dict[str, Any], name: str, path: Path) -> list[Any]:
    inner = section(settings, name, path)
    listed = inner.setdefault("plugins", [])
    if not isinstance(listed, list):
        raise TabsideError(f'"plugins" of "{name}" is not a list there; nothing was changed', file=path)
    return listed


def _put(listed: list[Any], ours: dict[str, str], door: Path) -> None:
    """Put our entry in place of an earlier one of ours, else at the end."""
    for place, entry in enumerate(listed):
        if _is_ours(entry, door):
            listed[place] = ours
            return
    listed.append(ours)


def _is_ours(entry: Any, door: Path) -> bool:
    return isinstance(entry, dict) and f'"{door}"' in str(entry.get("command", ""))
