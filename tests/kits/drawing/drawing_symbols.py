"""Library symbols that the tests draw with, and how a placed symbol lies on the sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

Point = tuple[float, float]
Matrix = tuple[tuple[int, int], tuple[int, int]]

# KiCad turns a symbol counter-clockwise on the screen, then mirrors it: `x` negates dy, `y` negates dx.
# Library coordinates have y upwards, the sheet has it downwards.  Seen in KiCad 9.0.8 for all twelve.
ORIENTATIONS: dict[tuple[int, str], Matrix] = {
    (0, ""): ((1, 0), (0, -1)),
    (90, ""): ((0, -1), (-1, 0)),
    (180, ""): ((-1, 0), (0, 1)),
    (270, ""): ((0, 1), (1, 0)),
    (0, "x"): ((1, 0), (0, 1)),
    (90, "x"): ((0, -1), (1, 0)),
    (180, "x"): ((-1, 0), (0, -1)),
    (270, "x"): ((0, 1), (-1, 0)),
    (0, "y"): ((-1, 0), (0, -1)),
    (90, "y"): ((0, 1), (-1, 0)),
    (180, "y"): ((1, 0), (0, 1)),
    (270, "y"): ((0, -1), (1, 0)),
}


def apply(matrix: Matrix, point: Point) -> Point:
    (a, b), (c, d) = matrix
    return (a * point[0] + b * point[1], c * point[0] + d * point[1])


def multiply(left: Matrix, right: Matrix) -> Matrix:
    (a, b), (c, d) = left
    (e, f), (g, h) = right
    return ((a * e + b * g, a * f + b * h), (c * e + d * g, c * f + d * h))


def quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\r", "\\r")
    return f'"{escaped}"'


def number(value: float) -> str:
    """Millimetres as KiCad writes them, at most six decimals."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def effects(hide: bool = False, bare: bool = False, justify: str = "") -> str:
    hidden = (" hide" if bare else " (hide yes)") if hide else ""
    return f"(effects (font (size 1.27 1.27)){f' (justify {justify})' if justify else ''}{hidden})"


@dataclass(frozen=True)
class Pin:
    """A pin of a library symbol.  `at` is where wires meet it, in mm, y upwards; `angle` points into the body."""

    number: str
    at: Point
    name: str = "~"
    electrical: str = "passive"
    angle: int = 0
    length: float = 2.54
    unit: int = 1  # 0: in every unit
    style: int = 1  # 0: in every body style
    hidden: bool = False
    alternates: Mapping[str, str] = field(default_factory=dict)  # name -> electrical type

    def text(self, version: int) -> str:
        bare_hide = version < 20241004
        name = "" if self.name == "~" and version >= 20250318 else self.name  # from then on ~ is a name
        hide = (" hide" if bare_hide else " (hide yes)") if self.hidden else ""
        other = "".join(f" (alternate {quoted(n)} {kind} line)" for n, kind in self.alternates.items())
        return (
            f"(pin {self.electrical} line (at {number(self.at[0])} {number(self.at[1])} {self.angle})"
            f" (length {number(self.length)}){hide} (name {quoted(name)} {effects()})"
            f" (number {quoted(self.number)} {effects()}){other})"
        )


@dataclass(frozen=True)
class Symbol:
    """A library symbol.  `extra` is put into its list as it stands (KiCad 10's lists, for instance)."""

    name: str
    pins: tuple[Pin, ...]
    prefix: str = "U"
    power: str = ""  # "(power)", or KiCad 10's "(power local)"; "" for an ordinary part
    body: tuple[Point, Point] | None = None  # corners of its rectangle
    library: str = "kit"
    extra: str = ""
    units: int = 1

    @property
    def lib_id(self) -> str:
        return f"{self.library}:{self.name}"

    def pins_of(self, unit: int, style: int = 1) -> tuple[Pin, ...]:
        return tuple(p for p in self.pins if p.unit in (0, unit) and p.style in (0, style))

    def text(self, version: int, name: str | None = None) -> str:
        """As it stands in `lib_symbols` of a file of this version; `name` replaces the entry's own."""
        bare_hide = version < 20241004
        parts = [f"(symbol {quoted(name or self.lib_id)}", self.power, "(pin_names (offset 1.016))"]
        if version >= 20230409:
            parts.append("(exclude_from_sim no)")
        parts.append("(in_bom yes) (on_board yes)")
        fields = {"Reference": self.prefix, "Value": self.name, "Footprint": "", "Datasheet": ""}
        for index, (key, value) in enumerate(fields.items()):
            ident = f" (id {index})" if version < 20220914 else ""
            hide = effects(key in ("Footprint", "Datasheet") or (bool(self.power) and key == "Reference"), bare_hide)
            parts.append(f"(property {quoted(key)} {quoted(value)}{ident} (at 0 0 0) {hide})")
        stem = (name or self.name).split(":")[-1]
        if self.body:
            (x1, y1), (x2, y2) = self.body
            parts.append(
                f'(symbol "{stem}_0_1" (rectangle (start {number(x1)} {number(y1)}) (end {number(x2)} {number(y2)})'
                " (stroke (width 0.254) (type default)) (fill (type background))))"
            )
        kinds = sorted({(p.unit, p.style) for p in self.pins} | {(u, 1) for u in range(1, self.units + 1)})
        for unit, style in kinds:
            pins = " ".join(p.text(version) for p in self.pins if (p.unit, p.style) == (unit, style))
            parts.append(f'(symbol "{stem}_{unit}_{style}" {pins})')
        if version >= 20240620:
            parts.append("(embedded_fonts no)")
        return "\n      ".join(part for part in [*parts, self.extra] if part) + ")"


