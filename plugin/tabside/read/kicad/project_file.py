"""What a project file (.kicad_pro) says about nets: text variables, bus aliases, several top-level sheets."""

import os
from collections.abc import Mapping
from typing import Any, NamedTuple

from tabside.errors import TabsideError
from tabside.ordinary_file import read_ordinary


class TopLevelSheet(NamedTuple):
    """One of several roots (KiCad 10)."""

    file: str  # relative to the project's folder
    name: str
    uuid: str


class ProjectFile(NamedTuple):
    text_variables: Mapping[str, str] = {}
    bus_aliases: Mapping[str, tuple[str, ...]] = {}  # KiCad 10
    top_level_sheets: tuple[TopLevelSheet, ...] = ()  # KiCad 10
    variants: tuple[str, ...] = ()  # names of design variants (KiCad 10)
    warnings: tuple[str, ...] = ()


def read_project_file(root_path: str, shown_root: str) -> ProjectFile:
    """The project file beside the root schematic, of the same stem; an empty one when there is none.

    A damaged one is left out with a warning: nets hardly ever depend on it.
    """
    path = os.path.splitext(root_path)[0] + ".kicad_pro"
    shown = os.path.splitext(shown_root)[0] + ".kicad_pro"
    if not os.path.lexists(path):
        return ProjectFile()
    import json

    try:
        content = json.loads(read_ordinary(path, shown).decode("utf-8-sig"))
        if not isinstance(content, dict):
            raise ValueError("it holds no object")
        return _project(content)
    except json.JSONDecodeError as e:
        what = f"{shown}:{e.lineno}:{e.colno}: {e.msg[:1].lower()}{e.msg[1:]}"
    except TabsideError as e:
        what = str(e)
    except (ValueError, RecursionError) as e:
        what = f"{shown}: {e}"
    return ProjectFile(warnings=(f"{what}; goes on without the project's text variables and bus aliases",))


def _project(content: dict[str, Any]) -> ProjectFile:
    """Raises: ValueError for values of a wrong kind."""
    schematic = _object(content.get("schematic"), "schematic")
    return ProjectFile(
        text_variables={
            str(name): _text(value, f"text_variables.{name}")
            for name, value in _object(content.get("text_variables"), "text_variables").items()
        },
        bus_aliases=_aliases(schematic.get("bus_aliases")),
        top_level_sheets=tuple(_top_level_sheets(schematic.get("top_level_sheets"))),
        variants=tuple(_variants(schematic.get("variants"))),
    )


def _aliases(value: object) -> dict[str, tuple[str, ...]]:
    """Aliases as an object {name: members}; KiCad 10 overlooks a list."""
    where = "schematic.bus_aliases"
    if isinstance(value, list):
        return {}
    aliases = {}
    for name, members in _object(value, where).items():
        if not isinstance(members, list):
            raise ValueError(f"{where}: the members of {name} are no list")
        aliases[str(name)] = tuple(_text(member, where) for member in members)
    return aliases


def _variants(value: object) -> list[str]:
    where = "schematic.variants"
    if value is None:
        return []
    if not isinstance(value, list):
        raise ValueError(f"{where} is no list")
    return [_text(_object(entry, where).get("name"), where) for entry in value]


def _top_level_sheets(value: object) -> list[TopLevelSheet]:
    where = "schematic.top_level_sheets"
    if value is None:
        return []
    if not isinstance(value, list):
        raise ValueError(f"{where} is no list")
    sheets = []
    for entry in value:
        sheet = _object(entry, where)
        file = _text(sheet.get("filename"), f"{where}: filename")
        sheets.append(TopLevelSheet(file, _text(sheet.get("name", ""), where), _text(sheet.get("uuid", ""), where)))
    return sheets


def _object(value: object, where: str) -> dict[str, Any]:
    if value is None:
        return {}
    if not isinstance(value, dict):
        raise ValueError(f"{where} is no object")
    return value


def _text(value: object, where: str) -> str:
    if not isinstance(value, str):
        raise ValueError(f"{where}: text is expected")
    value.encode()  # half a surrogate pair, which JSON can hold, can be written nowhere
    return value
