"""Gauge, colour, length and pair of a lead, from the fields of labels and directives on its wire.

A note that reaches both ends of a lead speaks of that lead; one that reaches a single end, of the leads there; one that
reaches no contact, of the whole net.  The nearer one outranks the others.
"""

from __future__ import annotations

import re
from collections.abc import Sequence, Set
from typing import TypeVar

from msgspec import Struct

from tabside.facts.colours import colour_code
from tabside.facts.wire import awg_within
from tabside.model.craft import ContactKey, Oddity, SaidBy
from tabside.model.drawing import Drawing, DrawnNote
from tabside.model.stated_limits import LONGEST_MM, THINNEST_AWG
from tabside.wiring.leads.lengths import PathLengths
from tabside.wiring.leads.net import LaidLead
from tabside.wiring.leads.stretches import Stretches
from tabside.wiring.terminations.fields import Fields, Problem, field_key, near_misses
from tabside.words.contacts import begun

GAUGE, COLOUR, LENGTH, PAIR = "gauge", "colour", "length", "pair"
_SPELLINGS = {GAUGE: (GAUGE, "gauge awg"), COLOUR: (COLOUR, "color"), LENGTH: (LENGTH, "length mm"), PAIR: (PAIR,)}
_OURS = {field_key(name): field for field, names in _SPELLINGS.items() for name in names}
# What else people call them on a wire; not read, but told: common practice, no source.
_OTHER_WORDS = {"awg": GAUGE, "wiregauge": GAUGE, "wireawg": GAUGE, "wiresize": GAUGE, "wirecolour": COLOUR}
_OTHER_WORDS |= {"wirecolor": COLOUR, "wirelength": LENGTH, "cablelength": LENGTH}
_GAUGE = re.compile(r"(?:AWG\s*)?#?(\d{1,2})\s*(?:AWG)?\Z", re.IGNORECASE)
_AREA = re.compile(r"(\d{1,3}(?:[.,]\d{1,4})?)\s*(?:mm(?:\^?2|²)|sq\.?\s?mm|qmm)\Z", re.IGNORECASE)
_LENGTH = re.compile(r"(\d+(?:\.\d+)?)\s*(mm|cm|m)?\Z", re.IGNORECASE)
_MM = {"mm": 1, "cm": 10, "m": 1000}

_Value = TypeVar("_Value", int, str)


class LeadFacts(Struct, frozen=True):
    """What is known of one lead besides its ends."""

    gauge_awg: int | None = None
    gauge_said_by: SaidBy = SaidBy.NOBODY
    colour: str | None = None
    length_mm: float | None = None
    length_said_by: SaidBy = SaidBy.NOBODY
    pair: str | None = None


class Note(Struct, frozen=True):
    """A drawn note that could be read."""

    drawn: DrawnNote
    ends: frozenset[ContactKey]
    gauge_awg: int | None
    colour: str | None
    length_mm: float | None
    pair: str | None


class Notes:
    """All notes of a drawing, by net, and what could not be read in them."""

    def __init__(self) -> None:
        self.by_net: dict[int, list[Note]] = {}
        self.oddities: list[Oddity] = []


def read_notes(drawing: Drawing, stretches: Stretches) -> Notes:
    notes = Notes()
    for drawn in drawing.notes:
        fields = Fields(drawn.fields)
        problems: list[Problem] = []
        note = Note(
            drawn,
            stretches.contacts_from(drawn.pins),
            _gauge(_text(fields, GAUGE), problems),
            colour_code(_text(fields, COLOUR)),
            _length_mm(_text(fields, LENGTH), problems),
            _text(fields, PAIR) or None,
        )
        notes.by_net.setdefault(drawn.net, []).append(note)
        where = f"note on net {drawing.nets[drawn.net].name}"
        notes.oddities += [
            Oddity("field", "", f"{where}: {problem.text}", drawn.place, problem.field) for problem in problems
        ]
        others = {name: begun(_OTHER_WORDS[key]) for name in drawn.fields if (key := field_key(name)) in _OTHER_WORDS}
        for name, meant in {**near_misses(drawn.fields, ours=_OURS), **others}.items():
            said = f'{where}: the field "{name}" is none that Tabside reads on a wire; {meant} is meant, it seems'
            notes.oddities.append(Oddity("field-name", "", said, drawn.place))
    return notes


