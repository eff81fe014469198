"""The craft: boards, terminations, contacts, and the leads, links and cables that join them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum
from types import MappingProxyType

from msgspec import Struct, field

from tabside.model.board import BoardFile
from tabside.model.drawing import DrawnLoose, Place, TwoReadings
from tabside.model.names import without_blanks
from tabside.model.roles import Rail, Role, Volts
from tabside.model.stock import (
    Bench,
    Costs,
    Cutting,
    StockCable,
    StockContact,
    StockHousing,
    StockKit,
    StockLead,
    StockWire,
)


class Kind(StrEnum):
    RECEPTACLE = "receptacle"
    PAD = "pad"
    CAPTIVE = "captive"
    SPLICE = "splice"
    INLINE = "in-line"  # a part that splits a run: fuse, switch, relay, diode, ...; not a value of the field Kind


class SaidBy(StrEnum):
    """What a wire's gauge or length was taken from."""

    NOBODY = ""
    DRAWING = "drawing"
    CRAFT_FILE = "craft file"
    POSITIONS = "positions"  # of the boards: lengths alone
    CHOSEN = "chosen"  # for the current and the drop: gauges alone


ContactKey = tuple[str, str]  # (termination reference, contact number)


class Contact(Struct, frozen=True):
    """One contact of a termination, as drawn.  Where leads meet it may take `leads_max` of them."""

    termination: str
    number: str  # as drawn; decimal ones become integers in JSON
    label: str  # the signal's name as drawn or given by `Signals`; "" when there is none
    role: Role
    net: str  # KiCad's name
    net_id: int  # index into Drawing.nets: names are not unique
    pin_type: str
    flagged_empty: bool  # no-connect flag, or "nc" in Signals: meant to stay empty
    place: Place
    leads_max: int | None = 1  # None: any number
    either: bool = False  # a supply that may be input or output
    gives: tuple[Rail, ...] = ()
    takes: tuple[Rail, ...] = ()
    level: Volts | None = None
    level_max_v: float | None = None
    pin_name: str = ""  # as the symbol shows it: A and K of a diode, + of a capacitor

    @property
    def key(self) -> ContactKey:
        return (self.termination, self.number)


class Termination(Struct, frozen=True):
    """Where leads meet a board or part: a receptacle, a set of pads, captive leads, a splice, an in-line part."""

    reference: str
    board: str
    board_stated: bool  # False: no field said so, the reference stands in
    kind: Kind
    family: str | None  # id of facts/data/plugs/connectors.csv; None when unknown or when it has none (pads, splices)
    family_text: str  # what the drawing says, when it names no family that we know
    ways: int | None  # cavities of the part: from the footprint, else the symbol's highest contact
    ways_said_by: str  # "footprint", "symbol", ""
    rows: int  # 1, or 2 for two-row families
    contacts: tuple[Contact, ...]  # in contact order
    place: Place
    value: str = ""
    footprint: str = ""
    entry: str | None = None  # "side" | "top"
    tabs: str | None = None  # "board" | "away" | "near" | "far"
    contact_1: str | None = None  # "left" | "right" on face `printed`
    seen_from: str | None = None
    signals_count: int | None = None  # names in `Signals`, for signals-mismatch
    sized_ways: int | None = None  # ways that the footprint states, None when it states none
    gives: tuple[Rail, ...] = ()
    takes: tuple[Rail, ...] = ()
    fields: Mapping[str, str] = field(default_factory=dict)
    in_bom: bool = True
    passes: tuple[tuple[str, str], ...] = ()  # of an in-line part: contacts that it joins inside, if only in a position
    isolated: bool = False  # its ground is not that of the board's other places
    unread: bool = False  # a transistor, a relay ...: leads end on it, and Tabside does not know what it does

    def contact(self, number: str) -> Contact:
        for contact in self.contacts:
            if contact.number == number:
                return contact
        raise KeyError(number)

    def beyond(self, number: str) -> tuple[str, ...]:
        """The contacts to which this one is joined inside: through an in-line part, or in a splice."""
        if self.kind is Kind.SPLICE:
            return tuple(contact.number for contact in self.contacts if contact.number != number)
        if not self.passes:
            return ()
        return tuple(b if a == number else a for a, b in self.passes if number in (a, b))

    def passes_on(self, number: str) -> bool:
        """Whether what meets this contact goes on behind it; a relay's coil is an end."""
        return self.kind is Kind.SPLICE or any(number in pair for pair in self.passes)

    @property
    def takes_plug(self) -> bool:
        """A plug meets it: a receptacle; a captive part, or an in-line one, whose end is a plug of a family."""
        if self.kind in (Kind.CAPTIVE, Kind.INLINE):
            return self.family is not None
        return self.kind is Kind.RECEPTACLE


