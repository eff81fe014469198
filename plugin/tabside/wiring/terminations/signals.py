"""The names of a termination's contacts: from the field `Signals`, or from the symbol's pin names."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

_ONLY_A_NUMBER = re.compile(r"(?:pin|contact|pad)?[ _-]?(\w+)\Z", re.IGNORECASE)
_NUMBERED = re.compile(r"(\d{1,3})(?:\s*[:=)]\s*|\.(?!\d)\s*|\s+(?!V(?:DC)?\Z))\S.*\Z", re.IGNORECASE)
_NOT_USED = frozenset(("nc", "n/c", "n.c.", "n.c"))


def split_signals(text: str) -> tuple[str, ...]:
    """The names of `Signals`: parted by commas, or by blanks when there is no comma."""
    if "," in text:
        names = [" ".join(name.split()) for name in text.split(",")]
        return tuple(names[:-1] if names[-1] == "" else names)  # a comma after the last name adds none
    return tuple(text.split())


def numbered_otherwise(names: Sequence[str]) -> str:
    """ "4:5V" where all names bear a number and this one is not that of its place; "" where none is."""
    found = [_NUMBERED.match(name) for name in names]
    if len(names) < 2 or not all(found):
        return ""
    return next(
        (name for n, (name, match) in enumerate(zip(names, found, strict=True), 1) if match and int(match[1]) != n), ""
    )


def is_not_used(name: str) -> bool:
    """Whether a name says that the contact stays empty."""
    return name.strip().lower() in _NOT_USED


def repeats_number(name: str, number: str) -> bool:
    """Whether a pin's name says no more than its number: "", "~", "1", "Pin_1"."""
    if name in ("", "~") or name == number:
        return True
    if not name.endswith(number.lstrip("0")):
        return False
    match = _ONLY_A_NUMBER.match(name)
    return match is not None and match[1].lstrip("0") == number.lstrip("0")


def is_counted(number: str) -> bool:
    """Whether a contact's number is a decimal one."""
    return number.isascii() and number.isdecimal() and len(number) < 10


def names_by_contact(
    names: Sequence[str], numbers: Sequence[str], *, from_right: bool, ways: int | None
) -> Mapping[str, str]:
    """Which contact each name belongs to; empty when the names do not fit a row that was read from its far end.

    `numbers` are in contact order.  By number when all are decimal, so that a contact that is not drawn keeps its
    name; else by place.  `from_right`: the first name is that of the last contact.  `ways`: as the footprint says.
    """
    if all(map(is_counted, numbers)):
        count = len(names)
        if from_right and count not in (ways, max(map(int, numbers), default=0)):
            return {}
        in_order = names[::-1] if from_right else names
        return {number: in_order[int(number) - 1] for number in numbers if 1 <= int(number) <= count}
    if from_right and len(names) != len(numbers):
        return {}
    return dict(zip(numbers, names[::-1] if from_right else names, strict=False))
