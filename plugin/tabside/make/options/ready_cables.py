"""Ready-made cables that could become a drawn one: as they are, re-pinned, or moved over into an empty housing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts import families
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import CableJob, plug_pairs, releasable
from tabside.make.options.lead_options import can_crimp
from tabside.make.options.repin import Pair, Repin, plan_repin
from tabside.make.options.supply import can_be_had
from tabside.make.options.things import ListedCable
from tabside.make.options.work import Work
from tabside.model.craft import Craft
from tabside.model.stock import Costs, StockCable

_EASE = {"housing_lance": 0, "contact_tang": 1}  # a lance is lifted; a tang must be re-formed before it holds again
_REHOUSE_FROM = 3  # contacts that would move
_FAR = 5e-3


class ReadyWay(Struct, frozen=True):
    """One way to come from a ready-made cable to the drawn one."""

    stock: int | None  # index into the stock's cables; None: bought, straight
    turned: bool  # the stock's second end goes to the first termination
    there: tuple[Pair, ...]  # what it joins, in the drawing's order of ends
    repin: Repin
    method: Method
    housing: tuple[str, int] | None  # empty housing that it takes
    work: Work
    kept: bool = False  # the craft file keeps it for this place
    repinnable: bool | None = True  # None: nobody says so

    @property
    def touched(self) -> frozenset[int]:
        """Plugs at which contacts are taken out or put in."""
        return frozenset(move.plug for move in self.repin.moves)


def ready_ways(job: CableJob, craft: Craft) -> tuple[ReadyWay, ...]:
    """All ways, from stock and bought; nothing that is too short, far too long, or of other families or ways.

    None at all when the contacts of its plugs do not take the gauge that is drawn: then no such cable exists.  A cable
    that is kept for this place leaves no other choice, one that is kept for another place is none.
    """
    drawn = plug_pairs(job, craft)
    if drawn is None:
        return ()
    costs = craft.settings.costs
    ends = job.plugs(craft)
    if not all(can_crimp(family, made.lead.gauge_awg) for made in job.leads for family, _ in ends if family):
        return ()
    found: list[ReadyWay] = []
    for index, cable in enumerate(craft.settings.stock_cables):
        kept = cable.reserved == job.terminations
        if not can_be_had(craft.settings, ListedCable(index)) or not _long_enough(cable, job, costs):
            continue
        if cable.reserved is not None and not kept:
            continue
        there = _There(index, tuple(cable.map), cable.repinnable, kept, _slack(cable, job, costs))
        if ends == cable.ends:
            found += _ways(there, drawn, ends, costs)
        if ends == cable.ends[::-1] and (ends != cable.ends or _one_way_only(cable)):
            turned = replace(there, map=tuple((n, m) for m, n in cable.map), turned=True)
            found += _ways(turned, drawn, ends, costs)
    if costs.buy_ready and ends[0] == ends[1] and ends[0][1] is not None:
        straight = tuple((n, n) for n in range(1, ends[0][1] + 1))
        found += _ways(_There(None, straight, True, False, Work(money=costs.cable_price)), drawn, ends, costs)
    wished = _as_wished(found, job, craft)
    return tuple(way for way in wished if way.kept) or tuple(wished)


class _There(Struct, frozen=True):
    """A cable that there is, or could be bought, before hands work on it."""

    stock: int | None
    map: tuple[Pair, ...]
    repinnable: bool | None
    kept: bool
    work: Work
    turned: bool = False


def _as_wished(ways: Sequence[ReadyWay], job: CableJob, craft: Craft) -> list[ReadyWay]:
    """Leaves out work at plugs that are to stay as they are, and all but the wished end where that one will do.

    Of ends that cost the same, the one where spare length lies weighs less.
    """
    bench = craft.settings.bench
    allowed = [way for way in ways if not {job.terminations[plug] for plug in way.touched} & bench.never_at]
    listed = []
    for way in allowed:
        rivals = [rival for rival in allowed if (rival.stock, rival.turned) == (way.stock, way.turned)]
        wished = [rival for rival in rivals if {job.terminations[plug] for plug in rival.touched} <= bench.work_at]
        if way in (wished or rivals):
            far = sum(job.terminations[plug] not in bench.slack_at for plug in way.touched) if bench.slack_at else 0
            listed.append(replace(way, work=way.work + Work(tie=_FAR * far)))
    return listed


def _ways(
    cable: _There, drawn: tuple[Pair, ...], ends: tuple[tuple[str | None, int | None], ...], costs: Costs
) -> Iterator[ReadyWay]:
    seen: set[tuple[int, ...]] = set()
    for at in (0, 1, None):
        repin = plan_repin(cable.map, drawn, at)
        if repin is None or (repin.plugs in seen and at is None):
            continue
        seen.add(repin.plugs)
        ready = cable.work + Work(minutes=costs.plug_in_minutes)
        way = ReadyWay(
            cable.stock, cable.turned, cable.map, repin, Method.PLUG_IN, None, ready, cable.kept, cable.repinnable
        )
        if not repin.moves:
            yield way
            return
        if cable.repinnable is False or not all(releasable(ends[plug][0]) for plug in way.touched):
            continue
        out = Work(minutes=costs.leave_out_minutes * 2 * len(repin.unused))
        ease = Work(tie=sum(_hardness(ends[plug][0]) for plug in repin.plugs))
        moving = Work(minutes=costs.move_minutes, weight=costs.move_risk).times(repin.moved)
        yield replace(way, method=Method.RE_PIN, work=ready + out + ease + moving)
        if repin.moved >= _REHOUSE_FROM and len(repin.plugs) == 1:
            family, ways = ends[repin.plugs[0]]
            over = Work(minutes=costs.rehouse_minutes * len(repin.becomes))
            if family is not None and ways is not None:
                yield replace(way, method=Method.RE_HOUSE, housing=(family, ways), work=ready + out + ease + over)


def _hardness(family: str | None) -> float:
    """Decides only between ends that cost the same: lances before tangs, large pitches before small ones."""
    if family is None:
        return 0.0
    known = families.family(family)
    return _EASE.get(known.retention, 2) + 0.1 / (known.pitch_mm or 1.0)


def _long_enough(cable: StockCable, job: CableJob, costs: Costs) -> bool:
    """A length that is not known on either side is left to one look."""
    path = job.path_mm
    if cable.length_mm is None or path is None:
        return True
    return path <= cable.length_mm <= path + costs.slack_limit_mm


def _slack(cable: StockCable, job: CableJob, costs: Costs) -> Work:
    path = job.path_mm
    if cable.length_mm is None or path is None:
        return Work()
    return Work(weight=costs.slack_price * (cable.length_mm - path) / 100)


def _one_way_only(cable: StockCable) -> bool:
    """Whether it joins other cavities when its ends change places."""
    return {(n, m) for m, n in cable.map} != set(cable.map)
