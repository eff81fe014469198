"""A sheet that is made lead by lead, as its steps need it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead
from tabside.make.needs.live_leads import ground_first
from tabside.make.sheets.sheet_facts import PackWork, SheetFacts
from tabside.make.sheets.step_list import StepList
from tabside.make.sheets.when.late_joints import shared_place
from tabside.make.sheets.when.lead_joints import LeadJoint, joints_of
from tabside.make.sheets.when.moments import Moments
from tabside.make.sheets.wires.bench_wires import BenchWires
from tabside.make.solve.choice import CableChoice
from tabside.make.solve.handing_out import LeadSource
from tabside.make.solve.lead_methods import MADE_HERE, lead_method
from tabside.model.craft import Craft
from tabside.prove.measurement import Measurement, RowKind

# The end is named after the plug that it will meet, which may be live: hands work on the loose one that mates with it.
NOT_ON_THE_PART = "never on the part's own"


def mate_note(end: LeadEnd) -> str:
    return f", of the loose mating connector, {NOT_ON_THE_PART}" if end.kind is EndKind.MATE else ""


class LooseSheet(Struct, frozen=True):
    """What is made on it, what is measured when, and the steps as they are written."""

    facts: SheetFacts
    choice: CableChoice
    moments: Moments
    steps: StepList

    @property
    def craft(self) -> Craft:
        return self.facts.craft

    @property
    def packs(self) -> PackWork:
        return self.facts.packs

    @property
    def wires(self) -> BenchWires:
        return self.facts.wires

    @property
    def name(self) -> str:
        """As pages call the sheet."""
        return self.facts.name_of(self.choice.job.label)

    @property
    def made_here(self) -> list[MadeLead]:
        return [made for made in self.choice.job.leads if lead_method(made, self.source(made)) in MADE_HERE]

    @property
    def cold(self) -> list[MadeLead]:
        """Of these the ones that no pack has its volts on."""
        return [made for made in self.made_here if made.lead.mark not in self.packs.live]

    @property
    def hot(self) -> list[MadeLead]:
        """Packs' own wires, in the order of work."""
        return ground_first(self.craft, (made for made in self.made_here if made.lead.mark in self.packs.live))

    @property
    def last(self) -> tuple[LeadJoint, ...]:
        """Joints that are made on this sheet, once volts were measured."""
        return self.facts.last_of(self.choice.job)

    @property
    def late(self) -> tuple[LeadJoint, ...]:
        """Joints of other sheets' wires, made on this one."""
        return self.facts.late_of(self.choice.job)

    @property
    def looked_at(self) -> frozenset[str]:
        """Places at which a row is for the eye, on whichever sheet it stands."""
        return frozenset(row.where.termination for row in self.facts.rows if row.kind is RowKind.LOOK)

    def source(self, made: MadeLead) -> LeadSource | None:
        return self.choice.sources.get(made.lead.mark)

    def waits_for(self, joint: LeadJoint) -> str | None:
        """The sheet on which this joint is made, where it is another: a splice's last wire, or a pack's volts."""
        label = self.facts.last_joints.get(joint.at) or self.facts.late.at.get(joint.at)
        return None if label is None else self.facts.name_of(label)

    def waits(self, joint: LeadJoint) -> bool:
        return self.waits_for(joint) is not None

    def joints_now(self, made_here: Iterable[MadeLead]) -> list[LeadJoint]:
        """Those of leads of this sheet that wait for nothing."""
        joints = (joint for made in made_here for joint in joints_of(made))
        return [joint for joint in joints if not self.waits(joint)]

    def tube_is_elsewhere(self, joint: LeadJoint) -> bool:
        """Whether the tube of this joint is on another of its leads: one covers them all."""
        place = shared_place(joint.end)
        return place is not None and self.facts.late.tube.get(place, joint.mark) != joint.mark

    def gets_tape(self, joint: LeadJoint) -> bool:
        """Joints of a pack's own leads that no heat-shrink covers, or none yet."""
        return joint.mark in self.packs.live and (joint.end.kind is EndKind.PAD or self.tube_is_elsewhere(joint))

    def at_end(self, end: LeadEnd) -> str:
        """Where on a wire something is done."""
        return f" at the end for {self.steps.shown(end.key[0])} contact {end.key[1]}{mate_note(end)}"

    def test(self, rows: Sequence[Measurement], words: str, leads: Sequence[MadeLead] = ()) -> None:
        """Told at the first place of these leads, or of all that are made here."""
        if rows:
            self.steps.test((leads or self.made_here)[0].lead.a[0], words, rows)
