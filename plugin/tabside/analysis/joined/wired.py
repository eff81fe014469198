"""What leads, boards and parts join: runs, rails, joints, links.  Nothing is judged here."""

from __future__ import annotations

from functools import cached_property

from tabside.analysis.joined.joints import Joint, joints_of, members_of, passes, runs_of
from tabside.analysis.joined.lead_amps import Wires
from tabside.analysis.joined.lead_ends import MadeLead, how_leads_are_made
from tabside.analysis.joined.rails import rails_of
from tabside.model.craft import Contact, ContactKey, Craft, Lead, Termination

Link = tuple[str, str]  # references of two terminations, in natural order


class Wired:
    """A craft with what its leads, boards and parts join; changes nothing in the craft."""

    def __init__(self, craft: Craft) -> None:
        self.craft = craft

    @cached_property
    def made_leads(self) -> tuple[MadeLead, ...]:
        """How each lead's ends are made, in mark order."""
        return how_leads_are_made(self.craft)

    @cached_property
    def wires(self) -> Wires:
        """The leads as conductors."""
        return Wires(self.craft, self.made_leads)

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        return joints_of(self.craft)

    @cached_property
    def links(self) -> dict[Link, list[Joint]]:
        """Joints by the pair of terminations that they join; joints within one termination are in none."""
        found: dict[Link, list[Joint]] = {}
        for joint in self.joints:
            if joint.a.termination != joint.b.termination:
                found.setdefault(joint.link, []).append(joint)
        return found

    @cached_property
    def by_termination(self) -> dict[str, list[Joint]]:
        found: dict[str, list[Joint]] = {}
        for joint in self.joints:
            for reference in dict.fromkeys(joint.link):
                found.setdefault(reference, []).append(joint)
        return found

    @cached_property
    def leads_at(self) -> dict[ContactKey, list[Lead]]:
        found: dict[ContactKey, list[Lead]] = {}
        for lead in self.craft.leads:
            for key in lead.ends:
                found.setdefault(key, []).append(lead)
        return found

    @cached_property
    def joined(self) -> frozenset[ContactKey]:
        """Contacts that a lead meets, or would meet on a net that has more leads than its contacts take."""
        crowded = {key for crowding in self.craft.crowded for island in crowding.islands for key in island}
        crowded |= {key for crowding in self.craft.crowded for key in crowding.contacts}
        return frozenset(crowded | {key for lead in self.craft.leads for key in lead.ends})

    @cached_property
    def unread_nets(self) -> frozenset[int]:
        """Nets on which a part stands that Tabside has no word for: something may be connected there."""
        return frozenset(pin.net_id for part in self.craft.parts if part.unread for pin in part.pins)

    @cached_property
    def solid_runs(self) -> dict[int, int]:
        """Runs over every in-line part but resistors, which let a pull-up or a divider meet a signal."""
        return runs_of(self.craft, but="R")

    @cached_property
    def solid_members(self) -> dict[int, list[Contact]]:
        return members_of(self.craft, self.solid_runs)

    def on_solid_run(self, net: int) -> list[Contact]:
        """The contacts of boards on a net's run; none where nothing of the craft is on it."""
        return self.solid_members.get(self.solid_runs.get(net, -1), [])

    @cached_property
    def whole_runs(self) -> dict[int, int]:
        """Runs over every in-line part."""
        return runs_of(self.craft)

    @cached_property
    def whole_members(self) -> dict[int, list[Contact]]:
        return members_of(self.craft, self.whole_runs)

    def on_whole_run(self, net: int) -> list[Contact]:
        """The same over every in-line part."""
        return self.whole_members.get(self.whole_runs.get(net, -1), [])

    @cached_property
    def whole_rails(self) -> dict[int, int]:
        """Run of `whole_runs` -> the rail that it is of."""
        return rails_of(self.craft, self.whole_runs)

    def rail_of(self, contact: Contact) -> int:
        return self.whole_rails[self.whole_runs[contact.net_id]]

    @cached_property
    def contacts_of_rails(self) -> list[list[Contact]]:
        """By rail, over splices, fuses, switches and coils, and inside boards; a diode and a changeover part two."""
        runs = runs_of(self.craft, but="D", changeovers=False)
        rails = rails_of(self.craft, runs)
        found: dict[int, list[Contact]] = {}
        for run, contacts in members_of(self.craft, runs).items():
            found.setdefault(rails[run], []).extend(contacts)
        return list(found.values())

    @cached_property
    def ends(self) -> list[Termination]:
        """Terminations of boards and parts; splices and in-line parts are none."""
        return [
            termination
            for termination in self.craft.terminations.values()
            if not passes(self.craft, termination.reference)
        ]

    @cached_property
    def terminations_of_board(self) -> dict[str, list[Termination]]:
        """Boards and parts with their terminations; splices and in-line parts are none."""
        found: dict[str, list[Termination]] = {}
        for termination in self.craft.terminations.values():
            if not passes(self.craft, termination.reference):
                found.setdefault(termination.board, []).append(termination)
        return found
