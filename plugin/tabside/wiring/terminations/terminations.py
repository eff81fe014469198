"""Which symbols are terminations, and what their fields, footprint and pins say about each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts.cells import PACK_FORMS, PackTextError, read_pack_value
from tabside.facts.families import PAD, family, family_by_text
from tabside.facts.footprints import FootprintMatch, is_pad_footprint, match_footprint
from tabside.facts.labels.reading import level_in_name
from tabside.facts.labels.role_kinds import role_named
from tabside.facts.labels.roles import is_relay_contact
from tabside.model.craft import Contact, Kind, Oddity, Termination
from tabside.model.drawing import Drawing
from tabside.model.roles import Rail, Role, RoleClass, Volts
from tabside.model.stated_limits import MOST_LEADS
from tabside.wiring.terminations.contact_roles import (
    as_of_a_pack,
    bind_rails,
    minus_of_a_rail,
    role_with_rails,
    roles_by_type_and_label,
)
from tabside.wiring.terminations.contradictions import contradictions
from tabside.wiring.terminations.fields import (
    EITHER,
    FAMILY,
    GIVES,
    ISOLATED,
    KIND,
    KINDS,
    LEADS_MAX,
    LEVEL,
    LEVEL_MAX,
    RATING,
    SEEN_FROM,
    SIGNALS,
    TAKES,
    TERMINATION_FIELDS,
    Fields,
    Problem,
    board_of,
    field_key,
    near_misses,
    text_of,
)
from tabside.wiring.terminations.orientation import Orientation, Seen, order_on_face, orientation_of
from tabside.wiring.terminations.part_kinds import (
    SPLIT_ALWAYS,
    SPLIT_UNLESS_BETWEEN_RAILS,
    PartKind,
    Pass,
    kind_of_part,
    load_roles,
)
from tabside.wiring.terminations.rails import RailError, is_one_pack, pack_of_name, read_rails
from tabside.wiring.terminations.signals import (
    is_counted,
    is_not_used,
    names_by_contact,
    numbered_otherwise,
    repeats_number,
    split_signals,
)
from tabside.wiring.terminations.symbols import Gathered

_CONNECTORS = "Connector:"  # KiCad's own library of sockets and plugs
_LEVEL_ENDS = frozenset(")Vv0123456789")  # TX (5V), TX_5V, TX_3V3
CONNECTOR_LETTERS = frozenset(("J", "P", "X", "CN", "CON"))
# Pin names of KiCad's symbols of batteries and solar cells [K], as their leads are called.
_POLES = {PartKind.BATTERY: {"+": "BAT+", "-": "BAT-"}, PartKind.SOLAR: {"+": "PV+", "-": "PV-"}}
# Words in the name of what makes its volts by itself.  Common practice, no source.
_ADAPTERS = frozenset(
    ("ADAPTER", "ADAPTOR", "PSU", "MAINS", "SMPS", "WALLWART", "CHARGER", "CHG", "SUPPLY", "WALL", "BENCH", "LAPTOP")
)
PAD_LEADS = 4  # common practice, no source


class Shape(Struct, frozen=True):
    """What a termination's part is like, before its contacts are looked at."""

    kind: Kind
    family: str | None
    family_text: str
    footprint: FootprintMatch | None  # when it is of the termination's family


def may_be_inline(part: Gathered) -> bool:
    """Exactly two pins and the letters of a part that splits a run; `Kind` on a passive part says otherwise."""
    if len(part.pins) != 2 or part.letters not in SPLIT_ALWAYS | SPLIT_UNLESS_BETWEEN_RAILS:
        return False
    kind = text_of(part.fields, KIND).lower()
    return kind != Kind.SPLICE and (part.letters in SPLIT_ALWAYS or not kind)


def is_termination(part: Gathered) -> bool:
    """Leads meet a board or part there: by a field, by the footprint, or by the letters of a connector."""
    if not part.pins:
        return False
    return (
        part.letters in CONNECTOR_LETTERS
        or Fields(part.fields).has_any(TERMINATION_FIELDS)
        or match_footprint(part.first.footprint) is not None
        or is_pad_footprint(part.first.footprint)
    )


