"""Ready-made cables that could become a drawn one: as they are, re-pinned, or moved over into an empty housing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..facts import families
from ..model.craft import Craft, StockCable
from ..model.stock import Costs
from .cable_plan import Method
from .lead_making import can_crimp
from .repin import Pair, Repin, plan_repin
from .shapes import Shape, plug_pairs, releasable
from .work import Work

_EASE = {"housing_lance": 0, "contact_tang": 1}  # a lance is lifted; a tang must be re-formed before it holds again
_REHOUSE_FROM = 3  # contacts that would move


@dataclass(frozen=True, slots=True)
class ReadyWay:
    """One way to come from a ready-made cable to the drawn one."""

    stock: int | None  # index into the stock's cables; None: bought, straight
    turned: bool  # the stock's second end goes to the first termination
    there: tuple[Pair, ...]  # what it joins, in the drawing's order of ends
    repin: Repin
    method: Method
    housing: tuple[str, int] | None  # empty housing that it takes
    work: Work


def ready_ways(shape: Shape, craft: Craft) -> Iterator[ReadyWay]:
    """All ways, from stock and bought; nothing that is too short, far too long, or of other families or ways.

    None at all when the contacts of its plugs do not take the gauge that is drawn: then no such cable exists.
    """
    drawn = plug_pairs(shape, craft)
    if drawn is None:
        return
    costs = craft.settings.costs
    ends = tuple((craft.terminations[each].family, craft.terminations[each].ways) for each in shape.terminations)
    if not all(can_crimp(family, made.lead.gauge_awg) for made in shape.leads for family, _ in ends if family):
        return
    for index, cable in enumerate(craft.settings.stock_cables):
        if cable.count and _long_enough(cable, shape, costs):
            slack = _slack(cable, shape, costs)
            if ends == cable.ends:
                yield from _ways(index, False, tuple(cable.map), drawn, ends, cable.repinnable, slack, costs)
            if ends == cable.ends[::-1] and (ends != cable.ends or _one_way_only(cable)):
                turned = tuple((n, m) for m, n in cable.map)
                yield from _ways(index, True, turned, drawn, ends, cable.repinnable, slack, costs)
    if costs.buy_ready and ends[0] == ends[1] and ends[0][1] is not None:
        straight = tuple((n, n) for n in range(1, ends[0][1] + 1))
        bought = Work(money=costs.cable_price)
        yield from _ways(None, False, straight, drawn, ends, True, bought, costs)


def _ways(
    index: int | None,
    turned: bool,
    there: tuple[Pair, ...],
    drawn: tuple[Pair, ...],
    ends: tuple[tuple[str | None, int | None], ...],
    repinnable: bool,
    before: Work,
    costs: Costs,
) -> Iterator[ReadyWay]:
    seen: set[tuple[int, ...]] = set()
    for at in (0, 1, None):
        repin = plan_repin(there, drawn, at)
        if repin is None or (repin.plugs in seen and at is None):
            continue
        seen.add(repin.plugs)
        ready = before + Work(minutes=costs.plug_in_minutes)
        if not repin.moves:
            yield ReadyWay(index, turned, there, repin, Method.PLUG_IN, None, ready)
            return
        touched = {move.plug for move in repin.moves}
        if not repinnable or not all(releasable(ends[plug][0]) for plug in touched):
            continue
        out = Work(minutes=costs.leave_out_minutes * 2 * len(repin.unused))
        ease = Work(weight=sum(_hardness(ends[plug][0]) for plug in repin.plugs))
        moving = Work(minutes=costs.move_minutes, weight=costs.move_risk).times(repin.moved)
        yield ReadyWay(index, turned, there, repin, Method.RE_PIN, None, ready + out + ease + moving)
        if repin.moved >= _REHOUSE_FROM and len(repin.plugs) == 1:
            family, ways = ends[repin.plugs[0]]
            over = Work(minutes=costs.rehouse_minutes * len(repin.becomes))
            if family is not None and ways is not None:
                yield ReadyWay(index, turned, there, repin, Method.RE_HOUSE, (family, ways), ready + out + ease + over)


def _hardness(family: str | None) -> float:
    """Decides only between ends that cost the same: lances before tangs, large pitches before small ones."""
    if family is None:
        return 0.0
    known = families.family(family)
    return 1e-3 * _EASE.get(known.retention, 2) + 1e-4 / (known.pitch_mm or 1.0)


def _long_enough(cable: StockCable, shape: Shape, costs: Costs) -> bool:
    """A length that is not known on either side is left to one look."""
    path = shape.path_mm
    if cable.length_mm is None or path is None:
        return True
    return path <= cable.length_mm <= path + costs.slack_limit_mm


def _slack(cable: StockCable, shape: Shape, costs: Costs) -> Work:
    path = shape.path_mm
    if cable.length_mm is None or path is None:
        return Work()
    return Work(weight=costs.slack_price * (cable.length_mm - path) / 100)


def _one_way_only(cable: StockCable) -> bool:
    """Whether it joins other cavities when its ends change places."""
    return {(n, m) for m, n in cable.map} != set(cable.map)
