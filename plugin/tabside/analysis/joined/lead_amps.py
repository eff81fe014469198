"""What a single lead carries of the current of its bundle, and what it opposes to it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from tabside.analysis.joined.lead_ends import MadeLead, WireFrom
from tabside.model.craft import Craft, Kind, Lead, SaidBy, Termination

# Parallel contacts share unevenly: they count as if only this part of them carried.  Common practice, no source.
SHARED = 0.8


class Wires:
    """The wires of a craft as conductors."""

    def __init__(self, craft: Craft, made: Iterable[MadeLead]) -> None:
        self.craft = craft
        # Marks of the leads whose wire is cut here, beside a captive part as well.
        self._made_here = frozenset(lead_made.lead.mark for lead_made in made if lead_made.wire_from is WireFrom.NEW)

    def gauge(self, lead: Lead) -> int | None:
        """The lead's gauge; the craft file's default says nothing about wire that a part brings along."""
        if lead.gauge_awg is None or lead.gauge_said_by is not SaidBy.CRAFT_FILE:
            return lead.gauge_awg
        captive = any(self.craft.terminations[reference].kind is Kind.CAPTIVE for reference, _ in lead.ends)
        return lead.gauge_awg if not captive or lead.mark in self._made_here else None

    def ohm(self, lead: Lead) -> float | None:
        """Of a lead's wire at the temperature of the craft file, with the aged contact of each plug on it.

        None: gauge or length not known.  A contact whose resistance nobody states adds nothing.
        """
        gauge = self.gauge(lead)
        if gauge is None or lead.length_mm is None:
            return None
        wire = drop_v(ohm_per_m(gauge, self.craft.settings.limits.wire_c), lead.length_mm / 1000, 1.0)
        contacts = (contact_ohm(family) for family in mated_families(self.craft, lead) if family)
        return wire + sum(ohm for ohm in contacts if ohm is not None)

    def bundle_ohm(self, leads: Sequence[Lead]) -> float | None:
        """Of leads in parallel; None when one of them is not known."""
        ohms = [self.ohm(lead) for lead in leads]
        if any(ohm is None or ohm <= 0 for ohm in ohms):
            return None
        return 1 / sum(1 / ohm for ohm in ohms if ohm)

    def shares(self, leads: Sequence[Lead]) -> tuple[float, ...] | None:
        """The part of a bundle's current that each lead is counted with; None where it cannot be decided.

        Leads of one link share equally; leads of several links by their conductance, if it is known.  Parallel leads
        are counted with a quarter more than their part.
        """
        if len(leads) == 1:
            return (1.0,)
        one_link = len({lead.link for lead in leads}) == 1
        if one_link and len({(lead.gauge_awg, lead.length_mm) for lead in leads}) == 1:
            return (1 / len(leads) / SHARED,) * len(leads)
        ohms = [self.ohm(lead) for lead in leads]
        if all(ohms):
            conductance = [1 / ohm for ohm in ohms if ohm]
            whole = sum(conductance)
            return tuple(min(1.0, share / whole / SHARED) for share in conductance)
        return (1 / len(leads) / SHARED,) * len(leads) if one_link else None


def drop_v(ohm_per_m: float, length_m: float, amps: float) -> float:
    """The volts that a conductor of this length loses."""
    return ohm_per_m * length_m * amps


def mated_families(craft: Craft, lead: Lead) -> list[str]:
    """The families of the plugs that the lead's current passes; "" for one that is not known."""
    return [family for _, family in mated_plugs(craft, lead)]


def mated_plugs(craft: Craft, lead: Lead) -> list[tuple[str, str]]:
    """The terminations whose plugs the lead's current passes, with their families; "" for one that is not known."""
    a, b = (craft.terminations[reference] for reference, _ in lead.ends)
    found = [(here.reference, _plug_of(here, there)) for here, there in ((a, b), (b, a))]
    return [(reference, family) for reference, family in found if family is not None]


def _plug_of(here: Termination, there: Termination) -> str | None:
    """A captive part's own plug is the one at the far end, and counts there."""
    if here.kind is Kind.RECEPTACLE:
        return here.family or ""
    if here.kind is Kind.INLINE and here.family is not None:
        return here.family
    if here.kind is Kind.CAPTIVE and here.family is not None and there.kind is not Kind.RECEPTACLE:
        return here.family if there.kind is not Kind.CAPTIVE or there.family is None else _first(here, there)
    return None


def _first(here: Termination, there: Termination) -> str | None:
    """Two captive parts that mate meet in one plug."""
    return here.family if here.reference < there.reference else None


@lru_cache(maxsize=1024)
def ohm_per_m(awg: int, temperature_c: float) -> float:
    """Of tinned stranded wire, at most; source: the table of wire (FAA AC 43.13-1B Table 11-9)."""
    from tabside.facts.wire import stranded_ohm_per_m

    return stranded_ohm_per_m(awg, temperature_c)


@lru_cache(maxsize=256)
def contact_ohm(family_id: str) -> float | None:
    """Of one mated contact: aged where the maker states it, else new; None when neither is known."""
    from tabside.facts.families import family

    known = family(family_id)
    mohm = known.contact_aged_mohm if known.contact_aged_mohm is not None else known.contact_new_mohm
    return None if mohm is None else mohm / 1000
