"""Steps that make a cable lead by lead: from pre-crimped leads, tails, wire, or a part's own leads."""

from __future__ import annotations

from collections.abc import Mapping

from tabside.analysis.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.analysis.meeting.part_plugs import packs
from tabside.make.method import Method
from tabside.make.needs.shapes import BARE, soldered
from tabside.make.options.activities import BuyTails, BuyWhole, CutLead, CutWire, UseWhole
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.step_list import StepList
from tabside.make.solve.choice import CableChoice
from tabside.make.solve.handing_out import LeadSource
from tabside.model.craft import Craft
from tabside.model.stock import StockLead
from tabside.words.lengths import tenths_up

_ORDER = (Method.CRIMP, Method.ASSEMBLE, Method.TAIL, Method.SOLDER, Method.AS_BOUGHT, Method.DIRECT)


def lead_method(made: MadeLead, source: LeadSource | None) -> Method:
    """How one lead is made."""
    kinds = {end.kind for end in made.ends}
    if made.wire_from is WireFrom.MADE or EndKind.SLOT in kinds:
        return Method.AS_BOUGHT
    if made.wire_from is WireFrom.CAPTIVE:
        if EndKind.MATED in kinds:
            return Method.DIRECT
        return Method.SOLDER if kinds & set(BARE) else Method.CRIMP
    crimped = crimped_ends(made, source)
    if crimped or not all(end.kind is EndKind.CONTACT or soldered(end) for end in made.ends):
        return Method.CRIMP
    if EndKind.CONTACT not in kinds:
        return Method.SOLDER
    return Method.TAIL if any(soldered(end) for end in made.ends) else Method.ASSEMBLE


def cable_method(methods: list[Method]) -> Method:
    """The one that takes the most work; a cable of several kinds of leads goes by it."""
    return min(methods, key=_ORDER.index)


def crimped_ends(made: MadeLead, source: LeadSource | None) -> tuple[LeadEnd, ...]:
    """Ends of a new lead that get their contact here."""
    contacts = [end for end in made.ends if end.kind is EndKind.CONTACT]
    if source is None or source.is_whole:
        return ()
    if source.ready_family is not None:
        ready = next(end for end in contacts if end.family == source.ready_family)
        return tuple(end for end in contacts if end is not ready)
    return tuple(contacts)


def loose_steps(choice: CableChoice, craft: Craft, steps: StepList, cut_words: Mapping[str, str]) -> None:
    """The steps of each lead, in mark order; soldering comes last, when all plugs are made."""
    made_ready = [made for made in choice.shape.leads if lead_method(made, _source(choice, made)) in _MADE_HERE]
    for made in made_ready:
        _prepare(made, _source(choice, made), craft, steps, cut_words)
    for made in made_ready:
        for end in made.ends:
            if soldered(end):
                note = _LOOSE_MATE if end.kind is EndKind.MATE else _live(made, craft)
                steps.work(Action.SOLDER, *end.key, made.lead.mark, note)


# The end is named after the plug that it will meet, which may be live: hands work on the loose one that mates with it.
_LOOSE_MATE = "; in the loose mating plug, not on the part"
_MADE_HERE = (Method.CRIMP, Method.ASSEMBLE, Method.TAIL, Method.SOLDER)


def _source(choice: CableChoice, made: MadeLead) -> LeadSource | None:
    return choice.sources.get(made.lead.mark)


def _prepare(
    made: MadeLead, source: LeadSource | None, craft: Craft, steps: StepList, cut_words: Mapping[str, str]
) -> None:
    mark = made.lead.mark
    crimped = crimped_ends(made, source) if made.wire_from is WireFrom.NEW else _plugs_on_own_leads(made)
    cut = source is None or not source.is_whole
    if cut:
        at = next((end for end in made.ends if soldered(end) or end in crimped), made.ends[0])
        steps.cut(at.key[0], mark, cut_words[mark])
    for end in made.ends:
        mate = end.kind is EndKind.MATE and not soldered(end)
        here = end in crimped or mate
        note = _LOOSE_MATE if end.kind is EndKind.MATE else ""
        if soldered(end) or here:
            steps.work(Action.STRIP, *end.key, mark, note)
        if here:
            steps.work(Action.CRIMP, *end.key, mark, note)
        if end.kind is EndKind.CONTACT or here:
            steps.put_in(*end.key, mark, note)


def _plugs_on_own_leads(made: MadeLead) -> tuple[LeadEnd, ...]:
    """A part's own bare lead gets its contact here."""
    return tuple(end for end in made.ends if end.kind in (EndKind.CONTACT, EndKind.PLUG))


def own_words(made: MadeLead, cut_mm: float | None, craft: Craft) -> str:
    """How a part's own lead is cut."""
    length = tenths_up(cut_mm)
    to = "to its length (not known: hold it in place)" if length is None else f"to {length:g} mm"
    return f"cut {made.lead.mark}, the part's own lead, {to}{_live(made, craft)}"


def _live(made: MadeLead, craft: Craft) -> str:
    """A pack's own leads are live while hands work on them; a lead of new wire is not, as long as nothing is on it."""
    if made.wire_from is not WireFrom.CAPTIVE:
        return ""
    live = any(end.kind is EndKind.OWN and craft.terminations[end.key[0]].board in packs(craft) for end in made.ends)
    return "; LIVE: one lead of the pack at a time, the other one insulated" if live else ""


def source_words(source: LeadSource, craft: Craft) -> str:
    """What a lead is made of, in words that tell one piece in the drawer from another."""
    where = "bought" if source.bought else "from stock"
    match source.finish:
        case UseWhole(entry):
            return f"pre-crimped {_piece_words(craft.settings.stock_leads[entry])} {where}"
        case BuyWhole(want):
            return f"pre-crimped {' - '.join(want.plugs)}, bought"
    match source.piece.cut if source.piece is not None else None:
        case CutLead(entry):
            return f"a tail of pre-crimped {_piece_words(craft.settings.stock_leads[entry])} {where}"
        case BuyTails(tails):
            return f"a tail of pre-crimped {tails[0].family} - {tails[0].family}, bought"
        case CutWire(entry):
            wire = craft.settings.stock_wire[entry]
            over = f", {wire.od_mm:g} mm over the insulation" if wire.od_mm is not None else ""
            return f"wire {wire.gauge_awg} AWG{_colour(wire.colour)}{over}, {where}"
        case _:
            return "wire, bought"


def _piece_words(piece: StockLead) -> str:
    gauge = f" {piece.gauge_awg} AWG" if piece.gauge_awg is not None else ""
    return f"{' - '.join(piece.ends)} {piece.length_mm:g} mm{gauge}{_colour(piece.colour)}"


def _colour(colour: str | None) -> str:
    return f" {colour}" if colour else ""