class Lead(Struct, frozen=True):
    """One piece of wire between two contacts, both ends prepared."""

    mark: str  # "W12"
    a: ContactKey  # the end that comes first in natural order
    b: ContactKey
    net: str
    net_id: int
    how: str  # "drawn", "drawn together", "two contacts", "beside", "joined", "chosen": the step that made it
    link: tuple[str, str]  # references of its terminations, natural order
    cable: str | None = None  # "C3"; None for leads that enter no plug
    gauge_awg: int | None = None
    gauge_said_by: SaidBy = SaidBy.NOBODY
    colour: str | None = None  # IEC 60757 code, or as written
    usual_colour: str | None = None  # for new wire where no colour is stated; common practice
    length_mm: float | None = None
    length_said_by: SaidBy = SaidBy.NOBODY
    pair: str | None = None
    notes: tuple[str, ...] = ()
    others: tuple[tuple[ContactKey, ContactKey], ...] = ()  # of a chosen lead: some that would have done as well

    @property
    def ends(self) -> tuple[ContactKey, ContactKey]:
        return (self.a, self.b)


class Link(Struct, frozen=True):
    """All leads between two terminations."""

    ends: tuple[str, str]  # references in natural order
    leads: tuple[Lead, ...]  # by contact order of the first end


class Cable(Struct, frozen=True):
    """Leads that enter the same plug; pads and splices do not tie leads together."""

    mark: str
    ends: tuple[str, ...]  # references of all terminations it meets, natural order
    leads: tuple[str, ...]  # marks


class PartPin(Struct, frozen=True, array_like=True):
    """One pin of a part on the nets."""

    number: str
    name: str
    net_id: int


class Part(Struct, frozen=True):
    """A symbol that is no termination: capacitor across the battery, pull-up, ..."""

    reference: str
    value: str
    footprint: str
    in_bom: bool
    dnp: bool
    nets: tuple[str, ...]
    fields: Mapping[str, str] = field(default_factory=dict)
    pins: tuple[PartPin, ...] = ()
    place: Place | None = None
    unread: bool = False  # nothing says what it is: no field, no letters that Tabside has a word for
    meets_leads: bool = False  # contacts of terminations are on its nets
    lib_id: str = ""
    cuts_run: bool = False  # not fitted, and the wires on its two sides part there
    board: str = ""  # of one that is not fitted: the board it would be on


class ShieldPin(Struct, frozen=True, array_like=True):
    """A shield or mounting pin: no contact, but metal that touches the board's ground or its frame."""

    reference: str
    number: str
    net: str
    net_id: int
    place: Place


class NamedTogether(Struct, frozen=True, array_like=True):
    """Stretches of drawn wire that only a name joins, and the leads that were added between them for it."""

    net: str
    net_id: int
    rails: tuple[tuple[ContactKey, ...], ...]  # the contacts of each stretch
    leads: tuple[tuple[ContactKey, ContactKey], ...]


class Crowding(Struct, frozen=True):
    """A net whose leads the contacts cannot take."""

    net: str
    net_id: int
    contacts: tuple[ContactKey, ...]  # that would take more leads than they can
    islands: tuple[tuple[ContactKey, ...], ...]  # that stay unconnected
    cure: str  # the cheapest one, in words


class Oddity(Struct, frozen=True):
    """Something about the drawing that a check turns into a finding: not annotated, reference twice, bad field."""

    # "not-annotated", "reference-duplicate", "field", "view" (Signals off a face that is not known), "craft-file",
    # "copied" (a symbol with its stamped marks), "contradiction" (facts of one part that cannot both be true),
    # "two-ways-round" (of two parts), "field-unread" (one of ours that says nothing of such a part)
    what: str
    reference: str
    message: str
    place: Place
    field: str = ""  # the field whose value is at fault, in lower case: "contact 1"
    facts: str = ""  # of a contradiction, the facts alone


class Limits(Struct, frozen=True, array_like=True):
    """What the numbers of a craft are held against.  Percentages of the rail's volts, or of its rating."""

    drop_percent_regulated: float = 3.0
    drop_percent_battery: float = 5.0
    budget_percent: float = 80.0  # share of a rail's rating that typical loads may use; common practice, no source
    ampacity: str = "handbook_chassis"  # id of a table of facts/data/wires/ampacity.csv
    ampacity_factor: float = 1.0  # for a bundle, a hot place, ...: the builder's own
    wire_c: float = 20.0  # temperature of the conductors, for their resistance
    insulation_mm: Mapping[int, float] = MappingProxyType({})  # AWG -> diameter over the insulation


