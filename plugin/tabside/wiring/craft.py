"""The craft of a drawing: its terminations, leads, links and cables, and what is odd about it."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence

from tabside.model.craft import (
    Cable,
    ContactKey,
    Craft,
    CraftSettings,
    HeldBoard,
    Lead,
    Oddity,
    Part,
    PartPin,
    ShieldPin,
    Termination,
)
from tabside.model.drawing import Drawing
from tabside.wiring.board_plugs import held_boards, with_facts_of_files
from tabside.wiring.inline_parts import across_rails, net_roles, pass_roles, splits_run
from tabside.wiring.leads.laying import lay_leads
from tabside.wiring.leads.lead_facts import LeadFacts, facts_of_leads, read_notes
from tabside.wiring.leads.lead_tree import contact_order
from tabside.wiring.leads.lengths import PathLengths
from tabside.wiring.leads.links import CableLeads, cables_of, links_of
from tabside.wiring.leads.marks import (
    doubled,
    doubled_cables,
    mark_cables,
    mark_leads,
    mark_number,
    stamped_cable_marks,
    stamped_lead_marks,
)
from tabside.wiring.leads.net import LaidLead
from tabside.wiring.leads.stretches import Stretches
from tabside.wiring.terminations.contradictions import two_ways_round
from tabside.wiring.terminations.fields import BOARD, Fields, board_of, near_misses
from tabside.wiring.terminations.packs import with_stated_pack
from tabside.wiring.terminations.part_kinds import (
    SPLIT_ALWAYS,
    PartKind,
    is_on_a_net,
    kind_of_part,
    met_pins,
    passes_of,
)
from tabside.wiring.terminations.symbols import Gathered, gather, only_pins
from tabside.wiring.terminations.terminations import termination_of
from tabside.wiring.terminations.which_symbols import is_termination, may_be_inline


def build_craft(drawing: Drawing, settings: CraftSettings | None = None, boards: Sequence[HeldBoard] = ()) -> Craft:
    """Work out the craft that a drawing shows.

    The same for any order of symbols and nets in the file, and wherever symbols stand on the sheet.
    """
    settings = settings or CraftSettings()
    gathered, contact_of_pin, oddities = gather(drawing)
    terminations, parts, odd_fields = _terminations(gathered, drawing)
    held = held_boards(terminations.values(), boards)
    terminations = with_facts_of_files(terminations, held)
    if settings.battery is not None:
        terminations = with_stated_pack(terminations)
    known = {contact.key for termination in terminations.values() for contact in termination.contacts}
    contact_of_pin = {pin: key for pin, key in contact_of_pin.items() if key in known}
    paths = PathLengths(settings, terminations)
    stretches = Stretches(drawing, contact_of_pin)
    laid, crowded, named = lay_leads(terminations, stretches.by_net, paths.in_um if paths.any_known else None)
    notes = read_notes(drawing, stretches)
    facts, odd_facts = facts_of_leads(laid, notes, paths, settings.gauge_awg)
    stamps, odd_stamps = stamped_lead_marks(terminations)
    cable_stamps, odd_cable_stamps = stamped_cable_marks(terminations)
    cabling = cables_of([lead.ends for lead in laid], terminations)
    cable_marks = mark_cables([cable.plugs for cable in cabling], cable_stamps)
    lead_marks = mark_leads([lead.ends for lead in laid], stamps)
    leads = _leads(laid, facts, lead_marks, _cable_of_lead(cabling, cable_marks), drawing)
    oddities += [*two_ways_round(terminations), *_sheet_fields(drawing)]
    oddities += [*odd_fields, *_wired_but_flagged(gathered, terminations, laid), *notes.oddities, *odd_facts]
    oddities += [*odd_stamps, *odd_cable_stamps, *doubled(stamps, terminations)]
    oddities += doubled_cables([cable.plugs for cable in cabling], cable_stamps, terminations)
    return Craft(
        name=_name(drawing, settings),
        revision=drawing.revision,
        terminations=terminations,
        leads=leads,
        links=links_of(leads),
        cables=_cables(cabling, cable_marks, lead_marks),
        parts=tuple(_part(part, drawing, terminations) for part in parts),
        crowded=tuple(crowded),
        named_together=tuple(named),
        loose=drawing.loose,
        oddities=tuple(sorted(oddities, key=_oddity_order)),
        settings=settings,
        drawing_hash=_short_hash(drawing, settings, boards),
        board_files=tuple(boards),
        held_boards=held,
        rule_nets={
            contact.net_id: contact.net for termination in terminations.values() for contact in termination.contacts
        },
        net_names=_net_names(drawing),
        two_readings=drawing.two_readings,
        shields=_shields(gathered, drawing),
    )


def _name(drawing: Drawing, settings: CraftSettings) -> str:
    """The craft's name, with the variant that was read: every page carries it."""
    name = settings.name or drawing.title or drawing.root
    return f"{name}, variant {drawing.variant}" if drawing.variant else name


