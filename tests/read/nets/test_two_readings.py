"""What KiCad 9 and 10 read differently.  Both readings were seen: KiCad 9.0.8 and 10.0.7 on these files."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import KICAD_9, KICAD_10, Pin, Sheet, part, power, probe
from programs.kicad_oracle import listed
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json


def bus_of(*labels: str, wires: tuple[str, ...]) -> Sheet:
    """One bus line with these labels; a part P1, P2 ... at a wire of each name."""
    sheet = Sheet("bus")
    sheet.bus((0, 0), (50.8, 0))
    for k, label in enumerate(labels):
        sheet.label("local", label, (2.54 * (k + 1), 0))
    for k, name in enumerate(wires):
        sheet.label("local", name, (0, 10.16 * (k + 1)))
        sheet.place(probe(), (0, 10.16 * (k + 1)), reference=f"P{k + 1}")
    return sheet


def without_references() -> Sheet:
    sheet = Sheet("copied")
    for k in (1, 2):
        sheet.place(probe(), (50.8, 50.8), reference=f"P{k}", instances=False)
    return sheet


def bracketed() -> Sheet:
    sheet = Sheet("bracketed")
    sheet.place(part([Pin("[1-2]", (0, 0), "A")], name="stacked"), (50.8, 50.8), reference="U1")
    sheet.place(probe(), (50.8, 50.8), reference="P1")
    return sheet


DIFFERENT = {
    "overbar in a vector": (
        bus_of("~{D}[0..1]", "E[0..1]", wires=("D0", "E0")),
        "P1:1, P2:1 on /E0",
        "P1:1, P2:1 each alone",
    ),
    "member of another name": (
        bus_of("S{A B}", "U{A C}", wires=("S.A", "U.C")),
        "P1:1, P2:1 each alone",
        "P1:1, P2:1 on /S.A",
    ),
    "no reference for the sheet": (without_references(), "P1:1, P2:1 each alone", "P1:1, P2:1 on Net-(P1-Pad1)"),
    "pins in brackets": (
        bracketed(),
        "P1:1, U1:[1-2] on Net-(U1-A); U1:1, U1:2 each alone",
        "P1:1, U1:1, U1:2 on Net-(U1-A); U1:[1-2] alone",
    ),
}


@pytest.mark.parametrize(("sheet", "nine", "ten"), DIFFERENT.values(), ids=DIFFERENT)
def test_both_readings_are_told_with_their_place(sheet: Sheet, nine: str, ten: str, tmp_path: Path) -> None:
    (found,) = read_drawing(sheet.write(tmp_path, version=KICAD_9)).two_readings
    assert (found.nine, found.ten) == (nine, ten)
    assert found.reference == "P1" and found.place.file == sheet.file


@pytest.mark.parametrize(("sheet", "nine", "ten"), DIFFERENT.values(), ids=DIFFERENT)
def test_they_are_the_same_from_whichever_side_one_asks(sheet: Sheet, nine: str, ten: str, tmp_path: Path) -> None:
    root = sheet.write(tmp_path, version=KICAD_9)
    assert read_drawing(root, kicad=10).two_readings == read_drawing(root, kicad=9).two_readings
    assert read_drawing(root).kicad == 9


QUIET = {
    "plain vectors": bus_of("D[0..1]", "E[0..1]", wires=("D0", "E0")),
    "one group": bus_of("S{A B}", wires=("S.A", "S.B")),
    "groups of the same members": bus_of("S{A B}", "U{B A}", wires=("S.A", "U.A")),
    "overbar of a net": bus_of("~{RST}", wires=("~{RST}", "CLK")),
    "power symbols without a reference for the sheet": Sheet("power"),
}
QUIET["power symbols without a reference for the sheet"].place(power("GND"), (50.8, 50.8), instances=False)


@pytest.mark.parametrize("sheet", QUIET.values(), ids=QUIET)
def test_what_both_read_alike_is_quiet(sheet: Sheet, tmp_path: Path) -> None:
    assert read_drawing(sheet.write(tmp_path, version=KICAD_9)).two_readings == ()


def test_a_file_that_kicad_9_cannot_open_has_one_reading_unless_9_is_asked_for(tmp_path: Path) -> None:
    root = DIFFERENT["overbar in a vector"][0].write(tmp_path, version=KICAD_10)
    assert read_drawing(root).kicad == 10
    assert read_drawing(root).two_readings == ()
    assert read_drawing(root, kicad=9).two_readings


def test_the_newest_format_among_the_files_decides(tmp_path: Path) -> None:
    root, below = Sheet("root"), bracketed()
    root.sheet(below, "below", (101.6, 50.8))
    path = root.write(tmp_path, version=KICAD_9)
    text = (tmp_path / below.file).read_text(encoding="utf-8")
    (tmp_path / below.file).write_text(text.replace(str(KICAD_9), str(KICAD_10)), encoding="utf-8")
    numbers = {pin for _, pins in listed(nets_json(read_drawing(path))) for _, pin in pins}
    assert numbers == {"1", "2"}
    numbers = {pin for _, pins in listed(nets_json(read_drawing(path, kicad=9))) for _, pin in pins}
    assert numbers == {"1", "[1-2]"}
