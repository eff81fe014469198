"""How an end is stripped and crimped: lengths and tools of the contact that its wire takes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabside.facts import contacts, families
from tabside.facts.contacts import CrimpContact
from tabside.model.stock import Cutting


class Crimp(NamedTuple):
    """What goes onto a stripped end.  Empty texts: no table says it."""

    contact: str  # part number, where only one does
    tool: str  # the maker's hand tool


def strip_words(family: str | None, gauge_awg: int | None, cutting: Cutting) -> str:
    """How far to strip: "1.5 mm", "2.3 to 2.5 mm"; the usual length, said to be so, where no table has one.

    `family` None: the end is soldered.
    """
    known = None if family is None else _of_the_contact(family, gauge_awg)
    if known is None and family is not None:
        known = families.family(family).strip_text if families.family(family).strip_mm is not None else None
    return f"{known} mm" if known is not None else f"{cutting.strip_mm:g} mm (common practice, no source)"


def crimp_of(family: str, gauge_awg: int | None) -> Crimp:
    """The contact and its tool; nothing where several contacts may do and differ."""
    fits = _fitting(family, gauge_awg)
    number = fits[0].number if len(fits) == 1 else ""
    tools = {contact.hand_tool for contact in fits}
    tool = tools.pop() if len(tools) == 1 else ""
    return Crimp(number, tool.split(" [")[0].split("; ")[0])


def _of_the_contact(family: str, gauge_awg: int | None) -> str | None:
    """What all contacts that take the gauge have in common."""
    lengths = {contact.strip_mm for contact in _fitting(family, gauge_awg)}
    if len(lengths) != 1:
        return None
    length = lengths.pop()
    if length is None:
        return None
    low, high = length
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def _fitting(family: str, gauge_awg: int | None) -> tuple[CrimpContact, ...]:
    known = contacts.contact_parts(family)
    return known if gauge_awg is None else tuple(part for part in known if part.takes(gauge_awg) is not False)


def crimp_lines(family: str) -> Iterator[str]:
    """What the tables know of each contact of a family, with its source; nothing of contacts with no figure."""
    for part in contacts.contact_parts(family):
        low, high = part.strip_mm or (None, None)
        strip = "" if low is None else f"strip {low:g} mm" if low == high else f"strip {low:g} to {high:g} mm"
        height = f"crimp height {part.crimp_height}" if part.crimp_height else ""
        tool = f"hand tool {part.hand_tool.split(' [')[0]}" if part.hand_tool else ""
        figures = ", ".join(filter(None, (strip, height, tool)))
        if figures:
            yield f"{part.number}: {figures} ({part.values_source.grade.words})"
