"""Connector families as rows for a person and as plain data for a program."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from typing import Any

from ..errors import TabsideError
from . import tables
from .contacts import CrimpContact, contact_parts
from .families import Family, all_families, family_by_text, family_ids
from .part_numbers import PartPattern
from .sources import Source

FORMAT = "tabside/families/1"


def rows(only: Sequence[str] = ()) -> list[dict[str, str]]:
    """One row per family, everything as text; what is not known is "?".  `rated A` is per contact, at the AWG beside.

    `sources` holds the grades of rating, wire range and retention, in this order.

    Raises: TabsideError when `only` names a family that there is not.
    """
    return [_row(family) for family in _chosen(only)]


def families_json(only: Sequence[str] = ()) -> dict[str, Any]:
    """All fields of the families with the source of each, and their crimp contacts; null is "not known".

    Raises: TabsideError when `only` names a family that there is not.
    """
    return {
        "format": FORMAT,
        "tables_version": tables.tables_version(),
        "families": [_plain_family(family) for family in _chosen(only)],
    }


def _chosen(only: Sequence[str]) -> tuple[Family, ...]:
    if not only:
        return all_families()
    return tuple(_named(text) for text in only)


def _named(text: str) -> Family:
    found = family_by_text(text)
    if found is None:
        import difflib

        near = difflib.get_close_matches(text.lower().replace(" ", "_"), family_ids(), n=1, cutoff=0.4)
        hint = f"did you mean {near[0]}?" if near else "`tabside families` lists them"
        raise TabsideError(f"no connector family is called {text!r}; {hint}")
    return found


def _row(family: Family) -> dict[str, str]:
    sources = (family.rating_source, family.wire_source, family.retention_source)
    return {
        "family": family.id,
        "maker": family.maker.partition(" (")[0],
        "series": family.series.partition(" (")[0],
        "pitch": _text(family.pitch_mm),
        "rows": "/".join(str(count) for count in family.rows) or "?",
        "ways": _ranges(family.circuits),
        "rated A": _text(family.rating_a),
        "at AWG": "/".join(str(gauge) for gauge in family.at_awg) or "?",
        "AWG": _span(family.thinnest_awg, family.thickest_awg),
        "latch": family.latch or "?",
        "retention": (family.retention or "?").replace("_", " ").replace("unknown", "?"),
        "sources": " ".join("-" if source.text == "not found" else source.grade.value for source in sources),
    }


def _text(value: float | None) -> str:
    return "?" if value is None else f"{value:g}"


def _span(thinnest: int | None, thickest: int | None) -> str:
    return "?" if thinnest is None or thickest is None else f"{thinnest}-{thickest}"


def _ranges(counts: frozenset[int] | None) -> str:
    """{2, 3, 4, 20} as "2-4 20"."""
    runs: list[list[int]] = []
    for count in sorted(counts or ()):
        if runs and count == runs[-1][-1] + 1:
            runs[-1].append(count)
        else:
            runs.append([count])
    return " ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs) or "?"


def _plain_family(family: Family) -> dict[str, Any]:
    answer = {field.name: _plain(getattr(family, field.name)) for field in fields(family)}
    answer["contacts"] = [_plain_contact(contact) for contact in contact_parts(family.id)]
    return answer


def _plain_contact(contact: CrimpContact) -> dict[str, Any]:
    return {field.name: _plain(getattr(contact, field.name)) for field in fields(contact)}


def _plain(value: object) -> Any:
    """As JSON has it: sets as sorted lists, empty texts as null, sources with their grade."""
    if isinstance(value, Source):
        return {"grade": value.grade.value, "text": value.text}
    if isinstance(value, PartPattern):
        return {"part": value.template, "note": value.note or None}
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return None if value == "" else value
