"""Why a cable that the craft file keeps for a place is not used there: never in silence."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.make.needs.cable_jobs import CableJob, plug_pairs
from tabside.make.options.repin import plan_repin
from tabside.make.options.supply import can_be_had
from tabside.make.options.things import ListedCable
from tabside.model.craft import Craft
from tabside.model.stock import StockCable


def why_not_used(job: CableJob, craft: Craft, used: int | None) -> Iterator[str]:
    """One line for each cable kept for this place that is not the one used."""
    for n, cable in enumerate(craft.settings.stock_cables):
        if cable.reserved == job.terminations and n != used:
            why = "another one is used" if used is not None else _why(job, craft, n, cable)
            yield f'"{cable.name}", which the craft file keeps for this place, is not used: {why}'


def _why(job: CableJob, craft: Craft, n: int, cable: StockCable) -> str:
    drawn = plug_pairs(job, craft)
    if drawn is None:
        return "what is drawn there is no cable with one row of contacts in a plug on each of two ends"
    ends = job.plugs(craft)
    maps = [cable.map] if ends == cable.ends else []
    maps += [tuple((b, a) for a, b in cable.map)] if ends == cable.ends[::-1] else []
    if not maps:
        return "its plugs do not go in there"
    if not can_be_had(craft.settings, ListedCable(n)):
        return "none is there, and it has no price"
    path = job.path_mm
    if path is not None and cable.length_mm is not None and cable.length_mm < path:
        return "it is too short"
    if (
        path is not None
        and cable.length_mm is not None
        and cable.length_mm > path + craft.settings.costs.slack_limit_mm
    ):
        return "it is too long (slack_limit_mm)"
    plans = [plan_repin(pairs, drawn) for pairs in maps]
    if not any(plans):
        return "it has fewer wires than are drawn"
    if cable.repinnable is False:
        return "its contacts do not sit as drawn, and cannot be moved"
    if set(job.terminations) & craft.settings.bench.never_at:
        return "its contacts do not sit as drawn, and are not to be moved (never_at)"
    return "its contacts do not sit as drawn, and those of its plugs or of this gauge cannot be moved"
