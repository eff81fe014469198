"""Connector families as rows for a person and as plain data for a program."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from msgspec.structs import fields

from tabside.errors import TabsideError
from tabside.facts import tables
from tabside.facts.contacts import CrimpContact, contact_parts
from tabside.facts.families import Family, all_families, family, family_by_text, family_ids
from tabside.facts.part_numbers import PartPattern
from tabside.facts.sources import Grade, Source, grades_in_words, read_source
from tabside.words.nearest import did_you_mean, nearest

FORMAT = "tabside/families/1"


def rows(only: Sequence[str] = ()) -> list[dict[str, str]]:
    """One row per family, everything as text; what is not known is "?".  `rated A` is per contact, at the AWG beside.

    `sources` holds the grades of rating, wire range and retention, in this order.

    Raises: TabsideError when `only` names a family that there is not.
    """
    return [_row(family) for family in _chosen(only)]


def narrow_rows(only: Sequence[str] = ()) -> list[dict[str, str]]:
    """As `rows`, in columns that fit a terminal of 80: one figure each, and of the sources those of rating and wire.

    `2-30*` means that not every count between was found.

    Raises: TabsideError when `only` names a family that there is not.
    """
    return [_narrow_row(family) for family in _chosen(only)]


def details(only: Sequence[str]) -> list[list[tuple[str, str]]]:
    """For each family all that is known, as pairs of a name and words, each source under what it speaks for.

    What is not known is named in one line at the end.

    Raises: TabsideError when `only` names a family that there is not.
    """
    return [_details(family) for family in _chosen(only)]


# What a person calls each field; None: it stands under another head.
HEADS: Mapping[str, str | None] = {
    "id": "write in Family",
    "maker": "maker",
    "series": "series",
    "kind": "kind",
    "pitch_mm": "pitch, mm",
    "rows": "rows of contacts",
    "circuits": "ways",
    "circuits_text": "ways, as stated",
    "circuits_source": "source of the ways",
    "rating_a": "amperes of one contact",
    "at_awg": "at wire of, AWG",
    "at_awg_text": "at wire, as stated",
    "rated_v": "volts",
    "rating_source": "source of the rating",
    "thinnest_awg": "thinnest wire, AWG",
    "thickest_awg": "thickest wire, AWG",
    "od_min_mm": "insulation from, mm",
    "od_max_mm": "insulation to, mm",
    "wire_source": "source of the wire",
    "housings": "housing of the plug",
    "housing_source": "source of the housing",
    "contact_text": "crimp contacts",
    "contact_source": "source of the contacts",
    "top_headers": "header, top entry",
    "side_headers": "header, side entry",
    "header_source": "source of the headers",
    "strip_mm": "strip, mm",
    "strip_range": "strip, as stated, mm",
    "strip_source": "source of the strip",
    "latch": "latch",
    "latch_detail": "about the latch",
    "latch_source": "source of the latch",
    "retention": "contact held by",
    "extraction": "to release it",
    "retention_source": "source of that",
    "mates_with": "goes into",
    "not_mates_with": "does not go into",
    "mate_source": "source of what mates",
    "contact_new_mohm": "contact, new, milliohm",
    "contact_aged_mohm": "contact, aged, milliohm",
    "insulation_mohm": "insulation, megohm",
    "withstand_v_ac": "withstands, V AC",
    "temperature_c": "temperature, °C",
    "electrical_source": "source of these",
    "cycles": "plugged, times",
    "cycles_source": "source of the times",
    "notes": "remarks",
    "contacts": None,
}
_AS_STATED = {"circuits_text": "circuits", "at_awg_text": "at_awg", "strip_range": "strip_mm"}  # told once if alike
_NOT_KNOWN = "not known"


def _details(family: Family) -> list[tuple[str, str]]:
    plain = _plain_family(family)
    texts = {name: _words(value) for name, value in plain.items()}
    if texts["contacts"] != _NOT_KNOWN:
        texts["contact_text"] = texts["contacts"]
    texts["retention"] = texts["retention"].replace("_", " ")
    texts["notes"] = grades_in_words(texts["notes"])
    heads = {name: head for name, head in HEADS.items() if head is not None}
    unknown = {name for name in heads if texts[name] == _NOT_KNOWN}
    missing = dict.fromkeys(
        head.partition(",")[0] for name, head in heads.items() if name in unknown and not name.endswith("_source")
    )
    twice = {name for name, first in _AS_STATED.items() if texts[name] == texts[first]}
    known = [(head, texts[name]) for name, head in heads.items() if name not in unknown | twice]
    return [*known, (_NOT_KNOWN, "; ".join(missing))] if missing else known


def families_json(only: Sequence[str] = ()) -> dict[str, Any]:
    """All fields of the families with the source of each, and their crimp contacts; null is "not known".

    Raises: TabsideError when `only` names a family that there is not.
    """
    return {
        "format": FORMAT,
        "tables_version": tables.tables_version(),
        "families": [_plain_family(family) for family in _chosen(only)],
    }


def members(text: str) -> tuple[str, ...]:
    """The ids of the families of a maker or line (`JST`, `molex clikmate`); () for what names one family or none."""
    found = _beginning(text) if family_by_text(text) is None else ()
    return found if len(found) > 1 else ()


def _beginning(text: str) -> tuple[str, ...]:
    begin = _plain_name(text)
    return tuple(id for id in family_ids() if begin and id.startswith(f"{begin}_"))


def _plain_name(text: str) -> str:
    return "_".join(re.split(r"[\W_]+", text.lower().strip())).strip("_")


def _chosen(only: Sequence[str]) -> tuple[Family, ...]:
    if not only:
        return all_families()
    return tuple(dict.fromkeys(found for text in only for found in _named(text)))


def _named(text: str) -> tuple[Family, ...]:
    found = family_by_text(text)
    if found is not None:
        return (found,)
    several = _beginning(text)
    if not several:
        raise TabsideError(f"no connector family is called {text!r}; {_near(text)}")
    return tuple(family(id) for id in several)


def _near(text: str) -> str:
    makers = dict.fromkeys(id.partition("_")[0] for id in family_ids())
    by_series = {id.partition("_")[2]: id for id in family_ids()}
    near = nearest(_plain_name(text), by_series, alike=0.75)
    if near is not None:
        return f"did you mean {by_series[near]}?"
    names = [*(maker for maker in makers if members(maker)), *family_ids()]
    return did_you_mean(_plain_name(text), names, "`tabside families` lists them", alike=0.4, quote="")


def _grades(*grades: Grade) -> str:
    return " ".join("-" if grade is Grade.NOT_FOUND else grade.value for grade in grades)


def _row(family: Family) -> dict[str, str]:
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
        "retention": (family.retention or "?").replace("_", " "),
        "sources": _grades(*_of_figures(family), family.retention_source.grade),
    }


def _of_figures(family: Family) -> tuple[Grade, Grade]:
    """Of rating and wire."""
    return (family.rating_source.grade_for("current"), family.wire_source.grade_for("AWG"))


def _narrow_row(family: Family) -> dict[str, str]:
    row = _row(family)
    counts = sorted(family.circuits or ())
    whole = len(counts) == (counts[-1] - counts[0] + 1 if counts else 0)
    at_awg = _ends(family.at_awg)
    return {
        "write in Family": family.id,
        "pitch": row["pitch"],
        "ways": f"{_ends(counts)}{'' if whole else '*'}" if counts else "?",
        "A (at AWG)": row["rated A"] + (f" ({at_awg})" if at_awg else ""),
        "AWG": row["AWG"],
        "latch": row["latch"],
        "sources": _grades(*_of_figures(family)),
    }


def _ends(values: Sequence[int]) -> str:
    """The first and the last."""
    return "-".join(str(value) for value in dict.fromkeys((values[0], values[-1]))) if values else ""


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


def _words(value: Any) -> str:
    """Plain data as words: `1.0`, `2-16 20`, `SHR-{nn}V-S (without)`."""
    if value in (None, [], "not found"):
        return _NOT_KNOWN
    if isinstance(value, dict):
        return _of_dict(value)
    if isinstance(value, list) and all(isinstance(item, int) for item in value):
        return _ranges(frozenset(value))
    return "; ".join(_words(item) for item in value) if isinstance(value, list) else f"{value}"


def _of_dict(value: dict[str, Any]) -> str:
    if "grade" in value:
        return _NOT_KNOWN if value["grade"] == "not found" else read_source(str(value["text"])).words
    if "part" in value:
        return f"{value['part']} ({value['note']})" if value["note"] else str(value["part"])
    bounds = _span(value["thinnest_awg"], value["thickest_awg"])
    return f"{value['number']} (AWG {bounds})" if bounds != "?" else str(value["number"])


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
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return None if value == "" else value
