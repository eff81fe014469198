"""The packs of a craft: which boards are packs, which stand in series or beside each other, what each run reaches."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import combinations, permutations

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.joined.joints import runs_of
from tabside.analysis.joined.part_plugs import brings_battery, packs
from tabside.analysis.joined.wired import Wired
from tabside.analysis.meeting.diodes import Ways, diodes_in_line, reached, ways_through
from tabside.model.craft import Contact, ContactKey, Craft
from tabside.model.roles import Rail, Role, RoleClass, Volts


class PackLeads(Struct, frozen=True):
    """The main leads of one pack."""

    board: str
    plus: Contact
    minus: Contact

    @property
    def volts(self) -> Volts | None:
        return self.plus.role.volts or next((rail.volts for rail in self.plus.gives if rail.volts), None)


class Packs:
    """Worked out once for a craft, from nets alone."""

    def __init__(self, wired: Wired) -> None:
        self._wired = wired
        self._craft: Craft = wired.craft

    @cached_property
    def boards(self) -> frozenset[str]:
        return packs(self._craft)

    @cached_property
    def leads(self) -> tuple[PackLeads, ...]:
        found = []
        for termination in self._craft.terminations.values():
            plus = [c for c in termination.contacts if c.role.battery or (c.gives and c.role.is_supply)]
            minus = [c for c in termination.contacts if c.role.cls is RoleClass.GROUND]
            if brings_battery(termination) and plus and minus:
                found.append(PackLeads(termination.board, plus[0], minus[0]))
        return tuple(found)

    @cached_property
    def series(self) -> dict[frozenset[ContactKey], tuple[PackLeads, PackLeads]]:
        """Plus and minus of two packs that meet, and the lower and the upper pack: not where they meet at both ends."""
        run = self._wired.whole_runs
        found = {}
        for lower, upper in permutations(self.leads, 2):
            if run[lower.plus.net_id] != run[upper.minus.net_id] or run[upper.plus.net_id] == run[lower.minus.net_id]:
                continue
            if lower.board == upper.board or self._board_ground_on(run[lower.plus.net_id]):
                continue
            found[frozenset((lower.plus.key, upper.minus.key))] = (lower, upper)
        return found

    def _board_ground_on(self, run: int) -> bool:
        """Whether a board's ground lies between two packs: then it is no plain series."""
        leads = {lead.minus.key for lead in self.leads}
        return any(c.role.is_ground and c.key not in leads for c in self._wired.whole_members[run])

    @cached_property
    def stacked(self) -> dict[ContactKey, Volts]:
        """Plus contact of a pack that stands on others -> what it reaches against the lowest minus."""
        below = {upper.plus.key: lower for lower, upper in self.series.values()}
        found: dict[ContactKey, Volts] = {}
        for pack in self.leads:
            stack, seen = pack.volts, {pack.plus.key}
            lower = below.get(pack.plus.key)
            while stack is not None and lower is not None and lower.plus.key not in seen:
                seen.add(lower.plus.key)
                more = lower.volts
                stack = _sum(stack, more) if more is not None else None
                lower = below.get(lower.plus.key)
            if stack is not None and len(seen) > 1:
                found[pack.plus.key] = stack
        return found

    @cached_property
    def in_series(self) -> frozenset[ContactKey]:
        """Plus contacts of packs that stand in series with another: each of them is only a part of the battery."""
        return frozenset(pack.plus.key for pair in self.series.values() for pack in pair)

    def as_wired(self, contact: Contact) -> Contact:
        """The contact with the volts of the whole stack, where it is the plus of packs in series."""
        volts = self.stacked.get(contact.key) if self.stacked else None
        if volts is None:
            return contact
        gives = tuple(replace(rail, volts=volts) for rail in contact.gives) or (Rail(volts, battery=True),)
        role: Role = replace(contact.role, volts=volts)
        return replace(contact, gives=gives, role=role)

    @cached_property
    def _reach(self) -> dict[int, Volts]:
        """Rail -> what the packs that feed it reach, the lowest and the highest of them."""
        found: dict[int, Volts] = {}
        lower = {pack.plus.key for pack, _ in self.series.values()}
        for pack in self.leads:
            volts = self.stacked.get(pack.plus.key, pack.volts)
            if volts is None or pack.plus.key in lower:
                continue
            rail = self._wired.rail_of(pack.plus)
            known = found.get(rail)
            found[rail] = volts if known is None or known == volts else _span(known, volts)
        return found

    def reach_of(self, contact: Contact) -> Volts | None:
        """What the packs that feed this contact's rail reach, where they say it."""
        run = self._wired.whole_runs.get(contact.net_id)
        return None if run is None else self._reach.get(self._wired.whole_rails[run])

    @cached_property
    def unsaid(self) -> dict[int, tuple[PackLeads, ...]]:
        """Rail -> the packs in series that feed it, where not each of them says its volts.

        A battery in the craft file may then be each of them, or all together: twice the volts, or half.
        """
        below = {upper.plus.key: lower for lower, upper in self.series.values()}
        lower = {pack.plus.key for pack, _ in self.series.values()}
        found = {}
        for pack in self.leads:
            if pack.plus.key not in below or pack.plus.key in lower or pack.plus.key in self.stacked:
                continue
            stack = [pack]
            while (next_ := below.get(stack[-1].plus.key)) is not None and next_ not in stack:
                stack.append(next_)
            found[self._wired.rail_of(pack.plus)] = tuple(stack)
        return found

    def parallel(self) -> Iterator[tuple[PackLeads, PackLeads]]:
        """Packs whose plus leads meet, over fuses and switches, and diodes that let one charge the other."""
        run = self._wired.whole_runs
        for a, b in combinations(self.leads, 2):
            if a.board != b.board and run[a.plus.net_id] == run[b.plus.net_id] and self._charges(a, b):
                yield a, b

    def _charges(self, a: PackLeads, b: PackLeads) -> bool:
        """Whether current gets from the plus of one to that of the other: not where a diode of its own guards each."""
        runs, ways = self._one_way
        run_a, run_b = runs[a.plus.net_id], runs[b.plus.net_id]
        return run_b in reached(ways, run_a) or run_a in reached(ways, run_b)

    @cached_property
    def _one_way(self) -> tuple[dict[int, int], Ways]:
        """Net -> run with the diodes taken out, and the ways that the diodes leave."""
        runs = runs_of(self._craft, but="D")
        return runs, ways_through(diodes_in_line(self._craft), runs)


def _sum(a: Volts, b: Volts) -> Volts:
    named = a.named + b.named if a.named is not None and b.named is not None else None
    unsure = None if a.unsure_above is b.unsure_above is None else round(a.sure_high + b.sure_high, 3)
    return Volts(round(a.low + b.low, 3), round(a.high + b.high, 3), named, unsure)


def _span(a: Volts, b: Volts) -> Volts:
    unsure = None if a.unsure_above is b.unsure_above is None else max(a.sure_high, b.sure_high)
    return Volts(min(a.low, b.low), max(a.high, b.high), unsure_above=unsure)
