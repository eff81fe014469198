"""What each lead may carry: its wire by the chosen table, its contacts by their maker."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

from msgspec import Struct

from tabside.analysis.current.wire_limits import wire_limit, wire_words
from tabside.analysis.flows.lead_loads import Carrying, carryings, loaded_contacts, open_leads
from tabside.analysis.joined.lead_amps import mated_plugs
from tabside.analysis.judgement import Judgement
from tabside.model.craft import Lead, Limits

CONTACT, WIRE = "over-current-contact", "over-current-wire"


class Limit(Struct, frozen=True):
    """The most that one part of a lead may carry."""

    rule: str  # CONTACT or WIRE
    of: str  # the family, or the gauge: leads with the same are told together
    amps: float
    hard: bool  # known well enough for an error
    words: str  # "a contact of JST SH is rated 1 A (read in the document)"
    surely_a: float | None = None  # beyond this every standard's table is exceeded, whichever is chosen

    def is_error(self, amps: float) -> bool:
        """Whether so much is more than a maker's or a standard's figure."""
        return self.hard or (self.surely_a is not None and amps > max(self.amps, self.surely_a) * (1 + 1e-9))


class LeadLimits:
    """The limits of all leads of a craft with their currents; built where currents are stated."""

    def __init__(self, judgement: Judgement) -> None:
        self._judgement = judgement
        self._craft = judgement.craft
        self.carrying: list[Carrying] = carryings(judgement.flows)
        self.open: list[Lead] = open_leads(judgement.flows)
        self._loaded: Mapping[str, int] = loaded_contacts(self.carrying, self.open)

    def of(self, lead: Lead) -> Iterator[Limit]:
        """Of its contacts, then of its wire, as far as they are known."""
        yield from self.of_contacts(lead)
        wire = self.of_wire(lead)
        if wire is not None:
            yield wire

    def of_wire(self, lead: Lead) -> Limit | None:
        gauge = self._judgement.wires.gauge(lead)
        return None if gauge is None else _wire_limit(self._craft.settings.limits, gauge)

    def of_contacts(self, lead: Lead) -> Iterator[Limit]:
        gauge = self._judgement.wires.gauge(lead)
        told: set[str] = set()
        for reference, family_id in mated_plugs(self._craft, lead):
            if family_id and family_id not in told:
                told.add(family_id)
                limit = _contact_limit(family_id, gauge, self._loaded.get(reference, 1))
                if limit is not None:
                    yield limit


def _wire_limit(limits: Limits, gauge: int) -> Limit:
    from tabside.facts.ampacity import standards_amps

    most, row = wire_limit(limits, gauge)
    words = f"{gauge} AWG wire is limited to {wire_words(limits, gauge)}"
    surely = standards_amps(gauge)
    return Limit(WIRE, str(gauge), most, row.source.is_hard_for(""), words, surely.amps if surely else None)


@lru_cache(maxsize=4096)
def _contact_limit(family_id: str, gauge: int | None, loaded: int) -> Limit | None:
    """What a contact of the family may carry beside others, `loaded` in all; None where nobody states it."""
    from tabside.facts.contacts import contact_amps
    from tabside.facts.families import family

    known = family(family_id)
    by_gauge = None if gauge is None else contact_amps(family_id, gauge, loaded)
    if by_gauge is not None:
        less = "less than " if by_gauge.below else ""
        source = by_gauge.source
        words = f"{less}{by_gauge.value:g} A at AWG {by_gauge.at_awg}"
        amps, hard = by_gauge.value, source.is_hard_for("")
        grade = source.grade_for("").words
    elif known.rating_a is not None:
        source = known.rating_source
        words = f"{known.rating_a:g} A{f' at AWG {known.at_awg_text}' if known.at_awg_text else ''}"
        amps, hard = known.rating_a, source.is_hard_for("rating") and source.is_hard_for("current")
        grade = source.grade_for("rating").words
    else:
        return None
    return Limit(CONTACT, family_id, amps, hard, f"a contact of {known.title} is rated {words} ({grade})")
