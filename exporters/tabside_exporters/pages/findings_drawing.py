"""A link drawn: both plugs as columns of cavities, the leads between, and marks on contacts that findings name.

Lengths are units of the drawing; it is shown at the width that the page has.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from tabside.facts import families
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Lead, Termination
from tabside.words.contacts import counted, termination_name
from tabside_exporters.formats.cells import clean

_ROW = 28
_TOP = 52
_LABEL, _MARK, _BOX, _MIDDLE = 112, 24, 30, 104
WIDTH = 2 * (_LABEL + _MARK + _BOX) + _MIDDLE
_LEFT_BOX = _LABEL + _MARK
_RIGHT_BOX = _LEFT_BOX + _BOX + _MIDDLE
_MOST_LETTERS = 13


class Mark(Struct, frozen=True):
    """A finding that names a contact."""

    contact: ContactKey
    kind: str  # severity, or "accepted"
    number: int  # of the finding


class Cavity(Struct, frozen=True):
    """One contact of one side."""

    number: str
    label: str  # cut to what fits
    full_label: str
    y: float
    box_x: float
    label_x: float
    anchor: str
    mark_x: float
    marks: tuple[Mark, ...]
    stub: str  # "to J25": its lead goes elsewhere
    stub_x: float
    stub_to_x: float


class Wire(Struct, frozen=True):
    """One lead of the link."""

    x1: float
    y1: float
    x2: float
    y2: float
    text: str  # "W22 RD"
    marked: bool


class Side(Struct, frozen=True):
    name: str
    what: str  # "JST GH, 7-way"
    x: float
    anchor: str
    cavities: tuple[Cavity, ...]


class Drawing(Struct, frozen=True):
    """All that the template needs."""

    width: int
    height: int
    sides: tuple[Side, ...]
    wires: tuple[Wire, ...]
    words: str  # for those who cannot see it


LeadsAt = Mapping[ContactKey, Sequence[Lead]]


def leads_at(craft: Craft) -> LeadsAt:
    """The leads of each contact."""
    found: dict[ContactKey, list[Lead]] = {}
    for lead in craft.leads:
        for key in dict.fromkeys(lead.ends):
            found.setdefault(key, []).append(lead)
    return found


def draw_link(craft: Craft, at_contact: LeadsAt, link: tuple[str, str], marks: Sequence[Mark]) -> Drawing:
    """The two terminations of a link, contacts in contact order from the top."""
    ends = [craft.terminations[reference] for reference in link]
    here = [lead for contact in ends[0].contacts for lead in at_contact.get(contact.key, ())]
    leads = [lead for lead in dict.fromkeys(here) if set(lead.link) == set(link)]
    by_contact: dict[ContactKey, list[Mark]] = {}
    for mark in marks:
        by_contact.setdefault(mark.contact, []).append(mark)
    keys = [contact.key for end in ends for contact in end.contacts]
    elsewhere = {key: _beyond(key, at_contact.get(key, ()), link) for key in keys}
    sides = tuple(_side(craft, end, elsewhere, by_contact, n == 0) for n, end in enumerate(ends))
    at = {contact.key: float(_TOP + _ROW * n) for end in ends for n, contact in enumerate(end.contacts)}
    wires = tuple(_wire(lead, link, at, by_contact) for lead in leads)
    rows = max(len(side.cavities) for side in sides)
    return Drawing(WIDTH, _TOP + _ROW * rows + 6, sides, wires, _words(sides, wires))


def _beyond(key: ContactKey, leads: Sequence[Lead], link: tuple[str, str]) -> str:
    """Where the leads of a contact go that are not of this link: "to J25"."""
    others = [ref for lead in leads if set(lead.link) != set(link) for ref in lead.link if ref != key[0]]
    return f"to {_cut(', '.join(dict.fromkeys(others)), 9)}" if others else ""


def _side(
    craft: Craft,
    end: Termination,
    elsewhere: Mapping[ContactKey, str],
    marks: Mapping[ContactKey, list[Mark]],
    left: bool,
) -> Side:
    cavities = tuple(
        _cavity(contact, _TOP + _ROW * n, elsewhere.get(contact.key, ""), tuple(marks.get(contact.key, ())), left)
        for n, contact in enumerate(end.contacts)
    )
    name = _cut(termination_name(craft, end.reference), 24)
    return Side(name, _what(end), 0 if left else WIDTH, "start" if left else "end", cavities)


def _cavity(contact: Contact, y: float, stub: str, marks: tuple[Mark, ...], left: bool) -> Cavity:
    box = _LEFT_BOX if left else _RIGHT_BOX
    label = clean(contact.label)
    edge = box + _BOX if left else box
    step = 12 if left else -12
    return Cavity(
        number=clean(contact.number),
        label=_cut(label, _MOST_LETTERS),
        full_label=label or "no name",
        y=y,
        box_x=box,
        label_x=_LABEL - 4 if left else WIDTH - _LABEL + 4,
        anchor="end" if left else "start",
        mark_x=_LABEL + _MARK / 2 if left else WIDTH - _LABEL - _MARK / 2,
        marks=marks,
        stub=stub,
        stub_x=edge,
        stub_to_x=edge + step,
    )


def _wire(lead: Lead, link: tuple[str, str], at: dict[ContactKey, float], marks: dict[ContactKey, list[Mark]]) -> Wire:
    first, second = sorted(lead.ends, key=lambda key: key[0] != link[0])
    text = " ".join(word for word in (lead.mark, lead.colour) if word)
    marked = any(mark.kind == "error" for key in lead.ends for mark in marks.get(key, ()))
    half = _ROW / 2 - 2
    return Wire(_LEFT_BOX + _BOX, at[first] + half, _RIGHT_BOX, at[second] + half, _cut(text, 12), marked)


def _what(end: Termination) -> str:
    if end.kind in (Kind.SPLICE, Kind.INLINE):
        return end.kind.value
    family = families.family(end.family).title if end.family else ("pads" if end.kind is Kind.PAD else "family unknown")
    ways = end.ways or len(end.contacts)
    words = f"{family}, {ways}-way" if end.takes_plug else family
    return _cut(f"{words}, captive" if end.kind is Kind.CAPTIVE else words, 28)


def _words(sides: tuple[Side, ...], wires: tuple[Wire, ...]) -> str:
    marked = [
        f"{side.name} contact {cavity.number} {cavity.full_label}: "
        + ", ".join(f"{mark.kind} {mark.number}" for mark in cavity.marks)
        for side in sides
        for cavity in side.cavities
        if cavity.marks
    ]
    names = " and ".join(side.name for side in sides)
    told = f"Marked: {'; '.join(marked)}." if marked else "No contact is marked."
    return f"{names}, {counted(len(wires), 'wire')} between them. {told}"


def _cut(text: str, most: int) -> str:
    cleaned = clean(text)
    return cleaned if len(cleaned) <= most else cleaned[: most - 1] + "…"
