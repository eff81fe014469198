"""Drawings with what KiCad 10 brought, and drawings that it reads otherwise than KiCad 9."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from drawing.drawing_kit import KICAD_9, KICAD_10, Pin, Sheet, connector, multi_unit, part, power, probe


@dataclass(frozen=True)
class Drawn:
    """A root, other files, and the project file."""

    root: Sheet
    others: tuple[Sheet, ...] = ()
    project: Mapping[str, object] | None = None
    version: int = KICAD_10

    def write(self, folder: Path) -> Path:
        for other in self.others:
            other.write(folder, version=self.version)
        return self.root.write(folder, version=self.version, project=self.project)


def local_power() -> Drawn:
    root, child = Sheet("root"), Sheet("child")
    for sheet, first in ((root, 1), (child, 3)):
        for k in (0, 1):
            sheet.place(power("VL", local=True), (50.8, 50.8 + 25.4 * k), value="VL")
            sheet.place(probe(), (50.8, 50.8 + 25.4 * k), reference=f"P{first + k}")
    root.sheet(child, "sub", (101.6, 50.8))
    root.label("local", "WEAKER", (50.8, 50.8))
    return Drawn(root)


def jumper_groups() -> Drawn:
    root = Sheet("root")
    pins = [Pin(str(k), (0, 5.08 * k), f"J{k}") for k in (1, 2, 3, 4)]
    bridge = part(pins, name="bridge", extra='(jumper_pin_groups ("1" "2") ("3" "4"))')
    root.place(bridge, (50.8, 50.8), reference="JP1")
    root.label("local", "X", (50.8, 50.8 - 5.08))
    root.probes(P1=(50.8, 50.8 - 10.16))
    root.label("local", "Y", (50.8, 50.8 - 15.24))
    root.place(bridge, (101.6, 50.8), reference="JP2")
    return Drawn(root)


def jumper_groups_of_stacked_pins() -> Drawn:
    root = Sheet("root")
    pins = [Pin("[1-2]", (0, 0), "A"), Pin("3", (0, 10.16), "B"), Pin("4", (0, 20.32), "C")]
    for k, groups in enumerate(('("2" "3")', '("[1-2]" "3")', '("1" "3" "4")', '("3" "4") ("4" "1")')):
        bridge = part(pins, name=f"bridge{k}", extra=f"(jumper_pin_groups {groups})")
        root.place(bridge, (50.8 + 25.4 * k, 50.8), reference=f"J{k + 1}")
    return Drawn(root)


def duplicate_numbers() -> Drawn:
    root = Sheet("root")
    pins = [Pin("1", (0, 0), "A"), Pin("1", (25.4, 0), "A")]
    twice = part(pins, name="twice", extra="(duplicate_pin_numbers_are_jumpers yes)")
    root.place(twice, (50.8, 50.8), reference="U1")
    root.probes(P1=(50.8, 50.8), P2=(76.2, 50.8))
    return Drawn(root)


def stacked_pins() -> Drawn:
    root = Sheet("root")
    numbers = ("[1-3,5]", "[A1-A3, B7]", "[3-1]", "[7]", "[1,x-y]", "[8-9]", "[10-11]", "[]")
    names = ("A", "B", "C", "D", "E", "A", "", "F")
    pins = [Pin(n, (0, 10.16 * k), name) for k, (n, name) in enumerate(zip(numbers, names, strict=True))]
    pins.append(Pin("[20-21]", (0, 101.6), "NC", "no_connect"))
    root.place(part(pins, name="stacked"), (50.8, 152.4), reference="U1")
    root.probes(P1=(50.8, 152.4), P2=(50.8, 101.6), P3=(50.8, 91.44))
    root.no_connect((50.8, 101.6))
    return Drawn(root)


def stacked_pins_of_a_kicad_9_file() -> Drawn:
    return Drawn(stacked_pins().root, version=KICAD_9)


def body_styles() -> Drawn:
    root = Sheet("root")
    text = "(effects (font (size 1.27 1.27)))"
    for name, styles in (("two", "demorgan"), ("named", '"Normal" "Flat"')):
        units = "".join(
            f'(symbol "{name}_1_{style}" (pin passive line (at 0 {y} 0) (length 2.54) (name "A" {text})'
            f' (number "1" {text})))'
            for style, y in ((1, 0), (2, 10.16))
        )
        fields = f'(property "Reference" "U" (at 0 0 0) {text}) (property "Value" "{name}" (at 0 0 0) {text})'
        root.lib_text.append(
            f'(symbol "kit:{name}" (in_bom yes) (on_board yes) (body_styles {styles}) {fields} {units})'
        )
        root.hidden_from_library.add(f"kit:{name}")
    stand_in = part([Pin("1", (0, 0), "A")], name="two")
    for k, (name, style) in enumerate((("two", 1), ("two", 2), ("named", 1), ("named", 2))):
        x = 50.8 + 25.4 * k
        root.place(stand_in, (x, 50.8), reference=f"U{k + 1}", lib_id=f"kit:{name}", style=style)
        root.place(probe(), (x, 50.8), reference=f"P{2 * k + 1}")
        root.place(probe(), (x, 50.8 - 10.16), reference=f"P{2 * k + 2}")
    return Drawn(root)


def aliases_of_the_project(listed: object) -> Drawn:
    root = Sheet("root")
    root.bus((0, 0), (25.4, 0))
    root.label("local", "X{LINK}", (2.54, 0))
    root.label("local", "Y{LINK}", (22.86, 0))
    for k, name in enumerate(("X.TX", "Y.TX")):
        root.label("local", name, (0, 25.4 * (k + 1)))
        root.place(probe(), (0, 25.4 * (k + 1)), reference=f"P{k + 1}")
    return Drawn(root, project={"schematic": {"bus_aliases": listed}})


def top_level_sheets(*, names: str = "", uuids: bool = True, one: bool = False) -> Drawn:
    roots = [Sheet("first"), Sheet("second")]
    listed = []
    for k, sheet in enumerate(roots, 1):
        sheet.label("global", "LINK", (50.8, 50.8))
        sheet.label("local", "LOC", (76.2, 50.8))
        sheet.probes(**{f"P{k}": (50.8, 50.8), f"P{k + 10}": (76.2, 50.8)})
        uuid = sheet.uses()[0].path.removeprefix("/") if uuids else f"11111111-2222-4333-8444-55555555555{k}"
        listed.append({"filename": sheet.file, "name": sheet.name + names, "uuid": uuid})
    return Drawn(roots[0], (roots[1],), {"schematic": {"top_level_sheets": listed[:1] if one else listed}})


def without_references(version: int) -> Drawn:
    root = Sheet("root")
    root.place(connector(["A", "B"]), (50.8, 50.8), reference="J1", instances=False)
    root.place(connector(["A", "B"]), (101.6, 50.8), reference="J2")
    for k, reference in enumerate(("P9", "P8")):
        root.place(probe(), (152.4, 50.8), reference=reference, instances=bool(k))
    for reference in ("P7", "P?"):
        root.place(probe(), (152.4, 76.2), reference=reference)
    root.place(probe(), (152.4, 101.6), reference="P?")
    root.place(probe(), (127, 101.6), reference="P?", instances=False)
    pair = multi_unit([[Pin("1", (0, 0), "A")], [Pin("2", (0, 0), "B")]], name="pair")
    root.place(pair, (177.8, 50.8), reference="U?")
    root.place(pair, (177.8, 76.2), reference="U5", unit=2, instances=False)
    return Drawn(root, version=version)


def odd_power_symbols(version: int) -> Drawn:
    root = Sheet("root")
    root.place(power("VCC"), (50.8, 50.8), reference="U7", value="VCC")
    root.place(power("VCC"), (76.2, 50.8), reference="#PWR01", value="")
    root.place(power("VCC"), (101.6, 50.8), reference="#PWR02", value="")
    root.label("local", "<NO NET>", (127, 50.8))
    root.probes(P1=(50.8, 50.8), P2=(76.2, 50.8), P3=(101.6, 50.8), P4=(127, 50.8))
    return Drawn(root, version=version)


def bus_on_one_sheet(*labels: str, wires: tuple[str, ...]) -> Drawn:
    root = Sheet("root")
    root.bus((0, 0), (50.8, 0))
    for k, label in enumerate(labels):
        root.label("local", label, (2.54 * (k + 1), 0))
    _wires(root, wires, "P")
    return Drawn(root, version=KICAD_9)


def bus_into_a_sheet(above: str, pin: str, *wires: str, inside: str = "", below: tuple[str, ...] = ()) -> Drawn:
    """A bus with the label `above` that goes to the sheet pin `pin`, and wires of these names in both sheets."""
    root, child = Sheet("root"), Sheet("child")
    root.bus((0, 0), (50.8, 0))
    if above:
        root.label("local", above, (2.54, 0))
    root.sheet(child, "sub", (50.8, -2.54), pins={pin: (50.8, 0)})
    child.bus((0, 0), (50.8, 0))
    child.label("hierarchical", pin, (0, 0))
    if inside:
        child.label("local", inside, (2.54, 0))
    _wires(root, wires, "P")
    _wires(child, below or wires, "Q")
    return Drawn(root, version=KICAD_9)


def _wires(sheet: Sheet, names: tuple[str, ...], prefix: str) -> None:
    for k, name in enumerate(names):
        sheet.label("local", name, (0, 20.32 * (k + 1)))
        sheet.place(probe(), (0, 20.32 * (k + 1)), reference=f"{prefix}{k + 1}")


def same(text: str, *wires: str) -> Callable[[], Drawn]:
    return lambda: bus_into_a_sheet(text, text, *wires)


def on_one(*labels: str, wires: str) -> Callable[[], Drawn]:
    return lambda: bus_on_one_sheet(*labels, wires=tuple(wires.split(" ")))


DRAWINGS: dict[str, Callable[[], Drawn]] = {
    "local power symbols": local_power,
    "jumper groups": jumper_groups,
    "jumper groups of stacked pins": jumper_groups_of_stacked_pins,
    "duplicate numbers that are jumpers": duplicate_numbers,
    "stacked pins": stacked_pins,
    "stacked pins of a KiCad 9 file": stacked_pins_of_a_kicad_9_file,
    "body styles": body_styles,
    "aliases of the project": lambda: aliases_of_the_project({"LINK": ["TX", "RX"]}),
    "aliases of the project as a list": lambda: aliases_of_the_project([{"name": "LINK", "members": ["TX", "RX"]}]),
    "top-level sheets": top_level_sheets,
    "top-level sheets of other names": lambda: top_level_sheets(names=" sheet"),
    "top-level sheets of other uuids": lambda: top_level_sheets(uuids=False),
    "one top-level sheet": lambda: top_level_sheets(one=True),
    "without references": lambda: without_references(KICAD_10),
    "without references in a KiCad 9 file": lambda: without_references(KICAD_9),
    "odd power symbols": lambda: odd_power_symbols(KICAD_10),
    "vector with an overbar": on_one("~{D}[0..1]", "E[0..1]", wires="~{D0} ~{D}0 D0 E0 ~{D}1 E1"),
    "vector under an overbar": on_one("~{D[0..1]}", "E[0..1]", wires="~{D0} ~{D}0 D0 E0"),
    "vector with a lowered letter": on_one("A_{x}[0..1]P", "E[0..1]", wires="A_{x}0P Ax0P E0"),
    "groups of the same names": on_one("S{A B}", "U{B A}", wires="S.A S.B U.A U.B"),
    "groups of other names": on_one("S{A B}", "U{C D}", wires="S.A S.B U.C U.D"),
    "groups of which one name differs": on_one("S{A B}", "U{A D}", wires="S.A S.B U.A U.D"),
    "groups with and without overbar": on_one("S{T ~{R} Q}", "U{Q R T}", wires="S.~{R} S.T S.Q U.R U.T U.Q"),
    "vectors of other names in groups": on_one("S{D[0..1] X}", "U{E[0..1] X}", wires="S.D0 S.D1 S.X U.E0 U.E1 U.X"),
    "vectors of other lengths in groups": on_one(
        "S{D[0..1] X}", "U{D[0..2] Y}", wires="S.D0 S.D1 S.X U.D0 U.D1 U.D2 U.Y"
    ),
    "vectors of other numbers in groups": on_one("S{D[4..5] X}", "U{D[0..1] X}", wires="S.D4 S.D5 S.X U.D0 U.D1 U.X"),
    "overbar over two members": same("P{~{A B} C}", "P.~{A B}", "P.~{A", "P.B}", "P.A", "P.B", "P.C"),
    "prefix with a blank under a mark": same("A_{b c}{D E}", "A_{b c}.D", "A_{b.D"),
    "prefix of two marks": same("A_{b}^{c}{D E}", "A_{b}^{c}.D", "Abc.D"),
    "marks within marks": same("X{~{A_{b}} C}", "X.~{A_{b}}", "X.Ab", "X.C"),
    "mark in the middle of a prefix": same("X_{y}Z{A B}", "X_{y}Z.A", "XyZ.A"),
    "vector under an overbar in a group": same("X{~{D[0..1]} E}", "X.~{D0}", "X.~{D}0", "X.D0", "X.E"),
    "vector with an overbar in a group": same("X{~{D}[0..1] E}", "X.~{D0}", "X.~{D}0", "X.D0", "X.E"),
    "prefix under an overbar": same("~{X}{A B}", "~{X}.A", "X.A"),
    "lowered text that is no group": same("_{A B}", "_.A", "A"),
    "another group inside the sheet": lambda: bus_into_a_sheet(
        "", "U{C D}", "U.C", "U.D", inside="V{E F}", below=("U.C", "U.D", "V.E", "V.F")
    ),
    "sheet pin with and without overbar": lambda: bus_into_a_sheet(
        "S{~{R} T}", "U{R T}", "S.~{R}", "S.T", below=("U.R", "U.T")
    ),
    "vector inside, group outside": lambda: bus_into_a_sheet("U{V0 X}", "V[0..1]", "U.V0", "U.X", below=("V0", "V1")),
    "vector of three inside, group of two outside": lambda: bus_into_a_sheet(
        "U{V1 X}", "V[0..2]", "U.V1", "U.X", below=("V0", "V1", "V2")
    ),
    "group inside, vector outside": lambda: bus_into_a_sheet("V[0..1]", "U{V0 X}", "V0", "V1", below=("U.V0", "U.X")),
    "overbar outside, none inside": lambda: bus_into_a_sheet(
        "~{D}[0..1]", "E[0..1]", "~{D}0", "D0", below=("E0", "E1")
    ),
}