def termination_of(
    part: Gathered, drawing: Drawing, *, passes: tuple[Pass, ...] = (), unread: bool = False
) -> tuple[Termination, list[Oddity]]:
    """The termination of a symbol, and what is odd about its fields.

    An in-line part, one that `passes` something on, has no names and no role of its own: those pass through it.
    """
    inline = bool(passes)
    fields = Fields(part.fields)
    shape = _shape(part, fields, inline)
    lies = orientation_of(fields, shape.footprint, part.first.footprint)
    problems = [*fields.problems]
    fields.problems.clear()
    termination = replace(_without_contacts(part, fields, shape, lies, inline=inline), passes=passes, unread=unread)
    labels, view = (dict.fromkeys(part.pins, ""), "") if inline else _labels(part, termination, fields, lies.seen)
    termination = _with_contacts(part, termination, fields, labels, drawing)
    problems += fields.problems
    clashing = [*lies.contradictions, *contradictions(part, termination, fields)]
    if clashing:  # then nobody knows how its plug lies
        termination = replace(termination, contact_1=None, tabs=None)
    unread_rating = bool(fields.text(RATING)) and not inline and kind_of_part(part) is PartKind.OTHER
    return termination, list(_oddities(part, problems, clashing, view, unread_rating))


def _without_contacts(part: Gathered, fields: Fields, shape: Shape, lies: Orientation, *, inline: bool) -> Termination:
    """What is said of the connector or part as a whole."""
    board, stated = board_of(fields, part.first.sheet_fields, part.reference)
    sized = shape.footprint.ways if shape.footprint else None
    signals = fields.text(SIGNALS)
    return Termination(
        reference=part.reference,
        board=board,
        board_stated=stated,
        kind=shape.kind,
        family=shape.family,
        family_text=shape.family_text,
        ways=sized or _ways_drawn(part),
        ways_said_by="footprint" if sized else "symbol",
        rows=_rows(shape),
        contacts=(),
        place=part.first.place,
        value=part.first.value,
        footprint=part.first.footprint,
        entry=lies.entry,
        tabs=lies.tabs,
        contact_1=lies.contact_1,
        seen_from=str(lies.seen) if lies.seen else None,
        signals_count=len(split_signals(signals)) if signals and not inline else None,
        sized_ways=sized,
        gives=_rails(fields, GIVES) or _pack_by_value(part, fields),
        takes=_rails(fields, TAKES),
        fields=dict(part.fields),
        in_bom=any(unit.in_bom for unit in part.units),
        isolated=fields.one_of(ISOLATED, ("yes", "no")) == "yes",
    )


def _oddities(
    part: Gathered, problems: Iterable[Problem], clashing: Iterable[str], view: str, unread_rating: bool
) -> Iterator[Oddity]:
    """`clashing`: facts of the symbol that contradict each other; `view`: why its Signals are put to no contacts."""
    name, place = part.reference, part.first.place
    for problem in problems:
        yield Oddity("field", name, f"{name}: {problem.text}", place, problem.field)
    for facts in clashing:
        yield Oddity("contradiction", name, f"{name}: {facts}", place, facts=facts)
    for written, meant in near_misses(part.fields).items():
        text = f'{name}: the field "{written}" is none that Tabside reads; {meant} is meant, it seems'
        yield Oddity("field-name", name, text, place, written)
    if unread_rating:
        text = f"{name}: Rating is read of in-line parts and capacitors alone, and this is neither"
        yield Oddity("field-unread", name, text, place, RATING)
    if gauge := next(
        (field for field in part.fields if field_key(field) == "gauge" and part.fields[field].strip()), ""
    ):
        text = f"{name}: {gauge} is read on the wire, from a label or a net-class directive, not at a part"
        yield Oddity("field-unread", name, text, place, "gauge")
    if view:
        yield Oddity("view", name, f"{name}: {view}", place)


def _shape(part: Gathered, fields: Fields, inline: bool) -> Shape:
    """Kind and family: by field, else by footprint, else a receptacle of unknown family."""
    stated = fields.one_of(KIND, KINDS)
    text = fields.text(FAMILY)
    named = family_by_text(text) if text else None
    by_footprint = match_footprint(part.first.footprint)
    known = named.id if named else by_footprint.family if by_footprint and not text else None
    kind = KINDS[stated] if stated else _default_kind(part, known, bool(text))
    if inline:
        kind = Kind.INLINE
    if known == PAD or kind in (Kind.PAD, Kind.SPLICE):
        if named is not None and named.id != PAD:
            fields.problems.append(
                Problem(f'Family is "{text}", but its Kind is {kind}, which has no plug; drop one of the two', FAMILY)
            )
        if stated and known == PAD and kind is Kind.RECEPTACLE:
            fields.problems.append(
                Problem("Family is a pad, but its Kind is receptacle: remove one of the two", FAMILY)
            )
        return Shape(Kind.PAD if kind is Kind.RECEPTACLE and not stated else kind, None, "", None)
    same = by_footprint if by_footprint and by_footprint.family == known else None
    return Shape(kind, known, "" if known else text, same)


