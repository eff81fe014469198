"""How each end of a lead is made, and whether the lead is cut from new wire at all."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.joined.part_plugs import goes_in, packs
from tabside.facts import families
from tabside.model.craft import ContactKey, Craft, Kind, Lead, Termination


class EndKind(StrEnum):
    CONTACT = "contact"  # crimped contact in a housing
    CUP = "cup"  # soldered into a plug
    SLOT = "slot"  # pressed into a plug that cuts through the insulation
    MADE = "made"  # comes with a ready-made cable: coax, USB
    PLUG = "plug"  # a plug of a family that is not known
    PAD = "pad"
    SPLICE = "splice"
    INLINE = "in-line"
    OWN = "own"  # the lead belongs to a captive part and begins there
    MATED = "mated"  # the captive part's own plug goes in here
    MATE = "mate"  # a plug that takes the captive part's own plug, which stays as it is


class WireFrom(StrEnum):
    NEW = "new wire"
    CAPTIVE = "captive part"  # the lead is the part's own
    MADE = "ready-made cable"  # one object with its plugs, never cut


_BY_RETENTION = {"solder_cup": EndKind.CUP, "idc_slot": EndKind.SLOT}
_BY_KIND = {
    Kind.PAD: EndKind.PAD,
    Kind.SPLICE: EndKind.SPLICE,
    Kind.INLINE: EndKind.INLINE,
    Kind.CAPTIVE: EndKind.OWN,
}


class LeadEnd(Struct, frozen=True):
    """One end of a lead."""

    key: ContactKey
    kind: EndKind
    family: str | None  # of the plug on this end; None where there is no plug, or where it is not known
    ways: int | None  # cavities of that plug; None where there is no plug, or where they are not known

    @property
    def words(self) -> str:
        """As a wire list says it: "JST GH plug, 6-way", "solder to pad"."""
        family = f"{families.family(self.family).title} " if self.family else ""
        size = "size not known" if self.ways is None else f"{self.ways}-way"
        plug = f"{family}plug, {size}" if family else f"plug of unknown family, {size}"
        match self.kind:
            case EndKind.PAD:
                return "solder to pad"
            case EndKind.SPLICE:
                return "splice"
            case EndKind.INLINE:
                return "solder to in-line part"
            case EndKind.OWN:
                return "captive"
            case EndKind.MATED:
                return f"captive {plug}"
            case EndKind.MATE:
                return f"mate of the captive {plug}"
            case EndKind.CUP:
                return f"{plug}, soldered"
            case EndKind.SLOT:
                return f"{plug}, insulation displacement"
            case EndKind.MADE:
                return f"ready-made {plug}"
            case EndKind.CONTACT | EndKind.PLUG:
                return plug


class MadeLead(Struct, frozen=True):
    """How one lead is made."""

    lead: Lead
    ends: tuple[LeadEnd, LeadEnd]  # in the order of `lead.a`, `lead.b`
    wire_from: WireFrom
    notes: tuple[str, ...] = ()  # what the hands must know about this lead


def how_leads_are_made(craft: Craft) -> tuple[MadeLead, ...]:
    """All leads of the craft, in mark order."""
    neighbours: dict[str, set[str]] = {}
    for lead in craft.leads:
        for here, there in (lead.link, lead.link[::-1]):
            neighbours.setdefault(here, set()).add(there)
    kept, live = kept_plugs(craft), packs(craft)
    return tuple(_made(craft, lead, neighbours, kept, live) for lead in craft.leads)


def with_leads_of(made: Sequence[MadeLead], craft: Craft) -> tuple[MadeLead, ...]:
    """The same ends, of the leads as this craft has them: with gauges and colours that were worked out since."""
    by_mark = {lead.mark: lead for lead in craft.leads}
    return tuple(replace(lead_made, lead=by_mark[lead_made.lead.mark]) for lead_made in made)


def plug_kind(family: str | None) -> EndKind:
    """How a lead gets into a plug of this family."""
    if family is None:
        return EndKind.PLUG
    known = families.family(family)
    if known.kind == "pad":
        return EndKind.PAD
    if known.one_object:
        return EndKind.MADE
    return _BY_RETENTION.get(known.retention, EndKind.CONTACT)


def soldered_into_plug(end: LeadEnd) -> bool:
    """Into a cup: of a plug, or of the mate of a part's own plug."""
    return end.kind is EndKind.CUP or (end.kind is EndKind.MATE and plug_kind(end.family) is EndKind.CUP)


