"""What the manual's first chapter has done by hand in KiCad's editor, done to the files instead."""

from __future__ import annotations

import re
import shutil
from importlib.resources import as_file, files
from pathlib import Path

TEMPLATE = "tabside_craft"
MODEM = ("GND", "CTS", "RTS", "TX", "RX", "5V")  # the modem's plug from contact 1, as the chapter types it


def new_project(folder: Path, name: str = "tern") -> Path:
    """File > New Project from Template > "Craft wiring for Tabside", named so; returns its folder.

    KiCad puts the project's name in place of the template's in file names alone (source: KiCad 9.0.8, run).
    """
    project = folder / name
    with as_file(files("tabside.kicad") / "template" / TEMPLATE) as template:
        shutil.copytree(template, project, ignore=shutil.ignore_patterns("meta"))
    for file in list(project.iterdir()):
        if file.name.startswith(TEMPLATE):
            file.rename(project / file.name.replace(TEMPLATE, name))
    sheet = project / f"{name}.kicad_sch"
    sheet.write_text(sheet.read_text("utf-8").replace(f'"{TEMPLATE}"', f'"{name}"'), encoding="utf-8")
    return project


def put_modem(sheet: Path) -> None:
    """Delete the radio's plug, put the modem's in its place: the wires stay and lead to its contacts in order."""
    text = sheet.read_text("utf-8").replace("Board_radio", "Board_modem").replace('"radio"', '"modem"')
    text = text.replace("HOST of radio: telemetry radio, an invented board", "HOST of modem")
    begin = text.index('(symbol "Board_modem:HOST"')
    end = text.index("(embedded_fonts no)", begin)
    pin = re.compile(r'\(name "[^"]*"(.*?)\(number "(\d+)"', re.DOTALL)
    named = pin.sub(lambda found: f'(name "{MODEM[int(found[2]) - 1]}"{found[1]}(number "{found[2]}"', text[begin:end])
    text = text[:begin] + named + text[end:]
    text = text.replace('"5V, RX, TX, RTS, CTS, GND"', f'"{", ".join(MODEM)}"')
    for mark in ('(symbol "Board_modem:HOST"', '(lib_id "Board_modem:HOST")'):  # the list says no level
        begin = text.index(mark)
        text = text[:begin] + text[begin:].replace('(property "Level" "3.3"', '(property "Level" ""', 1)
    sheet.write_text(text, encoding="utf-8")


def turn_modem(sheet: Path) -> None:
    """Turn the modem's plug upside down (key Y) and move it so that its contacts meet the same wires."""
    text = sheet.read_text("utf-8")
    place = text.index('(lib_id "Board_modem:HOST")')
    placed = text[place:].replace("(at 220.98 60.96 0)", "(at 220.98 63.5 0)\n\t\t(mirror x)", 1)
    sheet.write_text(text[:place] + placed, encoding="utf-8")


def name_modem(craft_file: Path) -> None:
    """In the craft file: the modem instead of the radio."""
    text = craft_file.read_text("utf-8")
    craft_file.write_text(text.replace("pilot/J3 - radio/J4", "pilot/J3 - modem/J4"), encoding="utf-8")