def facts_of_leads(
    leads: Sequence[LaidLead], notes: Notes, paths: PathLengths, default_gauge_awg: int | None
) -> tuple[list[LeadFacts], list[Oddity]]:
    """What is known of each lead: from the drawing, then the craft file, then positions.

    Of several lengths in the drawing the longest counts; two gauges, colours or pairs for one lead are odd.
    """
    by_net: dict[int, list[LaidLead]] = {}
    for lead in leads:
        if lead.net_id in notes.by_net:
            by_net.setdefault(lead.net_id, []).append(lead)
    aimed = {
        id(note)
        for net, found in notes.by_net.items()
        for note in found
        if any(set(lead.ends) <= note.ends for lead in by_net.get(net, ()))
    }
    oddities: list[Oddity] = []
    facts = []
    for lead in leads:
        rings = _rings(lead, notes.by_net.get(lead.net_id, ()), aimed)
        facts.append(_facts(lead, rings, paths, default_gauge_awg, oddities))
    return facts, oddities


def _facts(
    lead: LaidLead,
    rings: Sequence[Sequence[Note]],
    paths: PathLengths,
    default_gauge_awg: int | None,
    oddities: list[Oddity],
) -> LeadFacts:
    gauge = _said(lead, GAUGE, [[(note.gauge_awg, note) for note in ring] for ring in rings], oddities)
    colour = _said(lead, COLOUR, [[(note.colour, note) for note in ring] for ring in rings], oddities)
    pair = _said(lead, PAIR, [[(note.pair, note) for note in ring] for ring in rings], oddities)
    lengths = next(filter(None, ([mm for note in ring if (mm := note.length_mm)] for ring in rings)), [])
    length_mm, said_by = (max(lengths), SaidBy.DRAWING) if lengths else paths.between(lead.ends[0][0], lead.ends[1][0])
    gauge_said_by = SaidBy.DRAWING if gauge is not None else SaidBy.NOBODY
    if gauge is None and default_gauge_awg is not None:
        gauge, gauge_said_by = default_gauge_awg, SaidBy.CRAFT_FILE
    return LeadFacts(
        gauge_awg=gauge,
        gauge_said_by=gauge_said_by,
        colour=colour,
        length_mm=length_mm,
        length_said_by=said_by,
        pair=pair,
    )


def _rings(lead: LaidLead, notes: Sequence[Note], aimed: Set[int]) -> list[list[Note]]:
    """The notes that speak of a lead, nearest first; `aimed` are those that reach both ends of some lead."""
    if not notes:
        return []
    ends = set(lead.ends)
    both = [note for note in notes if ends <= note.ends]
    one = [note for note in notes if id(note) not in aimed and note.ends & ends]
    return [both, one, [note for note in notes if not note.ends]]


def _said(
    lead: LaidLead, what: str, rings: Sequence[Sequence[tuple[_Value | None, Note]]], oddities: list[Oddity]
) -> _Value | None:
    """The value of the nearest ring that has one; the smallest (of gauges: the thickest) when a ring has several."""
    for ring in rings:
        known = {value: note for value, note in ring if value is not None}
        if len(known) > 1:
            texts = " and ".join(str(value) for value in sorted(known))
            often = "twice" if len(known) == 2 else f"{len(known)} times"
            ends = " - ".join(":".join(end) for end in lead.ends)
            place = known[max(known)].drawn.place
            oddities.append(Oddity("field", "", f"wire {ends}: {what} is stated {often}, {texts}", place))
        if known:
            return min(known)
    return None


def _text(fields: Fields, what: str) -> str:
    return next(filter(None, (fields.text(name) for name in _SPELLINGS[what])), "")


def _gauge(text: str, problems: list[Problem]) -> int | None:
    match = _GAUGE.match(text)
    if match and int(match[1]) <= THINNEST_AWG:
        return int(match[1])
    area = _AREA.match(text)
    awg = awg_within(float(area[1].replace(",", "."))) if area else None
    if awg is not None:
        return awg
    if text:
        problems.append(Problem(f'Gauge is "{text}"; write AWG, for example 24, or mm², for example 0.25 mm2', GAUGE))
    return None


def _length_mm(text: str, problems: list[Problem]) -> float | None:
    match = _LENGTH.match(text)
    length_mm = float(match[1]) * _MM[(match[2] or "mm").lower()] if match else 0.0
    if 0 < length_mm <= LONGEST_MM:
        return length_mm
    if text:
        problems.append(Problem(f'Length is "{text}"; write mm, for example 85', LENGTH))
    return None
