"""Which fields of which symbols get which marks."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from typing import NamedTuple

from tabside.model.craft import Craft, Lead, Termination
from tabside.model.drawing import Drawing, DrawnSymbol
from tabside.wiring.leads.marks import mark_number, stamped_cable_marks, stamped_lead_marks
from tabside.wiring.terminations.fields import field_key

CABLE_MARK = "Cable mark"
LEAD_MARKS = "Lead marks"
FIELDS = (CABLE_MARK, LEAD_MARKS)

Values = Mapping[str, str]  # field name -> its value
Edits = dict[str, dict[str, Values]]  # file as in Place.file -> uuid of a placed symbol -> its values


class NotStamped(NamedTuple):
    """A termination whose marks cannot stand in the drawing."""

    termination: str
    why: str


class Wanted(NamedTuple):
    """What the fields should say."""

    values: dict[str, Values]  # by termination, in natural order
    edits: Edits  # of symbols that do not say so yet
    not_stamped: tuple[NotStamped, ...]
    gone: tuple[str, ...]  # marks that stand in the drawing and belong to no lead or cable any more


def wanted_marks(drawing: Drawing, craft: Craft) -> Wanted:
    """The marks of the craft as fields of its terminations.

    A mark that stands in the drawing and belongs to nothing any more is emptied.
    """
    symbols: dict[str, list[DrawnSymbol]] = {}
    for symbol in drawing.symbols:
        symbols.setdefault(symbol.reference, []).append(symbol)
    placed = Counter((symbol.place.file, symbol.place.uuid) for symbol in drawing.symbols)
    doubtful = {oddity.reference for oddity in craft.oddities if oddity.what == "reference-duplicate"}
    leads: dict[str, list[Lead]] = {}
    for lead in craft.leads:
        for reference in {end[0] for end in lead.ends}:
            leads.setdefault(reference, []).append(lead)
    told = {
        reference: _why_not(termination, symbols.get(reference, []), placed, reference in doubtful)
        for reference, termination in craft.terminations.items()
    }
    cables = {end: cable.mark for cable in craft.cables for end in cable.ends if craft.terminations[end].takes_plug}
    values: dict[str, Values] = {}
    edits: Edits = {}
    refused = []
    for reference, termination in craft.terminations.items():
        said = {
            CABLE_MARK: cables.get(reference, ""),
            LEAD_MARKS: _lead_marks(termination, leads.get(reference, []), told),
        }
        if told[reference]:
            if reference in leads:
                refused.append(NotStamped(reference, told[reference]))
            continue
        values[reference] = said
        for unit in symbols[reference]:
            if any(_said(unit, name) != value for name, value in said.items()):
                edits.setdefault(unit.place.file, {})[unit.place.uuid] = said
    return Wanted(values, edits, tuple(refused), tuple(_gone(craft)))


def _gone(craft: Craft) -> list[str]:
    """In the order of their numbers, cables first."""
    leads, _ = stamped_lead_marks(craft.terminations)
    cables, _ = stamped_cable_marks(craft.terminations)
    said = {*cables.values(), *(mark for marks in leads.values() for mark in marks)}
    there = {lead.mark for lead in craft.leads} | {cable.mark for cable in craft.cables}
    return sorted(said - there, key=lambda mark: (mark[0], mark_number(mark)))


def same_field(a: str, b: str) -> bool:
    """Whether two names are one field."""
    return field_key(a) == field_key(b)


def _said(symbol: DrawnSymbol, field: str) -> str:
    """What the symbol says now; "" also where it has no such field."""
    return next((text for name, text in symbol.fields.items() if same_field(name, field)), "")


def _lead_marks(termination: Termination, leads: list[Lead], told: Mapping[str, str]) -> str:
    """As `1:W3 2:W4`, in contact order; a pad may have several.

    Leads whose other end cannot be stamped are known by this end alone: not so when a contact has several of them.
    """
    words = []
    for contact in termination.contacts:
        here = sorted((lead for lead in leads if contact.key in lead.ends), key=lambda lead: mark_number(lead.mark))
        alone = [lead for lead in here if any(told[end[0]] for end in lead.ends)]
        words += [f"{contact.number}:{lead.mark}" for lead in here if len(alone) < 2 or lead not in alone]
    return " ".join(words)


def _why_not(
    termination: Termination, units: list[DrawnSymbol], placed: Counter[tuple[str, str]], doubtful: bool
) -> str:
    if doubtful or not units:
        return "its reference stands for several symbols"
    if any(re.search(r"[\s:,;]", contact.number) for contact in termination.contacts):
        return "a contact's number has a blank, comma or colon in it"
    if any(not unit.place.uuid for unit in units):
        return "its symbol has no uuid; save the drawing in KiCad"
    if any(placed[unit.place.file, unit.place.uuid] > 1 for unit in units):
        return f"its sheet {units[0].place.file} is used more than once, and a field is the same in every use"
    return ""
