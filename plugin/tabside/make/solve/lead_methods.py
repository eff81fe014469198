"""How each lead of a cable is made, and which of its ends get their contact here."""

from __future__ import annotations

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import BARE, soldered
from tabside.make.solve.choice import CableChoice
from tabside.make.solve.handing_out import LeadSource

_ORDER = (Method.CRIMP, Method.ASSEMBLE, Method.TAIL, Method.SOLDER, Method.AS_BOUGHT, Method.DIRECT)
MADE_HERE = (Method.CRIMP, Method.ASSEMBLE, Method.TAIL, Method.SOLDER)


def lead_method(made: MadeLead, source: LeadSource | None) -> Method:
    """How one lead is made."""
    kinds = {end.kind for end in made.ends}
    if made.wire_from is WireFrom.MADE or EndKind.SLOT in kinds:
        return Method.AS_BOUGHT
    if made.wire_from is WireFrom.CAPTIVE:
        if EndKind.MATED in kinds:
            return Method.DIRECT
        return Method.SOLDER if kinds & set(BARE) or is_of_two_parts(made) else Method.CRIMP
    crimped = crimped_ends(made, source)
    if crimped or not all(end.kind is EndKind.CONTACT or soldered(end) for end in made.ends):
        return Method.CRIMP
    if EndKind.CONTACT not in kinds:
        return Method.SOLDER
    return Method.TAIL if any(soldered(end) for end in made.ends) else Method.ASSEMBLE


def is_of_two_parts(made: MadeLead) -> bool:
    """Whether two parts' own wires are joined to each other."""
    return all(end.kind is EndKind.OWN for end in made.ends)


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


def crimped_families(choice: CableChoice) -> list[tuple[str, ...]]:
    """Of the contacts that each lead gets here."""
    if choice.ready is not None:
        return []
    return [
        tuple(end.family or "" for end in crimped_ends(made, choice.sources.get(made.lead.mark)))
        for made in choice.job.new
    ]


def method_of(choice: CableChoice) -> Method:
    return cable_method([lead_method(made, choice.sources.get(made.lead.mark)) for made in choice.job.leads])