def _terminations(
    gathered: Sequence[Gathered], drawing: Drawing
) -> tuple[dict[str, Termination], list[Gathered], list[Oddity]]:
    """Terminations in natural order, in-line parts among them; the parts that are none; what is odd about fields."""
    fitted = [part for part in gathered if part.fitted]
    maybe = [part for part in fitted if may_be_inline(part)]
    built: dict[str, tuple[Termination, list[Oddity]]] = {}
    for part in fitted:
        if not may_be_inline(part):
            made = _sure_termination(part, drawing)
            if made is not None:
                built[part.reference] = made
    nets = net_roles((termination for termination, _ in built.values()), maybe, drawing)
    for part in maybe:
        if splits_run(part, nets):
            a, b = part.pins
            built[part.reference] = termination_of(part, drawing, passes=((a, b),))
        elif is_termination(part):
            built[part.reference] = termination_of(part, drawing)
    ordered = sorted(built, key=lambda reference: contact_order((reference, "")))
    oddities = [oddity for reference in ordered for oddity in built[reference][1]]
    parts = [part for part in gathered if part.reference not in built]
    found = {reference: built[reference][0] for reference in ordered}
    return pass_roles(found, across_rails(maybe, nets)), parts, oddities


def _sure_termination(part: Gathered, drawing: Drawing) -> tuple[Termination, list[Oddity]] | None:
    """The termination of a symbol that is one whatever lies on its nets; None for a part on the nets."""
    kind = kind_of_part(part)
    if is_termination(part) or (kind is PartKind.OTHER):
        return termination_of(part, drawing) if is_termination(part) else None
    met = met_pins(part, drawing)
    if not met:
        return None
    passes = passes_of(part, met)
    unread = not passes and kind not in (PartKind.BATTERY, PartKind.LOAD, PartKind.SOLAR)
    return termination_of(only_pins(part, met) if passes else part, drawing, passes=passes, unread=unread)


def _leads(
    laid: Sequence[LaidLead],
    facts: Sequence[LeadFacts],
    marks: Sequence[str],
    cables: Mapping[int, str],
    drawing: Drawing,
) -> tuple[Lead, ...]:
    leads = [
        Lead(
            mark=mark,
            a=lead.ends[0],
            b=lead.ends[1],
            net=drawing.nets[lead.net_id].name,
            net_id=lead.net_id,
            how=lead.how,
            link=(lead.ends[0][0], lead.ends[1][0]),
            cable=cables.get(index),
            gauge_awg=known.gauge_awg,
            gauge_said_by=known.gauge_said_by,
            colour=known.colour,
            length_mm=known.length_mm,
            length_said_by=known.length_said_by,
            pair=known.pair,
            notes=lead.notes,
            others=lead.others,
        )
        for index, (lead, known, mark) in enumerate(zip(laid, facts, marks, strict=True))
    ]
    return tuple(sorted(leads, key=lambda lead: mark_number(lead.mark)))


def _cable_of_lead(cabling: Sequence[CableLeads], marks: Sequence[str]) -> dict[int, str]:
    return {index: mark for cable, mark in zip(cabling, marks, strict=True) for index in cable.leads}


def _cables(cabling: Sequence[CableLeads], marks: Sequence[str], lead_marks: Sequence[str]) -> tuple[Cable, ...]:
    cables = [
        Cable(mark, cable.ends, tuple(sorted((lead_marks[index] for index in cable.leads), key=mark_number)))
        for cable, mark in zip(cabling, marks, strict=True)
    ]
    return tuple(sorted(cables, key=lambda cable: mark_number(cable.mark)))


