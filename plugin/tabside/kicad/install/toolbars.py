"""Where KiCad 10 shows the buttons: at the end of the left toolbar, where narrow screens have room for them.

By itself KiCad 10 puts the buttons of plugins behind a drop-down of variants at the end of the upper toolbar; on a
screen of 1366 points they are outside, and nothing tells so.  We use KiCad's own way to arrange toolbars (Preferences >
Schematic Editor > Toolbars > Customize toolbars) and change the left one alone; the others stay KiCad's own.
Source: what KiCad 10.0.7 wrote when that was ticked, and pressed there on a screen of 1366 x 768.  KiCad 9 has no such
settings and needs none: its upper toolbar has room for four buttons on such a screen.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tabside.errors import TabsideError
from tabside.kicad.folders import KiCad
from tabside.kicad.install.settings import Settings, parse_settings, section, settings_bytes
from tabside.kicad.install.versions import Version
from tabside.kicad.install.work import Installation, Removal
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

_BUTTONS = {"name": "control.IPCPlugin", "type": "CONTROL"}
_GAP = {"type": "SEPARATOR"}


def _tool(name: str) -> Settings:
    return {"name": name, "type": "TOOL"}


def _group(name: str, tools: list[str]) -> Settings:
    return {"group_items": [_tool(tool) for tool in tools], "group_name": name, "type": "TB_GROUP"}


# KiCad 10.0.7's own left toolbar.
_LEFT: list[Settings] = [
    _tool("common.Control.toggleGrid"),
    _tool("common.Control.toggleGridOverrides"),
    _group("Units", ["common.Control.imperialUnits", "common.Control.mils", "common.Control.metricUnits"]),
    _group(
        "Crosshair modes",
        [
            "common.Control.cursorSmallCrosshairs",
            "common.Control.cursorFullCrosshairs",
            "common.Control.cursor45Crosshairs",
        ],
    ),
    _GAP,
    _tool("eeschema.EditorControl.showHiddenPins"),
    _GAP,
    _group(
        "Line modes",
        [
            "eeschema.EditorControl.lineModeFree",
            "eeschema.EditorControl.lineModeOrthonal",
            "eeschema.EditorControl.lineMode45",
        ],
    ),
    _GAP,
    _tool("eeschema.EditorControl.annotateAutomatically"),
    _GAP,
    _tool("eeschema.EditorTool.showHierarchy"),
    _tool("common.Control.showProperties"),
]


class Toolbars:
    """The end of the left toolbar."""

    name = "toolbars"

    def install(self, work: Installation) -> None:
        if work.kicad.version not in CUSTOMISED:
            return
        settings, file = _settings(work), _file(work)
        own = _toolbars(file, _file_path(work.kicad))
        if _are_on(settings) and _holds_buttons(own, elsewhere_than="TOP_MAIN"):
            return
        if not work.enable_api:
            work.changes.remarks.append(HOW)
            return
        if own and not _are_on(settings):
            work.changes.remarks.append(SWITCHED_OFF)
            return
        left = next((each for each in own if each.get("name") == "LEFT"), None)
        if left is None:
            own.append({"contents": [*_LEFT, _GAP, _BUTTONS], "name": "LEFT"})
        else:
            _contents(left).extend([_GAP, _BUTTONS])
        what = "put the buttons on the left toolbar, where narrow screens show them"
        work.edit(_file_path(work.kicad), settings_bytes(file), what)
        if not _are_on(settings):
            section(settings, "appearance", _settings_path(work.kicad))["custom_toolbars"] = True
            work.edit(_settings_path(work.kicad), settings_bytes(settings), "switch KiCad's own toolbar settings on")
            work.record.switched_toolbars_on = True

    def remove(self, work: Removal) -> None:
        if work.kicad.version not in CUSTOMISED or _file_path(work.kicad) not in work.record.edited:
            return
        settings, file = _settings(work), _file(work)
        own = _toolbars(file, _file_path(work.kicad))
        for left in [each for each in own if each.get("name") == "LEFT"]:
            contents = _contents(left)
            if contents[-2:] == [_GAP, _BUTTONS]:
                del contents[-2:]
            else:  # somebody has arranged them since
                contents[:] = [each for each in contents if each != _BUTTONS]
            if contents == _LEFT:
                own.remove(left)
        what = "take the buttons off the left toolbar"
        work.edit(_file_path(work.kicad), settings_bytes(file), what)
        if not own:
            work.drop(_file_path(work.kicad), what)
        if work.record.switched_toolbars_on and not own and _are_on(settings):
            section(settings, "appearance", _settings_path(work.kicad))["custom_toolbars"] = False
            work.edit(_settings_path(work.kicad), settings_bytes(settings), "switch KiCad's toolbar settings off again")

    def state(self, kicad: KiCad) -> str:
        if kicad.version not in CUSTOMISED:
            return "none in this version"
        settings = _read(_settings_path(kicad))
        on = _are_on(settings) and _holds_buttons(_toolbars(_read(_file_path(kicad)), _file_path(kicad)))
        return "buttons on the left" if on else "buttons behind the drop-down of variants"


def _settings_path(kicad: KiCad) -> Path:
    return kicad.settings / "eeschema.json"


def _file_path(kicad: KiCad) -> Path:
    return kicad.settings / "toolbars" / "eeschema-toolbars.json"


def _read(path: Path) -> Settings:
    return parse_settings(read_ordinary(path), path) if path.exists() else {}


def _settings(work: Installation | Removal) -> Settings:
    path = _settings_path(work.kicad)
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
        isinstance(each, dict) and isinstance(each.get("contents", []), list) for each in toolbars
    ):
        raise TabsideError('"toolbars" is not a list of toolbars there; nothing was changed', file=path)
    return toolbars


def _contents(toolbar: Settings) -> list[Any]:
    contents: list[Any] = toolbar.setdefault("contents", [])
    return contents


def _holds_buttons(toolbars: list[Any], elsewhere_than: str = "") -> bool:
    return any(_BUTTONS in _contents(each) for each in toolbars if each.get("name") != elsewhere_than)
