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
    """Volts of a pack can be measured when the last of its own leads is on; others where their cable is made."""
    last_of = _last_of_each(ordered, live, craft)
    first_of: dict[str, CableChoice] = {}
    for choice in ordered:
        for made in choice.job.leads:
            owners = {craft.terminations[ref].board for ref, _ in made.lead.ends} if made.lead.mark in live else set()
            for pack in owners & set(live.values()):
                first_of.setdefault(pack, choice)
    sheets = {}
    for row in filter(is_volts, rows):
        bare = first_of.get(row.where.board) if not row.leads and row.where.at is At.CONTACT else None
        if bare is not None and craft.terminations[row.where.termination].family is None:
            sheets[row.id] = bare.job.label  # at its bare ends, before one of them is joined
            continue
        if row.where.lead is not None and row.where.lead in live:
            sheets[row.id] = last_of[live[row.where.lead]].job.label
            continue
        home = next((choice for choice in ordered if is_of(row, choice.job)), None)
        if home is None:  # a pack's own plug by itself: with the cable that mates with it
            home = next((choice for choice in ordered if row.where.termination in choice.job.terminations), None)
        packs = [live[made.lead.mark] for made in home.job.leads if made.lead.mark in live] if home else []
        on_its_own = home is not None and meets_pack(craft, home.job) and not packs  # a part's plug as it is
        if home is not None and on_its_own and home.job.new:
            continue  # at the pack's own plug, when what goes onto it is made and the pack may come near
        minus = [key for end in row.joined for key in probed(end, craft)]
        come = ways.gates_to(row.where.lead, ways.all_joints, minus) if row.where.lead else {}
        ready = [last_of[pack] for pack in come if pack in last_of]
        at: CableChoice | None = None
        if ready:  # with the last lead of those whose volts come there
            at = max(ready, key=ordered.index)
        elif packs:
            at = last_of[packs[0]]
        elif on_its_own or not last_of:
            at = home
        else:
            at = max(last_of.values(), key=ordered.index)
        if at is not None:
            sheets[row.id] = at.job.label
    return sheets


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
