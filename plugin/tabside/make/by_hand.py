"""What the craft would take with every contact crimped by hand."""

from __future__ import annotations

import math
from collections.abc import Iterable

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.facts import families
from tabside.make.needs.allowances import allowance_mm
from tabside.make.options.work import Work
from tabside.model.stock import Costs, Cutting


class ByHand(Struct, frozen=True):
    """What the same cables need when every contact is crimped here."""

    crimps: int
    contacts: int  # to buy, spoiled ones among them
    minutes: float
    cost: float


def by_hand(leads: Iterable[MadeLead], costs: Costs, cutting: Cutting) -> ByHand:
    """Every contact of every new lead crimped here, all wire and contacts bought."""
    crimps, contacts, work = 0, 0.0, Work()
    for made in leads:
        ends = [end for end in made.ends if end.kind is EndKind.CONTACT]
        if made.wire_from is not WireFrom.NEW:
            continue
        crimps += len(ends)
        spoiled = sum(costs.spoil_factor(families.family(end.family).pitch_mm) for end in ends if end.family)
        contacts += spoiled
        work += Work(
            minutes=(costs.crimp_minutes + costs.insert_minutes) * len(ends)
            + costs.cut_minutes * 2
            + costs.solder_minutes * (2 - len(ends)),
            money=costs.wire_price * _all_here_mm(made, cutting) / 1000 + costs.contact_price * spoiled,
        )
    return ByHand(crimps, math.ceil(round(contacts, 6)), work.minutes, round(work.money, 4))


def _all_here_mm(made: MadeLead, cutting: Cutting) -> float:
    """Length to cut when both ends are made here; 0 when the lead's is not known."""
    return 0.0 if made.lead.length_mm is None else made.lead.length_mm + allowance_mm(made, None, cutting)