def _part(part: Gathered, drawing: Drawing, terminations: Mapping[str, Termination]) -> Part:
    wired = {contact.net_id for termination in terminations.values() for contact in termination.contacts}
    on_leads = [number for number, pin in part.pins.items() if pin.net in wired]
    nets = {drawing.nets[pin.net].name for unit in part.units for pin in unit.pins}
    return Part(
        reference=part.reference,
        value=part.first.value,
        footprint=part.first.footprint,
        in_bom=all(unit.in_bom for unit in part.units),
        dnp=not part.fitted,
        lib_id=part.first.lib_id,
        place=part.first.place,
        unread=part.fitted and bool(part.pins) and not is_on_a_net(part),
        meets_leads=bool(on_leads),
        cuts_run=not part.fitted and len(on_leads) > 1 and part.letters in SPLIT_ALWAYS,
        nets=tuple(sorted(nets)),
        fields=dict(part.fields),
        pins=tuple(PartPin(number, pin.name, pin.net) for number, pin in part.pins.items()),
        board="" if part.fitted else board_of(Fields(part.fields), part.first.sheet_fields, part.reference)[0],
    )


def _shields(gathered: Sequence[Gathered], drawing: Drawing) -> tuple[ShieldPin, ...]:
    """Shield and mounting pins of all parts that are fitted."""
    return tuple(
        ShieldPin(part.reference, pin.number, drawing.nets[pin.net].name, pin.net, part.first.place)
        for part in gathered
        if part.fitted
        for pin in part.shields.values()
    )


def _net_names(drawing: Drawing) -> dict[int, tuple[str, ...]]:
    """What power symbols and labels write on each net."""
    written = {n: tuple(dict.fromkeys((*net.power_names, *net.label_names))) for n, net in enumerate(drawing.nets)}
    return {net: names for net, names in written.items() if names}


def _sheet_fields(drawing: Drawing) -> list[Oddity]:
    """Fields of sheets that are meant for Board, it seems; each once."""
    found: dict[str, Oddity] = {}
    for symbol in drawing.symbols:
        for fields in symbol.sheet_fields:
            for name, meant in near_misses(fields, only=(BOARD,)).items():
                text = f'a sheet around {symbol.place.sheet} has the field "{name}"; {meant} is meant, it seems'
                found.setdefault(name, Oddity("field-name", "", text, symbol.place, name))
    return list(found.values())


def _wired_but_flagged(
    gathered: Sequence[Gathered], terminations: Mapping[str, Termination], laid: Sequence[LaidLead]
) -> list[Oddity]:
    """Contacts under a no-connect flag that a lead reaches all the same: the flag does not cut a wire.

    `nc` in Signals is quiet: a lead to a contact that nothing uses does no harm.
    """
    others: dict[ContactKey, ContactKey] = {}
    for lead in laid:
        others.setdefault(lead.ends[0], lead.ends[1])
        others.setdefault(lead.ends[1], lead.ends[0])
    found = []
    for part in gathered:
        for number, pin in part.pins.items():
            other = others.get((part.reference, number))
            if other is not None and pin.flagged_no_connect:
                contact = terminations[part.reference].contact(number)
                message = (
                    f"contact {part.reference}:{number} has a no-connect flag, but its net {contact.net} leads to "
                    f"{other[0]}:{other[1]}"
                )
                found.append(Oddity("field", part.reference, message, contact.place))
    return found


def _oddity_order(oddity: Oddity) -> tuple[object, ...]:
    place = oddity.place
    return (contact_order((oddity.reference, "")), oddity.what, oddity.message, place.sheet, place.uuid)


def _short_hash(drawing: Drawing, settings: CraftSettings, boards: Sequence[HeldBoard]) -> str:
    """Twelve hexadecimal digits of the drawing's files, its variant, the craft file and the board files."""
    digest = hashlib.sha256()
    for name, file_hash in sorted(drawing.files):
        digest.update(f"{name}\n{file_hash}\n".encode("utf-8", "surrogatepass"))
    digest.update(settings.file_hash.encode("utf-8", "surrogatepass"))
    digest.update(drawing.variant.encode("utf-8", "surrogatepass"))
    for held in boards:
        digest.update(f"{held.board.name}\n{held.board.file_hash}\n".encode("utf-8", "surrogatepass"))
    return digest.hexdigest()[:12]
