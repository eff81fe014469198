"""What all sheets of a craft are written from, worked out once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.analysis.power_ways import Joint, PowerWays
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.needs.live_leads import fuses, ground_first, live_leads, on_packs, packs_in_parallel, switches
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.step_list import StepFacts
from tabside.make.sheets.when.first_power import FirstPower, first_power
from tabside.make.sheets.when.late_joints import LateJoints, late_joints
from tabside.make.sheets.when.lead_joints import LeadJoint, joints_of
from tabside.make.sheets.when.volts_sheets import volts_sheets
from tabside.make.sheets.wires.bench_wires import BenchWires
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import ContactKey, Craft
from tabside.prove.measurement import At, Measurement
from tabside.words.parts import sheet_name
from tabside.words.signals import signal_words


class PackWork(Struct, frozen=True):
    """What to heed while packs' own leads are worked on."""

    live: Mapping[str, str]  # mark -> the pack whose own lead it is
    live_later: Mapping[str, tuple[str, ...]]  # mark -> leads of the same pack that are still bare at that time
    equal_first: Mapping[str, str]  # plus lead of a pack -> the pack whose volts it must have before it is joined to it
    places: frozenset[str]  # whose plug goes onto a pack's own leads
    fuses: tuple[str, ...]  # in-line fuses of the craft, taken out meanwhile
    switches: tuple[str, ...]  # in-line switches there, off meanwhile
    parallel: bool  # the plus leads of two packs meet


class SheetFacts(Struct, frozen=True):
    """What all sheets of a craft are written from."""

    craft: Craft
    views: Views
    rows: tuple[Measurement, ...]  # of the whole craft
    wires: BenchWires
    packs: PackWork
    made: Mapping[str, MadeLead]  # by mark
    volts_at: Mapping[str, str]  # id of a row in volts -> label of the sheet after which all of the pack's leads are on
    last_joints: Mapping[Joint, str]  # the last joint of a pack -> label of its sheet
    late: LateJoints  # others that are made on another sheet than their wire's
    done_before: Mapping[str, frozenset[str]]  # label of a sheet -> places whose joints were all made before it
    power: FirstPower  # where power comes onto the craft
    ways: PowerWays  # from packs to loads

    def step_facts(self, job: CableJob) -> StepFacts:
        ends = {(lead.mark, key[0]): key for lead in self.craft.leads for key in lead.ends}

        def signal(lead: str, key: ContactKey) -> str:
            """What the wire will carry there, in whichever cavity it sits now."""
            return signal_words(self.craft, ends.get((lead, key[0]), key))

        live = frozenset((*self.packs.live, *(joint.made.lead.mark for joint in self.last_of(job))))
        return StepFacts(self.wires.colours, signal, live)

    def last_of(self, job: CableJob) -> tuple[LeadJoint, ...]:
        """The joints that are made on this job's sheet when the pack has been measured."""
        return self._joints(self.last_joints, job)

    def late_of(self, job: CableJob) -> tuple[LeadJoint, ...]:
        """Joints of other sheets' wires that are made on this job's."""
        return self._joints(self.late.at, job)

    def joints_on(self, job: CableJob) -> set[Joint]:
        """All that are made on this job's sheet."""
        elsewhere = self.last_joints.keys() | self.late.at.keys()
        mine = {joint.at for made in job.leads for joint in joints_of(made)}
        guests = {joint.at for joint in (*self.last_of(job), *self.late_of(job))}
        return mine - elsewhere | guests

    def _joints(self, joints: Mapping[Joint, str], job: CableJob) -> tuple[LeadJoint, ...]:
        here = [key for key, label in joints.items() if label == job.label]
        return tuple(
            LeadJoint(self.made[mark], end) for mark, at in here for end in self.made[mark].ends if end.key[0] == at
        )

    def name_of(self, label: str) -> str:
        """As a page calls the sheet: "cable C1", "W14 W15"."""
        return sheet_name(label, next((cable.mark for cable in self.craft.cables if cable.mark == label), None))


def sheet_facts(
    ordered: Sequence[CableChoice],
    wires: BenchWires,
    rows: tuple[Measurement, ...],
    craft: Craft,
    *,
    whole: bool,
) -> SheetFacts:
    """`ordered`: in the order of work; `whole`: all of a craft is planned."""
    made = {made.lead.mark: made for choice in ordered for made in choice.job.leads}
    live = live_leads(craft, made.values())
    ways = PowerWays(craft, (made for choice in ordered for made in choice.job.leads if not choice.stopped))
    volts_at = volts_sheets(ordered, rows, live, craft, ways)
    last_joints = {
        (row.where.lead, row.where.termination): volts_at[row.id]
        for row in rows
        if row.where.at is At.BARE and row.where.lead and row.id in volts_at
    }
    late = late_joints(ordered, rows, live, last_joints, craft, whole=whole)
    elsewhere = {**last_joints, **late.at}
    return SheetFacts(
        craft=craft,
        views=Views(craft),
        rows=rows,
        wires=wires,
        packs=_pack_work(ordered, live, last_joints, craft),
        made=made,
        volts_at=volts_at,
        last_joints=last_joints,
        late=late,
        done_before=_done_before(ordered, elsewhere),
        power=first_power(ordered, live, elsewhere, last_joints, craft, ways),
        ways=ways,
    )


def _pack_work(
    ordered: Sequence[CableChoice], live: Mapping[str, str], last_joints: Mapping[Joint, str], craft: Craft
) -> PackWork:
    worked = [
        made.lead.mark
        for choice in ordered
        for made in ground_first(craft, (made for made in choice.job.leads if made.lead.mark in live))
    ]
    on = on_packs(craft, live)
    return PackWork(
        live=live,
        live_later={
            mark: tuple(other for other in worked[n + 1 :] if live[other] == live[mark])
            for n, mark in enumerate(worked)
        },
        equal_first=_equal_first(worked, live, last_joints, craft),
        places=on,
        fuses=fuses(craft, on),
        switches=switches(craft, on),
        parallel=packs_in_parallel(craft, live),
    )


def _done_before(ordered: Sequence[CableChoice], elsewhere: Mapping[Joint, str]) -> dict[str, frozenset[str]]:
    """`elsewhere`: joints that are made on another sheet than their wire's."""
    turn = {choice.job.label: n for n, choice in enumerate(ordered)}
    last: dict[str, int] = {}
    for n, choice in enumerate(ordered):
        for made in choice.job.leads:
            for joint in joints_of(made):
                label, (_, place) = elsewhere.get(joint.at), joint.at
                last[place] = max(last.get(place, 0), n if label is None else turn[label])
    return {label: frozenset(at for at, done in last.items() if done < n) for label, n in turn.items()}


def _equal_first(
    worked: Sequence[str], live: Mapping[str, str], last_joints: Mapping[Joint, str], craft: Craft
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