def _default_kind(part: Gathered, known: str | None, family_stated: bool) -> Kind:
    kind, stated = kind_of_part(part), is_termination(part)
    if kind is PartKind.BATTERY or (kind is PartKind.SOLAR and not stated):
        return Kind.CAPTIVE
    if kind is PartKind.LOAD and not stated:
        return Kind.PAD  # leads are soldered to its pins
    plain = kind in (PartKind.OTHER, PartKind.LOAD, PartKind.SOLAR)
    if not plain and not family_stated and known is None:
        return Kind.PAD
    pads = known == PAD or (not family_stated and known is None and is_pad_footprint(part.first.footprint))
    return Kind.PAD if pads else Kind.RECEPTACLE


def _rows(shape: Shape) -> int:
    if shape.footprint:
        return shape.footprint.rows
    return 2 if shape.family and family(shape.family).is_two_row else 1


def _ways_drawn(part: Gathered) -> int | None:
    """The highest contact drawn; their count when one of them is no number."""
    if all(map(is_counted, part.pins)):
        return max((int(number) for number in part.pins), default=None)
    return len(part.pins)


def _rails(fields: Fields, name: str) -> tuple[Rail, ...]:
    text = fields.text(name)
    try:
        return read_rails(text) if text else ()
    except RailError as error:
        words = f'{name.capitalize()}: {error}; write for example "5V 1.5A; 9V 2A"'
        fields.problems.append(Problem(words, name))
        return ()


def _pack_by_value(part: Gathered, fields: Fields) -> tuple[Rail, ...]:
    """What the Value of a battery symbol says ("6S 5000mAh"), where no field says what it gives or takes."""
    if kind_of_part(part) is not PartKind.BATTERY or fields.has_any((GIVES, TAKES, EITHER)):
        return ()
    try:
        volts = read_pack_value(part.first.value)
    except PackTextError as error:
        words = f'Value is "{part.first.value}": {error}; write one of the forms {PACK_FORMS}, or state Gives'
        fields.problems.append(Problem(words, "Value"))
        return ()
    poled = bool(fields.text(SIGNALS)) or any(pin.name == "+" for pin in part.pins.values())
    return () if volts is None or not poled else (Rail(volts, battery=True, text=part.first.value),)


def _labels(part: Gathered, termination: Termination, fields: Fields, seen: Seen | None) -> tuple[dict[str, str], str]:
    """Contact number -> name, and why the names of `Signals` could not be put to contacts ("" when they could)."""
    text = fields.text(SIGNALS)
    numbers = list(part.pins)
    if not text:
        shown = {number: pin.name for number, pin in part.pins.items()}
        poles = _POLES.get(kind_of_part(part), {})
        shown = {number: poles.get(name, name) for number, name in shown.items()}
        return {number: "" if repeats_number(name, number) else name for number, name in shown.items()}, ""
    names = split_signals(text)
    if numbered := numbered_otherwise(names):
        said = f'Signals has "{numbered}" in another place than it says; write the names alone, from contact 1 up'
        fields.problems.append(Problem(said, SIGNALS))
        return dict.fromkeys(numbers, ""), ""
    backwards: bool | None = False
    if fields.text(SEEN_FROM) and len(numbers) > 1:
        backwards, missing = _row_order(termination, seen)
        if backwards is None:
            return dict.fromkeys(numbers, ""), (
                f'the names in Signals go by Seen from, "{fields.text(SEEN_FROM)}", but it is not known {missing}; '
                "no contact gets its name from them"
            )
    found = names_by_contact(names, numbers, from_right=bool(backwards), ways=termination.sized_ways)
    return {number: found.get(number, "") for number in numbers}, ""


def _row_order(termination: Termination, seen: Seen | None) -> tuple[bool | None, str]:
    if seen is None:
        return None, "which side of the plug that is"
    if termination.rows != 1:
        return None, "how its two rows are numbered: write Signals by contact number, or go by the printed names"
    return order_on_face(seen, termination.contact_1, termination.entry, termination.tabs)


