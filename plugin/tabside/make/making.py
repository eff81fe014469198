"""The plan of a whole craft: a sheet for each cable, what to buy and cut, time, money and mass."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping, Sequence

from msgspec.structs import fields, replace

from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.analysis.power_ways import PowerWays
from tabside.facts import families
from tabside.make.buy.cuts import NEW_WIRE, CutPiece, in_cutting_order
from tabside.make.buy.shopping import shopping
from tabside.make.buy.stock_cuts import stock_cuts
from tabside.make.buy.stock_use import FromStock
from tabside.make.method import Method
from tabside.make.needs.allowances import allowance_mm
from tabside.make.needs.cable_jobs import soldered
from tabside.make.needs.crimping import cut_length_words, strip_text
from tabside.make.needs.live_leads import (
    fuses,
    ground_first,
    live_leads,
    meets_pack,
    on_packs,
    packs_in_parallel,
    switches,
)
from tabside.make.needs.mass import harness_mass
from tabside.make.needs.working_order import in_working_order
from tabside.make.options.activities import BuyTails, BuyWhole, CutLead
from tabside.make.options.work import Work
from tabside.make.sheets.cable_plan import Action, ByHand, CablePlan, CraftPlan, StockCut
from tabside.make.sheets.loose_sheets import crimped_ends, own_brief, source_words
from tabside.make.sheets.part_steps import part_steps
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.sheet import SheetFacts, sheet
from tabside.make.sheets.slack import slack_findings
from tabside.make.sheets.twins import with_twins
from tabside.make.sheets.when.first_power import first_power
from tabside.make.sheets.when.late_joints import late_joints
from tabside.make.sheets.when.moments import is_of, is_volts
from tabside.make.sheets.when.pack_volts import probed
from tabside.make.sheets.when.tested_elsewhere import with_pointers
from tabside.make.solve.cable_costs import cable_costs
from tabside.make.solve.choice import CableChoice, CraftChoice
from tabside.make.solve.choosing import choose
from tabside.make.solve.handing_out import LeadSource
from tabside.model.craft import Craft
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass
from tabside.model.stock import Costs, Cutting
from tabside.prove.measurement import At, Measurement
from tabside.words.contacts import termination_name
from tabside.words.lengths import tenths_up
from tabside.words.signals import own_lead_words


def make_plan(
    craft: Craft,
    leads: tuple[MadeLead, ...],
    proofs: Iterable[Measurement],
    finders: Mapping[str, Collection[str]] | None = None,
) -> CraftPlan:
    """How everything is made; `leads` with their ends, `proofs` are the measurements of the craft's continuity sheet.

    `finders`: ids of the rows that find a mistake at a lead, by its mark; None: `proofs` are not all of the craft's.

    Raises: TabsideError when the solver finds no plan in its time.
    """
    choices = choose(craft, leads)
    cut_from, colours = stock_cuts(craft, choices), _colours(craft, choices)
    costs, taken = cable_costs(choices, craft), _taken(craft, choices)
    ordered = _in_working_order(choices, craft)
    facts = _sheet_facts(ordered, choices, craft, tuple(proofs), cut_from, colours, whole=finders is not None)
    sheets = [_rounded(sheet(choice, facts), costs[choice.job.label]) for choice in ordered]
    cables = tuple(with_twins(sheets))
    if finders is not None:
        cables = tuple(with_pointers(cables, craft, facts.live, finders))
    crimps = sum(step.action is Action.CRIMP for cable in cables for step in cable.steps)
    chosen = sum(len(crimped) for cable in choices.cables for crimped in _crimped(cable))  # the others leave no choice
    parts = part_steps(craft)
    by_hand = _by_hand(leads, craft.settings.costs, craft.settings.cutting)
    return CraftPlan(
        cables=cables,
        purchases=shopping(craft, choices, leads),
        cuts=_cuts(leads, taken, cut_from, choices, colours, craft.settings.cutting),
        stock_cuts=cut_from,
        minutes=sum(cable.minutes for cable in cables) + sum(part.minutes for part in parts),
        cost=_money(choices),
        crimps=crimps,
        by_hand=replace(
            by_hand,
            crimps=by_hand.crimps + crimps - chosen,
            minutes=by_hand.minutes + sum(part.minutes for part in parts),
        ),
        mass=harness_mass(leads, _od_mm(craft, choices)),
        optimal=choices.solved.optimal,
        bound_words=_bound_words(choices),
        assumptions=_assumptions(craft, choices, cables),
        taken=taken,
        colours=colours,
        findings=slack_findings(craft, choices),
        parts=parts,
    )


def _in_working_order(choices: CraftChoice, craft: Craft) -> list[CableChoice]:
    by_label = {choice.job.label: choice for choice in choices.cables}
    return [by_label[job.label] for job in in_working_order(craft, (choice.job for choice in choices.cables))]


def _sheet_facts(
    ordered: Sequence[CableChoice],
    choices: CraftChoice,
    craft: Craft,
    rows: tuple[Measurement, ...],
    cuts: Iterable[StockCut],
    colours: Mapping[str, str | None],
    *,
    whole: bool,
) -> SheetFacts:
    live = live_leads(craft, (made for choice in ordered for made in choice.job.leads))
    worked = [
        made.lead.mark
        for choice in ordered
        for made in ground_first(craft, (made for made in choice.job.leads if made.lead.mark in live))
    ]
    later = {
        mark: tuple(other for other in worked[n + 1 :] if live[other] == live[mark]) for n, mark in enumerate(worked)
    }
    ways = PowerWays(craft, (made for choice in ordered for made in choice.job.leads if not choice.stopped))
    volts_at = _volts_at(ordered, rows, live, craft, ways)
    last_joints = {
        (row.where.lead, row.where.termination): volts_at[row.id]
        for row in rows
        if row.where.at is At.BARE and row.where.lead and row.id in volts_at
    }
    on = on_packs(craft, live)
    late = late_joints(ordered, rows, live, last_joints, craft, whole=whole)
    power = first_power(ordered, live, {**last_joints, **late.at}, last_joints, craft, ways)
    return SheetFacts(
        craft=craft,
        views=Views(craft),
        rows=rows,
        cut_briefs=_cut_briefs(craft, choices, cuts),
        colours=colours,
        usual_colours=_usual_colours(craft, choices),
        live=live,
        live_later=later,
        tubes=late.tube,
        volts_at=volts_at,
        equal_first=_equal_first(worked, live, last_joints, craft),
        made={made.lead.mark: made for choice in ordered for made in choice.job.leads},
        last_joints=last_joints,
        late_joints=late.at,
        alone=late.alone,
        rows_at=late.rows,
        done_before=_done_before(ordered, {**last_joints, **late.at}),
        powered=power.powered,
        powers=power.joints,
        ways=ways,
        joined=power.joined,
        on_packs=on,
        own_mm={
            made.lead.mark: choices.cut_mm[made.lead.mark]
            for choice in ordered
            for made in choice.job.leads
            if made.wire_from is WireFrom.CAPTIVE
        },
        fuses=fuses(craft, on),
        switches=switches(craft, on),
        parallel=packs_in_parallel(craft, live),
    )


def _done_before(ordered: Sequence[CableChoice], elsewhere: Mapping[tuple[str, str], str]) -> dict[str, frozenset[str]]:
    """`elsewhere`: joints that are made on another sheet than their wire's."""
    turn = {choice.job.label: n for n, choice in enumerate(ordered)}
    last: dict[str, int] = {}
    for n, choice in enumerate(ordered):
        for made in choice.job.leads:
            for end in filter(soldered, made.ends):
                label = elsewhere.get((made.lead.mark, end.key[0]))
                last[end.key[0]] = max(last.get(end.key[0], 0), n if label is None else turn[label])
    return {label: frozenset(at for at, done in last.items() if done < n) for label, n in turn.items()}