def probe() -> Symbol:
    """One pin at the symbol's own point: put it where it matters and see who shares its net."""
    return Symbol("probe", (Pin("1", (0, 0), length=0),), prefix="P")


def connector(
    names: int | Sequence[str],
    *,
    types: Sequence[str] | str = "passive",
    numbers: Sequence[str] = (),
    name: str = "",
    prefix: str = "J",
) -> Symbol:
    """Pins one under the other on the left, 2.54 mm apart, pin 1 on top at (-5.08, 0)."""
    labels = [f"Pin_{k}" for k in range(1, names + 1)] if isinstance(names, int) else list(names)
    kinds = [types] * len(labels) if isinstance(types, str) else list(types)
    digits = list(numbers) or [str(k) for k in range(1, len(labels) + 1)]
    pins = tuple(
        Pin(digit, (-5.08, -2.54 * k), label, kind)
        for k, (digit, label, kind) in enumerate(zip(digits, labels, kinds, strict=True))
    )
    stem = name or "conn_" + "_".join(f"{p.number}.{p.name}.{p.electrical}" for p in pins)
    return Symbol(_plain_name(stem), pins, prefix, body=((-2.54, 1.27), (2.54, -2.54 * len(pins) + 1.27)))


def _plain_name(text: str) -> str:
    return "".join(c if c.isalnum() or c in "_.+-" else "-" for c in text)


def power(pin_name: str = "~", *, local: bool = False, hidden: bool = False) -> Symbol:
    """A power symbol; from 20230221 on it names its net by its value, before by its pin's name."""
    stem = _plain_name(f"power_{pin_name}{'_local' if local else ''}{'_hidden' if hidden else ''}")
    pin = Pin("1", (0, 0), pin_name, "power_in", 90, 0, hidden=hidden)
    return Symbol(stem, (pin,), "#PWR", "(power local)" if local else "(power)", ((-1.27, -1.27), (1.27, -2.54)))


def power_flag() -> Symbol:
    return Symbol("PWR_FLAG", (Pin("1", (0, 0), "pwr", "power_out", 90, 0),), "#FLG", "(power)")


def two_pin(prefix: str = "R") -> Symbol:
    """Pin 1 at (0, 3.81), pin 2 at (0, -3.81), as KiCad's resistor has them."""
    pins = (Pin("1", (0, 3.81), angle=270, length=1.27), Pin("2", (0, -3.81), angle=90, length=1.27))
    return Symbol(f"two_pin_{prefix}", pins, prefix, body=((-1.016, 2.54), (1.016, -2.54)))


def part(pins: Iterable[Pin], *, name: str, prefix: str = "U", units: int = 0, extra: str = "") -> Symbol:
    """Any symbol, pin by pin."""
    listed = tuple(pins)
    return Symbol(name, listed, prefix, extra=extra, units=units or max(1, *(p.unit for p in listed), 0))


def multi_unit(units: Sequence[Sequence[Pin]], *, name: str, prefix: str = "U", shared: Sequence[Pin] = ()) -> Symbol:
    """A part of several units; `shared` pins are in each of them (unit 0)."""
    pins = [replace(p, unit=k) for k, unit in enumerate(units, 1) for p in unit]
    return Symbol(name, (*(replace(p, unit=0) for p in shared), *pins), prefix, units=len(units))