def _with_contacts(
    part: Gathered, termination: Termination, fields: Fields, labels: dict[str, str], drawing: Drawing
) -> Termination:
    names = list(labels.values())
    unused = {n for n, name in labels.items() if is_not_used(name) and not is_relay_contact(name, names)}
    labels = {number: "" if number in unused else name for number, name in labels.items()}
    types = _pin_types(part)
    roles = roles_by_type_and_label(labels, types)
    no_pins = {number for number, pin in part.pins.items() if pin.electrical == "no_connect"}
    roles |= {number: role_named("nc", said_by="field") for number in unused | no_pins}
    if _is_balance_plug(termination, labels):
        roles = {n: replace(role_named("cell_tap", label=text), index=int(text)) for n, text in labels.items()}
    if kind_of_part(part) is PartKind.LOAD and not is_termination(part):
        roles |= {number: role_named(name, label=labels[number]) for number, name in load_roles(part).items()}
    if termination.unread:  # its S is no signal, its G no ground
        roles = {number: role_named("unknown", label=labels[number]) for number in labels}
    bound = bind_rails(roles, termination.gives, termination.takes, _rails(fields, EITHER))
    fields.problems.extend(map(Problem, bound.problems))
    roles |= minus_of_a_rail(roles, bound)
    level, level_max = fields.level(LEVEL), fields.level(LEVEL_MAX)
    leads_max = _leads_max(termination, fields)
    own_leads = termination.kind is Kind.CAPTIVE and not termination.takes and not _is_mains_adapter(termination)
    contacts = []
    for number, pin in part.pins.items():
        gives, takes, either = (tuple(rails.get(number, ())) for rails in (bound.gives, bound.takes, bound.either))
        unsaid = roles[number].name in ("battery", "ambiguous_power") and not (gives or takes or either)
        if unsaid and (pack := pack_of_name(labels[number])):
            gives, takes = ((pack,), ()) if own_leads and is_one_pack(labels[number]) else ((), (pack,))
        role = role_with_rails(roles[number], gives, takes, either, captive=own_leads)
        if own_leads and role.battery:
            gives = tuple(map(as_of_a_pack, gives))
        contacts.append(
            Contact(
                termination=part.reference,
                number=number,
                label=labels[number],
                role=role,
                net=drawing.nets[pin.net].name,
                net_id=pin.net,
                pin_type=types[number],
                flagged_empty=number in unused or pin.flagged_no_connect or pin.electrical == "no_connect",
                place=part.places[number],
                leads_max=leads_max,
                either=bool(either),
                gives=gives,
                takes=takes,
                level=level or _level_of_name(roles[number]),
                level_max_v=level_max.high if level_max else None,
                pin_name=pin.name,
            )
        )
    return replace(termination, contacts=tuple(contacts))


def _pin_types(part: Gathered) -> dict[str, str]:
    """The pin types of a symbol; power pins of KiCad's connectors are those of the plug in them, and say nothing.

    Of a USB socket VBUS is a power input there, of a micro USB socket an output [K].
    """
    types = {number: pin.electrical for number, pin in part.pins.items()}
    if not part.first.lib_id.startswith(_CONNECTORS):
        return types
    return {number: "passive" if text.startswith("power_") else text for number, text in types.items()}


def _level_of_name(role: Role) -> Volts | None:
    return level_in_name(role.label) if role.cls is RoleClass.SIGNAL and role.label[-1:] in _LEVEL_ENDS else None


def _is_balance_plug(termination: Termination, labels: Mapping[str, str]) -> bool:
    """Whether its contacts are called 0 to 4 and no more, in the family of balance plugs (common practice)."""
    texts = sorted(text.strip() for text in labels.values())
    return termination.family == "jst_xh" and len(texts) > 2 and texts == [str(n) for n in range(len(texts))]


def _is_mains_adapter(termination: Termination) -> bool:
    """Whether its name says that it makes its volts from the mains: they are no pack's, and it limits its current."""
    words = re.split(r"[^A-Z]+", f"{termination.board} {termination.value}".upper())
    return any(word in _ADAPTERS for word in words)


def _leads_max(termination: Termination, fields: Fields) -> int | None:
    """Leads that each contact takes: a cavity one, a pad `Leads max` or four, a splice any number."""
    stated = fields.whole(LEADS_MAX, 1, MOST_LEADS)
    if termination.takes_plug:
        if stated is not None and stated != 1:
            words = f"Leads max is {stated}, but a cavity takes one wire; use a splice or a second contact"
            fields.problems.append(Problem(words, LEADS_MAX))
        return 1
    if termination.kind is Kind.CAPTIVE:
        return stated or 1  # the part's own lead
    if termination.kind is Kind.SPLICE:
        return stated
    return stated or PAD_LEADS
