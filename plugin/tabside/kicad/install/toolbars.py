"""Where KiCad 10 shows the buttons: at the end of the left toolbar, where narrow screens have room for them.

By itself KiCad 10 puts the buttons of plugins behind a drop-down of variants at the end of the upper toolbar; on a
screen of 1366 points they are outside, and nothing tells so.  We use KiCad's own way to arrange toolbars (Preferences >
Schematic Editor > Toolbars > Customize toolbars): the buttons go to the left toolbar, and leave the upper one, since
those on the left did nothing in KiCad 10.0.7 while both had them.  The other toolbars stay KiCad's own.
Source: what KiCad 10.0.7 wrote when that was ticked (`toolbars_10.json`), and pressed there on a screen of 1366 x 768.
KiCad 9 has no such settings and needs none: its upper toolbar has room for four buttons on such a screen.
"""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

from tabside.errors import TabsideError
from tabside.kicad.folders import KiCad
from tabside.kicad.install.settings import Settings, parse_settings, section, settings_bytes
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.versions import Version
from tabside.ordinary_file import read_ordinary

CUSTOMISED: frozenset[Version] = frozenset({(10, 0)})  # whose file and left toolbar are known

HOW = (
    "on a screen narrower than about 1500 points the buttons are outside the upper toolbar: install with --enable-api "
    "to have them on the left one"
)
SWITCHED_OFF = (
    "your own toolbars are switched off in KiCad and are left so: the buttons need a window of about 1500 points, or "
    "Preferences > Schematic Editor > Toolbars with Plugins put on the left one"
)

LEFT, TOP = "LEFT", "TOP_MAIN"
_BUTTONS = {"name": "control.IPCPlugin", "type": "CONTROL"}
_GAP = {"type": "SEPARATOR"}


class Toolbars:
    """The end of the left toolbar."""

    name = "toolbars"

    def install(self, work: Installation) -> None:
        if work.kicad.version not in CUSTOMISED or work.kicad.imports:
            return
        settings, file = _settings(work), _file(work)
        own = _toolbars(file, _file_path(work.kicad))
        if _are_on(settings) and _holds_buttons(own, elsewhere_than=TOP):
            return
        if not work.enable_api:
            work.changes.remarks.append(HOW)
            return
        if own and not _are_on(settings):
            work.changes.remarks.append(SWITCHED_OFF)
            return
        _contents(_toolbar(own, LEFT)).extend([_GAP, _BUTTONS])
        _take_off(_contents(_toolbar(own, TOP)))
        what = "put the buttons on the left toolbar, where narrow screens show them"
        work.edit(_file_path(work.kicad), settings_bytes(file), what)
        if not _are_on(settings):
            section(settings, "appearance", work.kicad.editor_settings)["custom_toolbars"] = True
            work.edit(work.kicad.editor_settings, settings_bytes(settings), "switch KiCad's own toolbar settings on")
            work.record.switched_toolbars_on = True

    def remove(self, work: Removal) -> None:
        if work.kicad.version not in CUSTOMISED or _file_path(work.kicad) not in work.record.edited:
            return
        settings, file = _settings(work), _file(work)
        own = _toolbars(file, _file_path(work.kicad))
        kicads = _kicads_own()
        for toolbar in [ours for ours in own if ours.get("name") in kicads]:
            contents = _contents(toolbar)
            _take_off(contents)
            if toolbar["name"] == TOP:
                contents.append(_BUTTONS)
            if contents == kicads[toolbar["name"]]:
                own.remove(toolbar)
        what = "take the buttons off the left toolbar"
        work.edit(_file_path(work.kicad), settings_bytes(file), what)
        if not own:
            work.drop(_file_path(work.kicad), what)
        if work.record.switched_toolbars_on and not own and _are_on(settings):
            section(settings, "appearance", work.kicad.editor_settings)["custom_toolbars"] = False
            work.edit(work.kicad.editor_settings, settings_bytes(settings), "switch KiCad's toolbar settings off again")

    def state(self, kicad: KiCad) -> str:
        if kicad.version not in CUSTOMISED:
            return "none in this version"
        return "buttons on the left" if are_on_the_left(kicad) else "buttons behind the drop-down of variants"


def are_on_the_left(kicad: KiCad) -> bool:
    """Whether the buttons stand where a narrow screen shows them.

    Raises: TabsideError when KiCad's files cannot be understood.
    """
    settings = _read(kicad.editor_settings)
    own = _toolbars(_read(_file_path(kicad)), _file_path(kicad))
    return _are_on(settings) and _holds_buttons(own, elsewhere_than=TOP)


def _file_path(kicad: KiCad) -> Path:
    return kicad.settings / "toolbars" / "eeschema-toolbars.json"


def _read(path: Path) -> Settings:
    return parse_settings(read_ordinary(path), path) if path.exists() else {}


def _settings(work: Installation | Removal) -> Settings:
    path = work.kicad.editor_settings
    content = work.changes.read(path)
    return {} if content is None else parse_settings(content, path)


def _file(work: Installation | Removal) -> Settings:
    path = _file_path(work.kicad)
    content = work.changes.read(path)
    return {"meta": {"version": 1}, "toolbars": []} if content is None else parse_settings(content, path)


def _are_on(settings: Settings) -> bool:
    appearance = settings.get("appearance")
    return isinstance(appearance, dict) and appearance.get("custom_toolbars") is True


def _toolbars(file: Settings, path: Path) -> list[Any]:
    """The toolbars that somebody arranged.

    Raises: TabsideError when the file is not made as KiCad makes it.
    """
    toolbars = file.setdefault("toolbars", [])
    if not isinstance(toolbars, list) or not all(
        isinstance(toolbar, dict) and isinstance(toolbar.get("contents", []), list) for toolbar in toolbars
    ):
        raise TabsideError('"toolbars" is not a list of toolbars there; nothing was changed', file=path)
    return toolbars


def _kicads_own() -> dict[str, list[Settings]]:
    """The toolbars of KiCad 10.0.7 that we change, by name."""
    own: dict[str, list[Settings]] = json.loads((files("tabside.kicad") / "toolbars_10.json").read_text("utf-8"))
    return own


def _toolbar(own: list[Any], name: str) -> Settings:
    """The toolbar of that name; as KiCad has it where nobody has arranged it."""
    found: Settings | None = next((ours for ours in own if ours.get("name") == name), None)
    if found is None:
        found = {"contents": _kicads_own()[name], "name": name}
        own.append(found)
    return found


def _take_off(contents: list[Any]) -> None:
    """Take the buttons out, and the gap that we put before them."""
    if contents[-2:] == [_GAP, _BUTTONS]:
        del contents[-2:]
    contents[:] = [content for content in contents if content != _BUTTONS]


def _contents(toolbar: Settings) -> list[Any]:
    contents: list[Any] = toolbar.setdefault("contents", [])
    return contents


def _holds_buttons(toolbars: list[Any], elsewhere_than: str = "") -> bool:
    return any(_BUTTONS in _contents(toolbar) for toolbar in toolbars if toolbar.get("name") != elsewhere_than)
