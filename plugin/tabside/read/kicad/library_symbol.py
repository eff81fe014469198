"""A library symbol, as embedded in a schematic: its pins, and how it names and joins nets."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tabside.read.kicad.sheet_file import LibPin, LibSymbol, Point
from tabside.read.kicad.text.sexpr import Atom, Node, WrongContent, head_of, point, text_at, truth

TILDE_IS_TEXT = 20250318  # before this file version `~` stands for an empty name
_MOST_STACKED = 10_000
_UNIT_NAME = re.compile(r"_(\d{1,6})_(\d{1,6})$", re.ASCII)
_END_OF_RANGE = r"(?as)(.*?)(\d{1,9})"


def library_symbol(node: Node, version: int) -> LibSymbol:
    """The symbol in `(symbol "LIB:NAME" ...)` of a file of this version.  Raises: WrongContent."""
    name = text_at(node, 1)
    pins: list[LibPin] = []
    power = ""
    unit_count = 1
    jumpers: tuple[tuple[str, ...], ...] = ()
    duplicates_join = False
    for child in node[2:]:
        head = head_of(child)
        if head == "symbol":
            unit, style = _unit_and_style(child)
            unit_count = max(unit_count, unit)
            pins += _pins(child, unit, style, version)
        elif head == "pin":  # outside of any unit: belongs to all
            pins += _pins([child], 0, 0, version)
        elif head == "power":
            power = "local" if len(child) > 1 and child[1] == "local" else "global"
        elif head == "jumper_pin_groups":
            jumpers = _jumper_groups(child)
        elif head == "duplicate_pin_numbers_are_jumpers":
            duplicates_join = truth(child, head)
        elif head == "extends":
            raise WrongContent(f'library symbol "{name}" extends another one, which a schematic cannot hold', child)
    return LibSymbol(name, tuple(pins), power, unit_count, jumpers, duplicates_join)


def stacked_numbers(number: str) -> tuple[str, ...]:
    """The pin numbers that a pin's number stands for in KiCad 10: `[1-3,A5]` is four pins.

    What is no such notation, or stands for more than 10 000 pins, stands for itself.
    """
    if not (number.startswith("[") and number.endswith("]")):
        return (number,)
    numbers: list[str] = []
    for part in number[1:-1].split(","):
        first, dash, last = (text.strip() for text in part.partition("-"))
        if not dash:
            if first:
                numbers.append(first)
            continue
        begin, end = re.fullmatch(_END_OF_RANGE, first), re.fullmatch(_END_OF_RANGE, last)
        if begin is None or end is None or begin[1] != end[1] or int(begin[2]) > int(end[2]):
            return (number,)
        if int(end[2]) - int(begin[2]) + len(numbers) >= _MOST_STACKED:
            return (number,)
        numbers += [f"{begin[1]}{n}" for n in range(int(begin[2]), int(end[2]) + 1)]
    return tuple(numbers) or (number,)


def _unit_and_style(node: Node) -> tuple[int, int]:
    name = text_at(node, 1)
    found = _UNIT_NAME.search(name)
    if found is None:
        raise WrongContent(f'unit "{name[:60]}" of a library symbol does not end in _UNIT_STYLE', node, 1)
    return (int(found[1]), int(found[2]))


def _pins(nodes: Node, unit: int, style: int, version: int) -> Iterator[LibPin]:
    for node in nodes:
        if isinstance(node, list) and node and node[0] == "pin":
            yield _pin(node, unit, style, version)


def _pin(node: Node, unit: int, style: int, version: int) -> LibPin:
    number = name = ""
    at: Point | None = None
    hidden = False
    alternates: dict[str, str] = {}
    for child in node:
        if not isinstance(child, list):
            hidden = hidden or (child == "hide" and isinstance(child, Atom))
        elif not child:
            continue
        elif (head := child[0]) == "at":
            at = point(child)
        elif head == "name":
            name = text_at(child, 1)
        elif head == "number":
            number = text_at(child, 1)
        elif head == "hide":
            hidden = truth(child, "hide")
        elif head == "alternate":
            alternates[text_at(child, 1)] = text_at(child, 2)
    if at is None:
        raise WrongContent(f'pin "{number}" of a library symbol has no place (at X Y ANGLE)', node)
    if name == "~" and version < TILDE_IS_TEXT:
        name = ""
    return LibPin(number, name, text_at(node, 1), at, hidden, unit, style, alternates)


def _jumper_groups(node: Node) -> tuple[tuple[str, ...], ...]:
    groups = []
    for group in node[1:]:
        if not isinstance(group, list):
            raise WrongContent("a list of pin numbers is expected in (jumper_pin_groups ...)", node)
        numbers = [stacked_numbers(text_at(group, index)) for index in range(len(group))]
        groups.append(tuple(number for some in numbers for number in some))
    return tuple(groups)
