"""What a single lead carries of the current of its bundle, and what it opposes to it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from tabside.model.craft import Craft, Kind, Lead, Termination

# Parallel contacts share unevenly: they count as if only this part of them carried.  Common practice, no source.
SHARED = 0.8


class Resistance(NamedTuple):
    """Of one lead, in ohm; None: gauge or length not known."""

    wire_ohm: float | None
    contact_ohm: float
    contacts_unknown: tuple[str, ...]  # families (or "" for an unknown one) whose contact resistance is not known

    @property
    def ohm(self) -> float | None:
        return None if self.wire_ohm is None else self.wire_ohm + self.contact_ohm


def drop_v(ohm_per_m: float, length_m: float, amps: float) -> float:
    """The volts that a conductor of this length loses."""
    return ohm_per_m * length_m * amps


def resistance(craft: Craft, lead: Lead) -> Resistance:
    """Of a lead's wire at the temperature of the craft file, with the aged contact of each plug on it."""
    wire, gauge = None, own_gauge(craft, lead)
    if gauge is not None and lead.length_mm is not None:
        wire = drop_v(ohm_per_m(gauge, craft.settings.limits.wire_c), lead.length_mm / 1000, 1.0)
    known, unknown = 0.0, []
    for family in mated_families(craft, lead):
        ohm = contact_ohm(family) if family else None
        if ohm is None:
            unknown.append(family)
        else:
            known += ohm
    return Resistance(wire, known, tuple(unknown))


def own_gauge(craft: Craft, lead: Lead) -> int | None:
    """The lead's gauge; the craft file's default says nothing about a lead that comes with its part."""
    captive = any(craft.terminations[reference].kind is Kind.CAPTIVE for reference, _ in lead.ends)
    return None if captive and lead.gauge_said_by == "craft file" else lead.gauge_awg


def mated_families(craft: Craft, lead: Lead) -> list[str]:
    """The families of the plugs that the lead's current passes; "" for one that is not known."""
    a, b = (craft.terminations[reference] for reference, _ in lead.ends)
    found = [_plug_of(here, there) for here, there in ((a, b), (b, a))]
    return [family for family in found if family is not None]


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
    """Of the solid conductor; source: the table of wire."""
    from tabside.facts.wire import awg_ohm_per_m

    return awg_ohm_per_m(awg, temperature_c)


@lru_cache(maxsize=256)
def contact_ohm(family_id: str) -> float | None:
    """Of one mated contact: aged where the maker states it, else new; None when neither is known."""
    from tabside.facts.families import family

    known = family(family_id)
    mohm = known.contact_aged_mohm if known.contact_aged_mohm is not None else known.contact_new_mohm
    return None if mohm is None else mohm / 1000


def shares(craft: Craft, leads: Sequence[Lead]) -> tuple[float, ...] | None:
    """The part of a bundle's current that each lead is counted with; None where it cannot be decided.

    Leads of one link share equally; leads of several links by their conductance, if it is known.  Parallel leads are
    counted with a quarter more than their part.
    """
    if len(leads) == 1:
        return (1.0,)
    if len({lead.link for lead in leads}) == 1 and len({(lead.gauge_awg, lead.length_mm) for lead in leads}) == 1:
        return (1 / len(leads) / SHARED,) * len(leads)
    conductance = []
    for lead in leads:
        ohm = resistance(craft, lead).ohm
        if not ohm:
            break
        conductance.append(1 / ohm)
    else:
        whole = sum(conductance)
        return tuple(min(1.0, each / whole / SHARED) for each in conductance)
    if len({lead.link for lead in leads}) == 1:
        return (1 / len(leads) / SHARED,) * len(leads)
    return None


def bundle_ohm(craft: Craft, leads: Sequence[Lead]) -> float | None:
    """Of leads in parallel; None when one of them is not known."""
    ohms = [resistance(craft, lead).ohm for lead in leads]
    if any(ohm is None or ohm <= 0 for ohm in ohms):
        return None
    return 1 / sum(1 / ohm for ohm in ohms if ohm)
