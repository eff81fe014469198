"""What the fields, footprint and pins of a symbol say of its termination."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts.cells import PACK_FORMS, PackTextError, read_pack_value
from tabside.facts.families import PAD, family, family_by_text
from tabside.facts.footprints import FootprintMatch, is_pad_footprint, match_footprint
from tabside.model.craft import Kind, Oddity, Termination
from tabside.model.drawing import Drawing
from tabside.model.roles import Rail
from tabside.wiring.terminations.contacts import with_contacts
from tabside.wiring.terminations.contradictions import contradictions
from tabside.wiring.terminations.fields import (
    EITHER,
    FAMILY,
    GIVES,
    ISOLATED,
    KIND,
    KINDS,
    RATING,
    SEEN_FROM,
    SIGNALS,
    TAKES,
    Fields,
    Problem,
    board_of,
    field_key,
    near_misses,
)
from tabside.wiring.terminations.orientation import Orientation, Seen, order_on_face, orientation_of
from tabside.wiring.terminations.part_kinds import PartKind, Pass, kind_of_part
from tabside.wiring.terminations.rails import stated_rails
from tabside.wiring.terminations.signals import (
    is_counted,
    names_by_contact,
    numbered_otherwise,
    repeats_number,
    split_signals,
)
from tabside.wiring.terminations.symbols import Gathered
from tabside.wiring.terminations.which_symbols import is_termination

# Pin names of KiCad's symbols of batteries and solar cells [K], as their leads are called.
_POLES = {PartKind.BATTERY: {"+": "BAT+", "-": "BAT-"}, PartKind.SOLAR: {"+": "PV+", "-": "PV-"}}


class Shape(Struct, frozen=True):
    """What a termination's part is like, before its contacts are looked at."""

    kind: Kind
    family: str | None
    family_text: str
    footprint: FootprintMatch | None  # when it is of the termination's family


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
    termination = with_contacts(part, termination, fields, labels, drawing)
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
        gives=stated_rails(fields, GIVES) or _pack_by_value(part, fields),
        takes=stated_rails(fields, TAKES),
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
