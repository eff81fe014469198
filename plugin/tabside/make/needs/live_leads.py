"""The leads of packs: they carry voltage while hands work on them, so they come last, one at a time."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.analysis.joined.part_plugs import packs
from tabside.make.needs.cable_jobs import CableJob
from tabside.model.craft import Craft, Kind, Lead
from tabside.model.groups import Groups
from tabside.model.natural import natural
from tabside.wiring.terminations.part_kinds import SWITCHED, TAKEN_OUT


def live_leads(craft: Craft, leads: Iterable[MadeLead]) -> dict[str, str]:
    """Mark -> the part whose own lead it is, for leads that are cut, soldered or crimped while they are live."""
    live = packs(craft)
    boards = {}
    for made in leads:
        own = next((end for end in made.ends if end.kind is EndKind.OWN), None)
        mated = any(end.kind is EndKind.MATED for end in made.ends)
        if own is not None and not mated and craft.terminations[own.key[0]].board in live:
            boards[made.lead.mark] = craft.terminations[own.key[0]].board
    return boards


def ground_first(craft: Craft, leads: Iterable[MadeLead]) -> list[MadeLead]:
    """The order in which a pack's leads are worked on: minus, then the rest."""
    return sorted(leads, key=lambda made: (not is_minus(craft, made), natural(made.lead.mark)))


def on_packs(craft: Craft, live: Iterable[str]) -> frozenset[str]:
    """Where a plug is a pack's: its own leads end there, or others that go on from its splices, fuses and switches."""
    at: dict[str, list[Lead]] = {}
    for lead in craft.leads:
        for reference, _ in lead.ends:
            at.setdefault(reference, []).append(lead)
    by_mark = {lead.mark: lead for lead in craft.leads}
    waiting, found = [by_mark[mark] for mark in live], set[str]()
    while waiting:
        for reference, _ in waiting.pop().ends:
            if reference not in found:
                found.add(reference)
                passes = craft.terminations[reference].kind in (Kind.SPLICE, Kind.INLINE)
                waiting += at[reference] if passes else []
    return frozenset(found)


def packs_in_parallel(craft: Craft, live: Mapping[str, str]) -> bool:
    """Whether plus leads of two packs are on one net."""
    packs_on: dict[int, set[str]] = {}
    for lead in craft.leads:
        if lead.mark in live and any(craft.contact(key).role.is_supply for key in lead.ends):
            packs_on.setdefault(lead.net_id, set()).add(live[lead.mark])
    return any(len(packs) > 1 for packs in packs_on.values())


def nets_through_parts(craft: Craft) -> Groups[int]:
    """Nets that fuses, switches and other in-line parts join."""
    nets: Groups[int] = Groups()
    for there in craft.terminations.values():
        for contact in there.contacts if there.kind is Kind.INLINE else ():
            nets.join(contact.net_id, to=there.contacts[0].net_id)
    return nets


def fuses(craft: Craft, on: Collection[str]) -> tuple[str, ...]:
    """In-line fuses and fuse holders among the places `on` packs, by KiCad's reference letters."""
    return _inline(craft, on, TAKEN_OUT)


def switches(craft: Craft, on: Collection[str]) -> tuple[str, ...]:
    """The same of switches, and of breakers, which hands switch."""
    return _inline(craft, on, SWITCHED)


def _inline(craft: Craft, on: Collection[str], letters: Collection[str]) -> tuple[str, ...]:
    inline = (termination.reference for termination in craft.terminations.values() if termination.kind is Kind.INLINE)
    return tuple(reference for reference in inline if reference in on and letters_of(reference) in letters)


def meets_pack(craft: Craft, job: CableJob) -> bool:
    """Whether a pack's own leads, or its plug, belong to it."""
    ends = (craft.terminations[reference] for reference in job.terminations)
    brought = {end.board for end in ends if end.kind is Kind.CAPTIVE}
    return bool(brought and brought & packs(craft))


def is_minus(craft: Craft, made: MadeLead) -> bool:
    """A part's own wire by what it is at the part, whatever it is joined to; any other by what it meets."""
    own = [craft.contact(end.key).role for end in made.ends if end.kind is EndKind.OWN]
    told = [role for role in own if role.is_ground or role.is_supply]
    roles = told or [craft.contact(key).role for key in made.lead.ends]
    return any(role.is_ground for role in roles)