def _made(
    craft: Craft, lead: Lead, neighbours: Mapping[str, set[str]], kept: Collection[str], live: Collection[str]
) -> MadeLead:
    here, there = (craft.terminations[key[0]] for key in lead.ends)
    alone = neighbours[here.reference] == {there.reference} and neighbours[there.reference] == {here.reference}
    ends = (_end(lead.a, here, there, alone, kept), _end(lead.b, there, here, alone, kept))
    kinds = {end.kind for end in ends}
    if kinds & {EndKind.OWN, EndKind.MATED}:
        return MadeLead(lead, ends, WireFrom.CAPTIVE, _captive_notes(ends, live, here, there))
    return MadeLead(lead, ends, WireFrom.MADE if EndKind.MADE in kinds else WireFrom.NEW)


def _end(key: ContactKey, here: Termination, there: Termination, alone: bool, kept: Collection[str]) -> LeadEnd:
    if here.kind is Kind.RECEPTACLE:
        kind = EndKind.MATED if alone and goes_in(there, here) else plug_kind(here.family)
        return LeadEnd(key, kind, here.family, here.ways)
    if here.kind is Kind.INLINE and here.family is not None:
        return LeadEnd(key, plug_kind(here.family), here.family, None)  # a plug for each side of the part
    if here.kind is Kind.CAPTIVE and there.kind is Kind.CAPTIVE and alone and goes_in(here, there):
        return LeadEnd(key, EndKind.MATED, here.family, here.ways)
    if here.reference in kept and (there.kind is Kind.INLINE or not (alone and goes_in(here, there))):
        return LeadEnd(key, EndKind.MATE, here.family, here.ways)
    return LeadEnd(key, _BY_KIND[here.kind], None, None)


def kept_plugs(craft: Craft) -> frozenset[str]:
    """Captive terminations whose plug must not be cut off: it carries power, or it is live."""
    live = packs(craft)
    return frozenset(
        termination.reference
        for termination in craft.terminations.values()
        if termination.kind is Kind.CAPTIVE
        and termination.family is not None
        and (termination.board in live or _carries_power(termination))
    )


def _carries_power(captive: Termination) -> bool:
    if captive.family is not None and families.family(captive.family).kind.startswith("power"):
        return True
    return any(contact.gives or (contact.role.battery and not contact.takes) for contact in captive.contacts)


def _captive_notes(ends: tuple[LeadEnd, LeadEnd], live: Collection[str], *terminations: Termination) -> tuple[str, ...]:
    """What happens to the plug that a captive part brings along; `live`: boards whose own leads are live."""
    if EndKind.MATED in {end.kind for end in ends}:
        (own, own_contact), (there, contact) = (end.key for end in (ends if _is_own(ends[0]) else ends[::-1]))
        if own_contact == contact:
            return ()
        if next(termination.board for termination in terminations if termination.reference == own) in live:
            # Never re-pin the live end of a battery lead.
            return (
                f"contact {own_contact} of the plug of {own} meets {contact} of {there}: change {there}, not the plug",
            )
        return (f"re-pin the captive plug of {own}: its contact {own_contact} belongs in cavity {contact} of {there}",)
    loose = [
        (families.family(part.family).title, part.board)
        for part, end in zip(terminations, ends, strict=True)
        if end.kind is EndKind.OWN and part.family is not None
    ]
    return tuple(f"the {title} plug of {board} does not go here: cut it off" for title, board in loose)


def is_polarised(craft: Craft, reference: str) -> bool:
    """A plug with solder cups for a supply and its ground: told by plus and minus, not by numbers."""
    termination = craft.terminations[reference]
    roles = [contact.role for contact in termination.contacts]
    cups = termination.kind is not Kind.INLINE and plug_kind(termination.family) is EndKind.CUP
    return cups and any(role.is_supply for role in roles) and any(role.is_ground for role in roles)


def _is_own(end: LeadEnd) -> bool:
    return end.kind is EndKind.OWN