_USUAL_LIMITS = Limits()
_USUAL_COSTS = Costs()
_USUAL_CUTTING = Cutting()
_NO_WISHES = Bench()


class Protection(Struct, frozen=True, array_like=True):
    """A fuse or a limiter that is not drawn as an in-line part."""

    at: ContactKey
    what: str


class CraftSettings(Struct, frozen=True):
    """What the craft file says; the defaults hold where it is silent."""

    name: str | None = None
    battery: Volts | None = None  # what VBAT can reach
    battery_text: str = ""
    at_mm: Mapping[str, tuple[float, float, float]] = field(default_factory=dict)  # board -> position
    lengths_mm: Mapping[tuple[str, str], float] = field(default_factory=dict)  # (reference, reference) natural order
    named: tuple[Named, ...] = ()  # every board, termination and contact that the craft file speaks of
    gauge_awg: int | None = None
    service_loop_mm: float = 15.0
    accept: tuple[Acceptance, ...] = ()
    stock_cables: tuple[StockCable, ...] = ()
    stock_leads: tuple[StockLead, ...] = ()
    stock_housings: tuple[StockHousing, ...] = ()
    stock_contacts: tuple[StockContact, ...] = ()
    stock_wire: tuple[StockWire, ...] = ()
    stock_kits: tuple[StockKit, ...] = ()
    costs: Costs = _USUAL_COSTS
    cutting: Cutting = _USUAL_CUTTING
    bench: Bench = _NO_WISHES
    limits: Limits = _USUAL_LIMITS
    protections: tuple[Protection, ...] = ()
    board_files: tuple[str, ...] = ()  # names or patterns, counted from the craft file's folder
    file_hash: str = ""


class Named(Struct, frozen=True):
    """A board, and perhaps its termination and contact, that the craft file speaks of; it must exist."""

    key: str  # the key's path in the file
    board: str
    termination: str | None = None
    contact: str | None = None


class Acceptance(Struct, frozen=True):
    rule: str
    at: tuple[ContactKey, ...]
    reason: str


class HeldBoard(Struct, frozen=True):
    """A board file with its plugs resolved to contacts, as if each were a symbol of a drawing."""

    board: BoardFile
    plugs: tuple[Termination, ...]  # in the file's order; `value` is the plug's name

    def plug_of(self, termination: Termination) -> Termination | None:
        """The plug that a drawn one is: by its Value, else by its reference; None when there is none of that name."""
        by_name = {without_blanks(plug.value): plug for plug in self.plugs}
        return by_name.get(without_blanks(termination.value)) or by_name.get(without_blanks(termination.reference))


class Craft(Struct, frozen=True):
    """Everything that the checks look at and that plans and documents are made of."""

    name: str
    revision: str
    terminations: Mapping[str, Termination]  # by reference, in natural order; in-line parts are among them
    leads: tuple[Lead, ...]  # in mark order
    links: tuple[Link, ...]  # in natural order of their ends
    cables: tuple[Cable, ...]
    parts: tuple[Part, ...]
    crowded: tuple[Crowding, ...]
    oddities: tuple[Oddity, ...]
    settings: CraftSettings
    drawing_hash: str  # short, of drawing and craft file
    rule_nets: Mapping[int, str] = field(default_factory=dict)  # net_id -> name
    named_together: tuple[NamedTogether, ...] = ()
    loose: tuple[DrawnLoose, ...] = ()
    board_files: tuple[HeldBoard, ...] = ()  # all that the craft file names, by name
    held_boards: Mapping[str, HeldBoard] = field(default_factory=dict)  # drawn board -> the file it is held against
    net_names: Mapping[int, tuple[str, ...]] = field(default_factory=dict)  # net_id -> its power symbols and labels
    two_readings: tuple[TwoReadings, ...] = ()  # what KiCad 9 and 10 read differently
    shields: tuple[ShieldPin, ...] = ()

    def contact(self, key: ContactKey) -> Contact:
        return self.terminations[key[0]].contact(key[1])

    def held_plugs(self) -> Iterator[tuple[Termination, HeldBoard, Termination | None]]:
        """Each drawn plug of a board that has a file, the file, and the plug in it; None where it has no such plug."""
        for termination in self.terminations.values():
            held = self.held_boards.get(termination.board)
            if held is not None and termination.kind is not Kind.INLINE:
                yield termination, held, held.plug_of(termination)
