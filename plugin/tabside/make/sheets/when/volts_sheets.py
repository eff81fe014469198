"""On which sheet each measurement in volts stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from tabside.analysis.power_ways import PowerWays
from tabside.make.needs.live_leads import meets_pack, nets_through_parts
from tabside.make.sheets.when.moments import is_of, is_volts
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import Craft
from tabside.model.groups import Groups
from tabside.prove.measurement import At, Measurement, probed


def volts_sheets(
    ordered: Sequence[CableChoice],
    rows: Iterable[Measurement],
    live: Mapping[str, str],
    craft: Craft,
    ways: PowerWays,
) -> dict[str, str]:
    """Id of each row in volts -> label of its sheet; `ordered`: in the order of work."""
    sheets = _VoltsSheets(ordered, live, craft, ways)
    found = {row.id: sheets.of(row) for row in filter(is_volts, rows)}
    return {id: choice.job.label for id, choice in found.items() if choice is not None}


class _VoltsSheets:
    """Volts of a pack can be measured when the last of its own leads is on; others where their cable is made."""

    def __init__(self, ordered: Sequence[CableChoice], live: Mapping[str, str], craft: Craft, ways: PowerWays) -> None:
        self._ordered, self._live, self._craft, self._ways = ordered, live, craft, ways
        self._first_of = _first_of_each(ordered, live, craft)
        self._last_of = _last_of_each(ordered, live, craft)

    def of(self, row: Measurement) -> CableChoice | None:
        """None: at the pack's own plug, when what goes onto it is made and the pack may come near."""
        if (bare := self._at_bare_ends(row)) is not None:
            return bare
        if row.where.lead is not None and row.where.lead in self._live:
            return self._last_of[self._live[row.where.lead]]
        home = self._home(row)
        packs = [self._live[made.lead.mark] for made in home.job.leads if made.lead.mark in self._live] if home else []
        on_its_own = home is not None and meets_pack(self._craft, home.job) and not packs  # a part's plug as it is
        if home is not None and on_its_own and home.job.new:
            return None
        if ready := self._ready(row):  # with the last lead of those whose volts come there
            return max(ready, key=self._ordered.index)
        if packs:
            return self._last_of[packs[0]]
        if on_its_own or not self._last_of:
            return home
        return max(self._last_of.values(), key=self._ordered.index)

    def _at_bare_ends(self, row: Measurement) -> CableChoice | None:
        """Of a pack without a plug, before one of its leads is joined."""
        first = self._first_of.get(row.where.board) if not row.leads and row.where.at is At.CONTACT else None
        if first is None or self._craft.terminations[row.where.termination].family is not None:
            return None
        return first

    def _home(self, row: Measurement) -> CableChoice | None:
        """The sheet of its cable; of a pack's own plug by itself, that of the cable that mates with it."""
        home = next((choice for choice in self._ordered if is_of(row, choice.job)), None)
        if home is not None:
            return home
        return next((choice for choice in self._ordered if row.where.termination in choice.job.terminations), None)

    def _ready(self, row: Measurement) -> list[CableChoice]:
        """Where the packs whose volts come to the row's wire are on."""
        minus = [key for end in row.joined for key in probed(end, self._craft)]
        come = self._ways.gates_to(row.where.lead, self._ways.all_joints, minus) if row.where.lead else {}
        return [self._last_of[pack] for pack in come if pack in self._last_of]


def _first_of_each(ordered: Sequence[CableChoice], live: Mapping[str, str], craft: Craft) -> dict[str, CableChoice]:
    """Each pack -> the first sheet on which a wire of it is worked on."""
    found: dict[str, CableChoice] = {}
    for choice in ordered:
        for made in choice.job.leads:
            owners = {craft.terminations[ref].board for ref, _ in made.lead.ends} if made.lead.mark in live else set()
            for pack in owners & set(live.values()):
                found.setdefault(pack, choice)
    return found


def _last_of_each(ordered: Sequence[CableChoice], live: Mapping[str, str], craft: Craft) -> dict[str, CableChoice]:
    """Each pack -> the last sheet on which a wire of it, or of one that is in series with it, comes on."""
    chains: Groups[str] = Groups()
    nets: dict[str, tuple[set[int], set[int]]] = {pack: (set(), set()) for pack in live.values()}
    through = nets_through_parts(craft)
    for there in craft.terminations.values():
        for contact in there.contacts if there.board in nets else ():
            nets[there.board][contact.role.is_ground].add(through.root(contact.net_id))
    for pack, (plus, _) in nets.items():
        for other, (_, minus) in nets.items():
            if pack != other and plus & minus:
                chains.join(pack, to=other)
    found = {
        chains.root(live[made.lead.mark]): choice
        for choice in ordered
        for made in choice.job.leads
        if made.lead.mark in live
    }
    return {pack: found[chains.root(pack)] for pack in nets}