def _equal_first(
    worked: Sequence[str], live: Mapping[str, str], last_joints: Mapping[tuple[str, str], str], craft: Craft
) -> dict[str, str]:
    """Plus lead of a pack -> another pack whose plus is there already, where no row measures the two before."""
    by_mark = {lead.mark: lead for lead in craft.leads}
    first: dict[int, str] = {}
    found: dict[str, str] = {}
    for lead in (by_mark[mark] for mark in worked):
        if any(craft.contact(key).role.is_ground for key in lead.ends):
            continue
        other = first.setdefault(lead.net_id, live[lead.mark])
        if other != live[lead.mark] and not any(mark == lead.mark for mark, _ in last_joints):
            found[lead.mark] = other
    return found


def _volts_at(
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
    for there in craft.terminations.values():
        for contact in there.contacts if there.board in nets else ():
            nets[there.board][contact.role.is_ground].add(contact.net_id)
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


def _colours(craft: Craft, choices: CraftChoice) -> dict[str, str | None]:
    """Of each lead as it will lie on the bench: as drawn, else that of the stock it is made of, else the usual one."""
    colours = {lead.mark: lead.colour for lead in craft.leads}
    usual = {lead.mark: lead.usual_colour for lead in craft.leads}
    for mark, source in choices.sources():
        entry = source.entry(craft.settings)
        if colours[mark] is None:
            colours[mark] = usual[mark] if entry is None else entry.colour
    return colours


def _usual_colours(craft: Craft, choices: CraftChoice) -> dict[str, str]:
    """Of leads whose colour is chosen here."""
    bought = {mark for mark, source in choices.sources() if source.entry(craft.settings) is None}
    return {lead.mark: lead.usual_colour for lead in craft.leads if lead.usual_colour and lead.mark in bought}


def _od_mm(craft: Craft, choices: CraftChoice) -> dict[str, float]:
    """Diameter over insulation of leads whose wire comes from an entry of the stock that says it."""
    entries = {mark: source.entry(craft.settings) for mark, source in choices.sources()}
    return {mark: entry.od_mm for mark, entry in entries.items() if entry is not None and entry.od_mm is not None}


def _cut_briefs(craft: Craft, choices: CraftChoice, cuts: Iterable[StockCut]) -> dict[str, tuple[str, str]]:
    """How each lead is cut, and which others the same piece gives."""
    together = {mark: cut for cut in cuts for mark, _ in cut.pieces if len(cut.pieces) > 1}
    briefs = {
        made.lead.mark: (_own_brief(craft, made, choices.cut_mm[made.lead.mark]), "")
        for choice in choices.cables
        for made in choice.job.leads
        if made.wire_from is not WireFrom.NEW
    }
    for choice in choices.cables:
        for mark, source in choice.sources.items():
            length = tenths_up(choices.cut_mm[mark])
            if length is not None and mark not in together:
                length = math.ceil(length)  # by the ruler; where a piece gives several, their sum counts
            to = "length not known: lay a string along its path;" if length is None else f"cut {length:g} mm"
            others = [name for name, _ in together[mark].pieces if name != mark] if mark in together else []
            same = f"; the same piece gives {', '.join(others)}" if others else ""
            cut_it = "" if length is not None else " cut it"
            kept = source.ready_family if length is not None else None
            start = f", measured from the {families.family(kept).title} contact that stays on" if kept else ""
            briefs[mark] = (f"{to}{cut_it} from {source_words(source, craft)}{start}", same)
    return briefs


def _own_brief(craft: Craft, made: MadeLead, cut_mm: float | None) -> str:
    """How a part's own lead is cut, and the plug at its end."""
    own = next((end.key for end in made.ends if end.kind is EndKind.OWN), None)
    if own is None:
        return own_brief(cut_mm, None, "the part's own lead")
    which = own_lead_words(craft, own)
    if craft.contact(own).role.cls is RoleClass.PHASE and made.lead.colour is None:
        which = f"any lead of {termination_name(craft, own[0])} that has no label yet"  # a motor's run alike
    return own_brief(cut_mm, craft.terminations[own[0]].family, which)


def _crimped(choice: CableChoice) -> list[tuple[str, ...]]:
    """Families of the contacts that each lead gets here."""
    if choice.ready is not None:
        return []
    return [
        tuple(end.family or "" for end in crimped_ends(made, choice.sources.get(made.lead.mark)))
        for made in choice.job.new
    ]


def _rounded(cable: CablePlan, cost: float) -> CablePlan:
    return replace(cable, cost=round(cost, 4), minutes=round(cable.minutes, 2))


def _money(choices: CraftChoice) -> float:
    ready = sum(choice.work.money for choice in choices.cables if choice.ready is not None)
    return round(ready + sum(choices.work[deed].money * count for deed, count in choices.solved.times.items()), 4)


def _taken(craft: Craft, choices: CraftChoice) -> dict[str, FromStock]:
    """What leads come from that are not cut from new wire: ready-made cables, pre-crimped leads, tails of these."""
    taken: dict[str, FromStock] = {}
    for choice in choices.cables:
        if choice.ready is not None:
            n = choice.ready.stock
            cable = None if n is None else craft.settings.stock_cables[n]
            text = "ready-made straight cable, bought" if cable is None else f"{cable.name}, from stock"
            for made in choice.job.leads:
                taken[made.lead.mark] = FromStock(
                    text, None if cable is None else cable.length_mm, cut=False, cable=cable
                )
        for mark, source in choice.sources.items():
            text = source_words(source, craft)
            if source.is_whole:
                taken[mark] = FromStock(text, None, cut=False)
            elif source.piece is not None and isinstance(source.piece.cut, CutLead):
                taken[mark] = FromStock(text, craft.settings.stock_leads[source.piece.cut.entry].length_mm, cut=True)
            elif source.piece is not None and isinstance(source.piece.cut, BuyTails):
                taken[mark] = FromStock(text, None, cut=True)
    return taken


def _cuts(
    leads: tuple[MadeLead, ...],
    taken: Mapping[str, FromStock],
    cut_from: Iterable[StockCut],
    choices: CraftChoice,
    colours: Mapping[str, str | None],
    cutting: Cutting,
) -> tuple[CutPiece, ...]:
    """Pieces to cut: of leads that come neither with a ready-made cable nor as whole pre-crimped ones.

    What is left of a piece stands with the last lead that is cut from it.
    """
    left = {cut.pieces[-1][0]: cut.offcut_mm for cut in cut_from}
    words = {mark: cut.item for cut in cut_from for mark, _ in cut.pieces}
    pieces = []
    sources = dict(choices.sources())
    not_made = {made.lead.mark for choice in choices.cables if choice.stopped for made in choice.job.leads}
    for made in leads:  # in mark order
        mark = made.lead.mark
        from_stock = taken.get(mark)
        if made.wire_from is WireFrom.NEW and mark not in not_made and (from_stock is None or from_stock.cut):
            strips = _strips(made, sources.get(mark), cutting)
            pieces.append(
                CutPiece(
                    lead=mark,
                    gauge_awg=made.lead.gauge_awg,
                    colour=colours[mark],
                    cut_length_mm=choices.cut_mm[mark],
                    allowance_mm=choices.allowance_mm[mark],
                    strip_from=strips[0],
                    strip_to=strips[1],
                    taken_from=from_stock.text if from_stock is not None else words.get(mark, NEW_WIRE),
                    offcut_mm=left.get(mark, 0.0) if mark in words else None,
                )
            )
    return in_cutting_order(pieces)


def _strips(made: MadeLead, source: LeadSource | None, cutting: Cutting) -> tuple[str, str]:
    """How far to strip each end, in mm; an end that has its contact already is not stripped."""
    crimped = crimped_ends(made, source)
    first, second = (
        "none"
        if end.kind is EndKind.SLOT or (end.kind is EndKind.CONTACT and end not in crimped)
        else strip_text(end, made.lead.gauge_awg, cutting)
        for end in made.ends
    )
    return first, second


def _all_here_mm(made: MadeLead, cutting: Cutting) -> float:
    """Length to cut when both ends are made here; 0 when the lead's is not known."""
    return 0.0 if made.lead.length_mm is None else made.lead.length_mm + allowance_mm(made, None, cutting)


def _by_hand(leads: Iterable[MadeLead], costs: Costs, cutting: Cutting) -> ByHand:
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


def _bound_words(choices: CraftChoice) -> str:
    found = choices.solved
    if found.optimal:
        return "the cheapest plan in money, minutes and risk together (solved exactly)"
    return (
        f"the solver had to stop: this choice weighs {found.cost:.2f}, none can weigh less than {found.bound:.2f}; "
        "raise costs.solve_seconds in the craft file for more"
    )


def _shown(value: object) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else f"{value:g}"


def _assumptions(craft: Craft, choices: CraftChoice, cables: Iterable[CablePlan]) -> tuple[str, ...]:
    said = []
    if _usual_colours(craft, choices):
        said.append("Colours that neither drawing nor stock says are common practice: identify no wire by its colour.")
    if any(choice.ready is not None and choice.ready.stock is None for choice in choices.cables):
        said.append(
            "Assumed to be available to buy (no source): ready-made straight cables with the same plug at both ends."
        )
    if any(isinstance(deed, BuyWhole | BuyTails) for deed in choices.bought):
        said.append("Assumed to be available to buy (no source): pre-crimped leads with the same contact at both ends.")
    changed = [cost.name for cost in fields(Costs) if getattr(craft.settings.costs, cost.name) != cost.default]
    said.append(
        "Minutes, prices and risk of the craft file's [costs] are common practice, no source"
        + (f", but for those it states: {', '.join(changed)}." if changed else "; state your own there.")
    )
    weights = ", ".join(f"{cost.name} {_shown(getattr(craft.settings.costs, cost.name))}" for cost in fields(Costs))
    said.append(f"Chosen by: {weights}.")
    cutting = craft.settings.cutting
    said.append(
        f"{cut_length_words(cutting)} The service loop of {craft.settings.service_loop_mm:g} mm is included only in "
        "lengths worked out from positions."
    )
    if any(cable.method in (Method.CRIMP,) for cable in cables):
        costs = craft.settings.costs
        said.append(
            f"Spares for spoiled crimps: {costs.spoil_1_0:g} contacts bought per good crimp up to 1.0 mm pitch, "
            f"{costs.spoil_1_25:g} up to 1.25 mm, {costs.spoil:g} above (common practice, no source)."
        )
    return tuple(said)
