"""Why wires that leave a cable are not used where wires are made between nearly the same places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.compare.fates.cable_fate import CableFate
from tabside.compare.fates.leads import LeadFates
from tabside.compare.fates.single_wires import one_end_stays
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import unfit
from tabside.model.natural import natural


def with_reasons(rebuild: Rebuild, leads: LeadFates, fates: Sequence[CableFate]) -> Iterator[CableFate]:
    """Each cable, with the reason after its words; those of wires that stay between their places it has already."""
    old, new, matching = rebuild
    told = set(leads.altered)
    made = [(after, fate.name) for fate in fates for after in fate.made if not new.is_own(after)]
    for fate in fates:
        reasons = {
            (name, why)
            for before in fate.gone
            if not old.is_own(before)
            for after, name in made
            if (before, after) not in told and one_end_stays(matching, before, after)
            for why in (unfit(old, before, new, after),)
            if why
        }
        said = [
            f"What leaves it will not do for {name}: {why}."
            for name, why in sorted(reasons, key=lambda pair: (natural(pair[0]), natural(pair[1])))
        ]
        yield fate._replace(said=" ".join((fate.said, *said))) if said else fate
