"""How an end is stripped and crimped: lengths and tools of the contact that its wire takes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd
from tabside.facts import contacts, families
from tabside.facts.contacts import CrimpContact
from tabside.make.needs.allowances import room_mm
from tabside.make.needs.cable_jobs import soldered
from tabside.model.stock import Cutting


class Crimp(NamedTuple):
    """What goes onto a stripped end.  Empty texts: no table says it."""

    contact: str  # part number, where only one does
    tool: str  # the maker's hand tool


TO_FIT = "not known"
_BESIDE = {
    EndKind.PAD: "to the length of the pad",
    EndKind.SPLICE: "for an overlap of 3 to 6 wire diameters (NASA-STD-8739.4, read in the document)",
    EndKind.INLINE: "to the depth of its cup or the length of its tag",
    EndKind.CUP: "to the depth of the cup",
    EndKind.MATE: "to the depth of the cup",
}


def strip_words(end: LeadEnd, gauge_awg: int | None, cutting: Cutting) -> tuple[str, str]:
    """How far to strip, "2.3 to 2.5 mm", and how to find it out where neither a table nor the craft file says it."""
    known = strip_text(end, gauge_awg, cutting)
    if known != TO_FIT:
        return f"{known} mm", ""
    if not soldered(end):
        return "to the length of the contact's barrel", ": hold the wire beside it"
    beside = "" if end.kind is EndKind.SPLICE else ": hold the wire beside it"
    return _BESIDE[end.kind], f"{beside} (the cut length leaves {room_mm(gauge_awg):g} mm)"


def strip_text(end: LeadEnd, gauge_awg: int | None, cutting: Cutting) -> str:
    """The same in a cell: "1.5", "2.3 to 2.5", or "not known"; in mm."""
    known = None
    if not soldered(end) and end.family is not None:
        known = _of_the_contact(end.family, gauge_awg)
        stated = families.family(end.family)
        known = known or (stated.strip_text if stated.strip_mm is not None else None)
    if known is None and cutting.strip_mm:
        return f"{cutting.strip_mm:g}"
    return known or TO_FIT


def cut_length_words(cutting: Cutting) -> str:
    """What is added to a wire's length; one sentence or two for the notes of a page."""
    if cutting.strip_mm is not None:
        bare = f"its strip length ({cutting.strip_mm:g} mm where no table says it)"
    else:
        bare = (
            "its strip length (where no table says it: six wire diameters for what is soldered, the most of a lap "
            "joint in NASA-STD-8739.4, and 2 mm at least, common practice, no source)"
        )
    return (
        f"Cut length = the wire's length + at each end made here {bare} and {cutting.again_mm:g} mm to make the end "
        "once more (common practice, no source; the craft file's [cutting])."
    )


def crimp_of(family: str, gauge_awg: int | None) -> Crimp:
    """The contact and its tool; nothing where several contacts may do and differ."""
    fits = _fitting(family, gauge_awg)
    number = fits[0].number if len(fits) == 1 and " " not in fits[0].number else ""  # a series is no part number
    is_same = len({contact.hand_tool for contact in fits}) == 1
    return Crimp(number, fits[0].first_tool if is_same else "")


def _of_the_contact(family: str, gauge_awg: int | None) -> str | None:
    """What all contacts that take the gauge have in common."""
    lengths = {contact.strip_mm for contact in _fitting(family, gauge_awg)}
    if len(lengths) != 1:
        return None
    length = lengths.pop()
    return None if length is None else _from_to(*length)


def _fitting(family: str, gauge_awg: int | None) -> tuple[CrimpContact, ...]:
    known = contacts.contact_parts(family)
    return known if gauge_awg is None else tuple(part for part in known if part.takes(gauge_awg) is not False)


def _from_to(low: float, high: float) -> str:
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def _heights(by_gauge: str) -> str:
    """ "28:0.45;30:0.42 (+-0.05)" as "28 AWG 0.45 mm, 30 AWG 0.42 mm (+-0.05 mm)"."""
    heights, _, tolerance = by_gauge.rstrip(")").partition(" (")
    said = [re.sub(r"^(\d+):", r"\1 AWG ", height.strip()).replace(": ", " ") + " mm" for height in heights.split(";")]
    return ", ".join(said) + (f" ({tolerance} mm)" if tolerance else "")


def crimp_lines(family: str) -> Iterator[str]:
    """What the tables know of each contact of a family, with its source; nothing of contacts with no figure."""
    for part in contacts.contact_parts(family):
        strip = f"strip {_from_to(*part.strip_mm)} mm" if part.strip_mm else ""
        height = f"crimp height {_heights(part.crimp_height)}" if part.crimp_height else ""
        tool = f"hand tool {part.tools}" if part.hand_tool else ""
        figures = ", ".join(filter(None, (strip, height, tool)))
        if figures:
            yield f"{part.number}: {figures} ({part.figures_grade.words})"
