"""What a meter may read over one good lead."""

from __future__ import annotations

import math

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead
from tabside.facts import families, wire
from tabside.facts.workmanship import figure

_WITH_CONTACT = frozenset((EndKind.CONTACT, EndKind.SLOT, EndKind.CUP, EndKind.MADE, EndKind.PLUG, EndKind.MATE))


class Limit(Struct, frozen=True):
    """The most that a good lead may have, the meter's own leads included."""

    ohm: float | None  # None: cannot be worked out
    notes: tuple[str, ...]  # why not, or what was left out of it


def limit_of(made: MadeLead) -> Limit:
    """Resistance at 20 °C of the lead's wire with a margin, plus an aged contact at each plug, plus the meter's leads.

    The wire is never held to less than tinned stranded copper may have, which is more than the margin in thick sizes.

    A contact whose resistance nobody states is left out, which makes the limit stricter, and said so.  Soldered ends
    add nothing.  Sources: the tables of wire, connectors and workmanship.
    """
    lead = made.lead
    size = None if lead.gauge_awg is None else wire.wire_sizes().get(lead.gauge_awg)
    unknown = [what for what, value in (("gauge", size), ("length", lead.length_mm)) if value is None]
    if size is None or lead.length_mm is None:
        missing = " and ".join(unknown)
        return Limit(None, (f"{missing} not known: beep only, no limit; compare with the other wires",))
    contacts = [_contact_ohm(end) for end in made.ends]
    with_margin = size.ohm_per_km_20c * figure("wire_factor").value / 1000
    wire_ohm = max(with_margin, wire.stranded_ohm_per_m(size.awg)) * lead.length_mm / 1000
    total = wire_ohm + sum(filter(None, contacts)) + figure("lead_error").value
    left_out = dict.fromkeys(
        f"contact resistance of {_title(end)} not known, left out"
        for end, ohm in zip(made.ends, contacts, strict=True)
        if ohm is None
    )
    return Limit(hundredths_up(total), tuple(left_out))


def _title(end: LeadEnd) -> str:
    return families.family(end.family).title if end.family else "a connector of unknown family"


def below_words(limit_ohm: float | None) -> str:
    """What the meter must say beside its beep.

    A hobby meter shows tenths of an ohm: a limit near that is told apart from a bad joint only as "below 1 ohm".
    """
    if limit_ohm is None:
        return ""
    coarse = figure("coarse_limit").value
    return f", below {coarse:g} ohm" if limit_ohm <= coarse else f", at most {limit_ohm:.2f} ohm"


def limit_read(limit_ohm: float) -> float:
    """The limit that a hobby meter can tell."""
    return max(limit_ohm, figure("coarse_limit").value)


def limit_notes() -> tuple[str, ...]:
    """How the limits were worked out, with the source of each figure."""
    factor, error, step, coarse = (figure(name) for name in ("wire_factor", "lead_error", "meter_step", "coarse_limit"))
    return (
        f"limit ohm: resistance of the wire at 20 °C x {factor.value:.2f} ({factor.source.words}), never less than "
        "tinned stranded copper may have (FAA AC 43.13-1B Table 11-9, read in the document), plus the aged "
        f"contact of each plug (the maker's figure), plus {error.value:g} ohm for the meter's own leads "
        f"({error.source.words}).",
        f"A hobby meter shows steps of {step.value:g} ohm ({step.source.words}): for it the column expect says "
        f'"below {coarse.value:g} ohm" ({coarse.source.words}).  A reading far above that of its neighbours is a bad '
        "joint even below the limit.  No such meter shows that a wire carries its current: look at each joint, and "
        "pull gently.",
    )


def hundredths_up(ohm: float) -> float:
    """Two decimals, never rounded down."""
    return math.ceil(round(ohm * 100, 6)) / 100


def _contact_ohm(end: LeadEnd) -> float | None:
    """0 for an end without a plug, None where the family's figure is not known."""
    if end.kind not in _WITH_CONTACT:
        return 0.0
    aged = None if end.family is None else families.family(end.family).contact_aged_mohm
    return None if aged is None else aged / 1000
