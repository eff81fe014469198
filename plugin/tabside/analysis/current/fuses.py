"""Fuses and breakers of a craft: what they let through, what hangs behind them, what flows over them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from msgspec import Struct

from tabside.analysis.current.part_ratings import PartRating, read_rating
from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.supplies import gives_only
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Lead, Termination
from tabside.wiring.terminations.part_kinds import FUSES


class Fuse(Struct, frozen=True):
    """One fuse or breaker with a stated current."""

    reference: str
    words: str  # "F1 (15A)"
    rating: PartRating
    amps: float
    contacts: tuple[Contact, ...]
    behind: tuple[Lead, ...]  # leads that it limits: up to the next fuse and to the boards, and the one that feeds it
    load_a: float | None  # at most over it, None where it is not decided


def fuses_of(judgement: Judgement) -> Iterator[Fuse]:
    """Those that state a current: drawn ones, and limiters that the craft file states with one."""
    craft = judgement.craft
    for part in drawn_fuses(craft):
        rating = read_rating(part.fields, part.value)
        if rating.amps is not None:
            sides = _sides(judgement, [contact.key for contact in part.contacts])
            yield Fuse(
                part.reference,
                f"{part.reference} ({rating.amps:g} A)",
                rating,
                rating.amps,
                part.contacts,
                tuple(sides),
                load_over(judgement, part.contacts),
            )
    for protection in craft.settings.protections:
        rating = read_rating({}, protection.what)
        if rating.amps is not None and protection.at[0] in craft.terminations:
            contact = craft.contact(protection.at)
            leads = _leads_from(judgement, [protection.at], set())[0]
            words = f"{protection.what} at {protection.at[0]}:{protection.at[1]}"
            yield Fuse(
                protection.at[0], words, rating, rating.amps, (contact,), tuple(leads), load_over(judgement, (contact,))
            )


def drawn_fuses(craft: Craft) -> Iterator[Termination]:
    """Whatever they state."""
    for part in craft.terminations.values():
        if part.kind is Kind.INLINE and letters_of(part.reference) in FUSES:
            yield part


def _sides(judgement: Judgement, ends: list[ContactKey]) -> Iterable[Lead]:
    """All leads on the side that has no source, and those at the fuse itself on the other; all, where none is told."""
    found = [_leads_from(judgement, [end], set(ends) - {end}) for end in ends]
    fed = [any(gives_only(judgement.craft, contact) for contact in met) for _, met in found]
    some = any(fed) and not all(fed)
    return dict.fromkeys(
        lead
        for end, (leads, _), source in zip(ends, found, fed, strict=True)
        for lead in leads
        if not (some and source) or end in lead.ends
    )


def _leads_from(
    judgement: Judgement, starts: list[ContactKey], without: Collection[ContactKey]
) -> tuple[list[Lead], list[Contact]]:
    """Leads met from a contact over splices and parts that are no fuse, and the contacts of boards at their ends."""
    craft = judgement.craft
    leads: dict[str, Lead] = {}
    met: list[Contact] = []
    seen, front = {*starts, *without}, list(starts)
    while front:
        for lead in judgement.leads_at.get(front.pop(), ()):
            leads[lead.mark] = lead
            for other in lead.ends:
                if other in seen:
                    continue
                seen.add(other)
                part = craft.terminations[other[0]]
                if not part.passes_on(other[1]):
                    met.append(craft.contact(other))
                    continue
                front.append(other)
                if part.kind is Kind.SPLICE or letters_of(part.reference) not in FUSES:
                    inside = [key for number in part.beyond(other[1]) if (key := (other[0], number)) not in seen]
                    seen.update(inside)
                    front += inside
    return list(leads.values()), met


def load_over(judgement: Judgement, contacts: Iterable[Contact]) -> float | None:
    """The most current over a part in the wire: that of its strongest bundle that is decided."""
    flows = judgement.flows
    if not flows.any_stated:
        return None
    keys = {contact.key for contact in contacts}
    found = (
        flow.amps.most
        for circuit in flows.supplies.circuits
        for ends, leads in circuit.bundles.items()
        if any(key in keys for lead in leads for key in lead.ends) and (flow := flows.in_supplies.get(ends)) is not None
    )
    return max(found, default=None)
