"""Splices, in-line parts, parts without leads, and the boards that the leads join."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from tabside.make.buy.purchase import NOT_KNOWN, Drawn, Purchase
from tabside.model.craft import Craft, Kind, Part, Termination
from tabside.model.natural import natural

_NUMBER_FIELDS = ("mpn", "part number", "manufacturer part number")


def inline_and_splices(craft: Craft) -> Iterator[Purchase]:
    used = {reference for lead in craft.leads for reference in lead.link}
    found = [
        termination
        for termination in craft.terminations.values()
        if termination.in_bom and termination.reference in used
    ]
    yield from _alike("splice", [termination for termination in found if termination.kind is Kind.SPLICE])
    yield from _alike("in-line part", [termination for termination in found if termination.kind is Kind.INLINE])


def other_parts(parts: Iterable[Part]) -> Iterator[Purchase]:
    """Parts without leads of their own: a capacitor across the battery, a pull-up."""
    yield from _alike("part", [part for part in parts if part.in_bom and not part.dnp])


def _alike(item: str, parts: Iterable[Part | Termination]) -> Iterator[Purchase]:
    """One line for all parts of the same value, footprint and part number."""
    groups: dict[tuple[str, str, str, str], list[str]] = {}
    for part in parts:
        groups.setdefault((part.value, part.footprint, *_stated_number(part.fields)), []).append(part.reference)
    for (value, footprint, number, source), references in groups.items():
        yield Purchase(
            item=f"{item}: {value}" if value else item,
            part_number=number or NOT_KNOWN,
            quantity=len(references),
            used_for=tuple(references),
            source=source,
            note=f"footprint {footprint}" if footprint else "",
            drawn=Drawn.PART,
        )


def boards(craft: Craft) -> Iterator[Purchase]:
    """What the leads join: boards, and parts with leads of their own."""
    found_on: dict[str, list[Termination]] = {}
    for termination in craft.terminations.values():
        if termination.kind not in (Kind.SPLICE, Kind.INLINE):
            found_on.setdefault(termination.board, []).append(termination)
    for board in sorted(found_on, key=natural):
        found = found_on[board]
        captive = all(termination.kind is Kind.CAPTIVE for termination in found)
        number, source = next(filter(all, (_stated_number(termination.fields) for termination in found)), ("", ""))
        yield Purchase(
            item=f"{'part with its own leads:' if captive else 'board'} {board}",
            part_number=number or NOT_KNOWN,
            used_for=tuple(termination.reference for termination in found),
            source=source,
            drawn=Drawn.BOARD,
        )


def _stated_number(fields: Mapping[str, str]) -> tuple[str, str]:
    """The part number that a symbol's own field states, and which field; empty texts when none does."""
    for name, text in fields.items():
        if name.strip().lower() in _NUMBER_FIELDS and text.strip() not in ("", "~"):
            return text.strip(), f"drawing, field {name.strip()}"
    return "", ""
