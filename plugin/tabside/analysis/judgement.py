"""Every joint of a craft judged once: what the single checks look at."""

from __future__ import annotations

from functools import cached_property

from msgspec.structs import replace

from tabside.analysis.causes.end_causes import explain_ends
from tabside.analysis.causes.hidden_clashes import hidden_clashes
from tabside.analysis.causes.link_causes import Explained, Link, explain
from tabside.analysis.causes.paired_outputs import paired_outputs
from tabside.analysis.causes.text_clashes import text_clashes
from tabside.analysis.current.flow import Flows
from tabside.analysis.current.lead_amps import Wires
from tabside.analysis.joints import Joint, joints_of, letters_of, members_of, passes, runs_of
from tabside.analysis.lead_ends import MadeLead, how_leads_are_made
from tabside.analysis.meeting.agreement import DATA_LINES, Agreement, Cause, Outcome, agree
from tabside.analysis.meeting.on_purpose import meant_pairs, shunts_of
from tabside.analysis.meeting.outcome import agreed, not_judged
from tabside.analysis.meeting.resistors import PAIRS, is_terminator, read_ohm
from tabside.analysis.packs import Packs
from tabside.analysis.rail_names import NameClash, name_clashes, rail_names_of
from tabside.analysis.rails import rails_of
from tabside.analysis.signatures import Signature, by_signature, signature
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Lead, Termination
from tabside.model.roles import RoleClass, Volts
from tabside.wiring.terminations.part_kinds import FUSES

_HARD = ("SW", "S", "JP", "NT")  # nothing limits the current through them
LOGIC_V = 5.5  # rails up to this feed logic; common practice, no source


class Judgement:
    """A craft with the outcome of every joint.  Built once per run of the checks; changes nothing in the craft."""

    def __init__(self, craft: Craft) -> None:
        self.craft = craft
        self._known: dict[tuple[Signature, Signature, Volts | None], Agreement] = {}

    def agree(self, a: Contact, b: Contact) -> Agreement:
        """`agree` of the two contacts as they are wired, remembered: large nets repeat the same few contacts."""
        if self._meant and (meant := self._meant.get(frozenset((a.key, b.key)))) is not None:
            return agreed(meant)
        a, b = self.packs.as_wired(a), self.packs.as_wired(b)
        pack = self._pack_at(a, b)
        key = (signature(a), signature(b), pack)
        if key not in self._known:
            self._known[key] = self._known[key[1], key[0], pack] = agree(a, b, pack)
        return self._known[key]

    @cached_property
    def packs(self) -> Packs:
        """The packs, and what the runs that they feed reach."""
        return Packs(self)

    @cached_property
    def _meant(self) -> dict[frozenset[ContactKey], str]:
        return meant_pairs(self)

    def is_meant(self, joint: Joint) -> bool:
        """Whether its two contacts meet on purpose: a motor on its bridge, packs in series, a strap, a shunt."""
        return frozenset((joint.a.key, joint.b.key)) in self._meant

    @cached_property
    def meant_contacts(self) -> frozenset[ContactKey]:
        """Contacts that meet something on purpose that would clash elsewhere."""
        return frozenset(key for pair in self._meant for key in pair)

    @cached_property
    def shunts(self) -> tuple[tuple[Contact, Contact], ...]:
        """Plus and minus of shunts on the high side: the rail runs on through them."""
        return tuple(shunts_of(self))

    def _pack_at(self, a: Contact, b: Contact) -> Volts | None:
        """What the battery reaches where these two meet: the packs that feed them, else the craft file's."""
        if not (a.role.is_supply and b.role.is_supply):
            return None
        if any(self.rail_of(contact) in self.packs.unsaid for contact in (a, b) if contact.net_id in self.whole_runs):
            return None
        return self.packs.reach_of(a) or self.packs.reach_of(b) or self.pack

    @cached_property
    def pack(self) -> Volts | None:
        """What the battery can reach: the craft file says it, or the packs of the drawing agree on it."""
        if self.craft.settings.battery is not None:
            return self.craft.settings.battery
        stated = {
            rail.volts
            for termination in self.craft.terminations.values()
            for contact in termination.contacts
            for rail in contact.gives
            if rail.battery and rail.volts is not None
        }
        stated |= {pack.volts for pack in self.packs.leads if pack.volts is not None}
        return stated.pop() if len(stated) == 1 else None

    @cached_property
    def made_leads(self) -> tuple[MadeLead, ...]:
        """How each lead's ends are made, in mark order."""
        return how_leads_are_made(self.craft)

    @cached_property
    def flows(self) -> Flows:
        """The currents that the drawing decides."""
        return Flows(self)

    @cached_property
    def wires(self) -> Wires:
        """The leads as conductors."""
        return Wires(self.craft, self.made_leads)

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        return joints_of(self.craft)

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
    def solid_runs(self) -> dict[int, int]:
        """Runs over every in-line part but resistors, which let a pull-up or a divider meet a signal."""
        return runs_of(self.craft, but="R")

    @cached_property
    def solid_members(self) -> dict[int, list[Contact]]:
        return members_of(self.craft, self.solid_runs)

    @cached_property
    def whole_runs(self) -> dict[int, int]:
        """Runs over every in-line part."""
        return runs_of(self.craft)

    @cached_property
    def whole_members(self) -> dict[int, list[Contact]]:
        return members_of(self.craft, self.whole_runs)

    @cached_property
    def whole_rails(self) -> dict[int, int]:
        """Run of `whole_runs` -> the rail that it is of."""
        return rails_of(self.craft, self.whole_runs)

    @cached_property
    def contacts_of_rails(self) -> list[list[Contact]]:
        """By rail, over splices, fuses, switches and coils, and inside boards; a diode and a changeover part two."""
        runs = runs_of(self.craft, but="D", changeovers=False)
        rails = rails_of(self.craft, runs)
        found: dict[int, list[Contact]] = {}
        for run, contacts in members_of(self.craft, runs).items():
            found.setdefault(rails[run], []).extend(contacts)
        return list(found.values())

    def rail_of(self, contact: Contact) -> int:
        return self.whole_rails[self.whole_runs[contact.net_id]]

    @cached_property
    def _kinds_on_whole_run(self) -> dict[int, dict[Signature, list[Contact]]]:
        return {run: by_signature(contacts) for run, contacts in self.whole_members.items()}

    @cached_property
    def outcomes(self) -> dict[Joint, Agreement]:
        """Every joint with its outcome; a listener among listeners agrees when something on the net drives it."""
        found = {joint: self._of_joint(joint) for joint in self.joints}
        return found | text_clashes(self, found) | paired_outputs(self, found)

    @cached_property
    def rail_names(self) -> dict[int, tuple[Contact, ...]]:
        """Net -> the rails that power symbols and labels write on it."""
        return rail_names_of(self.craft)

    @cached_property
    def name_clashes(self) -> tuple[NameClash, ...]:
        """Rails' names that do not suit what their net joins."""
        return tuple(name_clashes(self))

    def _of_joint(self, joint: Joint) -> Agreement:
        found = self.agree(joint.a, joint.b)
        if found.nobody_drives:
            found = self.driven(joint.a, found, {joint.a.key, joint.b.key})
        if found.cause is Cause.LINES and self._is_terminated(joint):
            return agreed("a terminator between the lines of a pair")
        if found.cause is Cause.CLASSES and self._is_load(joint):
            return agreed("a resistor stands between: it takes what the supply gives")
        return self._through_parts(joint, found) if found.cause is Cause.CLASSES else found

    def _is_load(self, joint: Joint) -> bool:
        """A resistor, with a light or not, between a supply and ground."""
        classes = {joint.a.role.cls, joint.b.role.cls}
        values = [self.craft.terminations[part].value for part in joint.through if letters_of(part) == "R"]
        return classes == {RoleClass.SUPPLY, RoleClass.GROUND} and any(read_ohm(value) != 0 for value in values)

    def _is_terminated(self, joint: Joint) -> bool:
        """Whether the two lines of one bus meet through a terminator, with whatever else stands beside it."""
        resistors = [part for part in joint.through if letters_of(part) == "R"]
        a, b = joint.a.role, joint.b.role
        return (
            a.group == b.group
            and a.group in PAIRS
            and a.line != b.line
            and any(is_terminator(self.craft.terminations[part].value) for part in resistors)
        )

    def _through_parts(self, joint: Joint, found: Agreement) -> Agreement:
        """A button, a lamp or a pull-up joins a signal to ground or to a rail on purpose; a divider, to the battery."""
        parts = [part for part in joint.through if self.craft.terminations[part].kind is Kind.INLINE]
        parts = [part for part in parts if letters_of(part) not in FUSES]
        signal = any(contact.role.cls is RoleClass.SIGNAL for contact in (joint.a, joint.b))
        if not parts or not signal:
            return found
        between = " and ".join(parts)
        resistor = any(letters_of(part) == "R" for part in parts)
        supply = joint.a.role.is_supply or joint.b.role.is_supply
        if supply and all(letters_of(part) in _HARD for part in parts) and (_is_data(joint.a) or _is_data(joint.b)):
            return replace(found, reason=f"{found.reason}, through {between}")
        if not (joint.a.role.battery or joint.b.role.battery):
            volts = max((c.role.volts.high for c in (joint.a, joint.b) if c.role.is_supply and c.role.volts), default=0)
            if volts > LOGIC_V and not resistor:  # a button may give a signal its logic's rail, no more
                stands = max((c.level_max_v or 0.0 for c in (joint.a, joint.b)), default=0.0)
                if volts > stands:
                    return replace(found, reason=f"{found.reason}, through {between}")
            return not_judged(f"{found.reason}, through {between}")
        if resistor:
            return replace(found, outcome=Outcome.WARN, reason=f"{found.reason}, through {between}")
        return found

    def driven(self, listener: Contact, found: Agreement, but: set[ContactKey]) -> Agreement:
        """What becomes of "nobody drives it" when the rest of the listener's net is looked at."""
        unsure = False
        for contacts in self._kinds_on_whole_run[self.whole_runs[listener.net_id]].values():
            others = [contact for contact in contacts if contact.key not in but]
            if not others:
                continue
            meeting = self.agree(listener, others[0])
            if meeting.agrees and not meeting.nobody_drives:
                return agreed("something else on the net drives it")
            unsure |= not meeting.judged
        return not_judged("what drives it is not known") if unsure else found

    @cached_property
    def links(self) -> dict[Link, list[Joint]]:
        """Joints by the pair of terminations that they join; joints within one termination are in none."""
        found: dict[Link, list[Joint]] = {}
        for joint in self.joints:
            if joint.a.termination != joint.b.termination:
                found.setdefault(joint.link, []).append(joint)
        return found

    @cached_property
    def clashing(self) -> dict[Joint, Agreement]:
        return {joint: found for joint, found in self.outcomes.items() if found.clashes}

    @cached_property
    def _only_crossing(self) -> dict[Link, list[Joint]]:
        """Links whose clashes are all of UART lines that do not cross."""
        return {
            link: clashes
            for link, joints in self.links.items()
            if (clashes := [joint for joint in joints if joint in self.clashing])
            and all(self.clashing[joint].cause is Cause.CROSSING for joint in clashes)
        }

    @cached_property
    def explained(self) -> dict[Link, Explained]:
        """Links whose clashes have a single cause."""
        clashes = {link: [joint for joint in joints if joint in self.clashing] for link, joints in self.links.items()}
        found: dict[Link, Explained] = {}
        told: set[Joint] = set()
        # A connector read backwards may clash in several links: the one with most clashes speaks for the others.
        for link in sorted(clashes, key=lambda link: -len(clashes[link])):
            if link not in self._only_crossing and set(clashes[link]) - told:
                explained = explain(self, link, self.links[link])
                if explained is not None:
                    found[link] = explained
                    told.update(explained.joints)
        return found

    @cached_property
    def explained_ends(self) -> list[tuple[Link, Explained]]:
        """Ends with a single cause for clashes over several links, with the link that stands for them."""
        told = {joint for cause in self.explained.values() for joint in cause.joints}
        return list(explain_ends(self, {joint: found for joint, found in self.clashing.items() if joint not in told}))

    @cached_property
    def not_crossed(self) -> dict[Link, list[Joint]]:
        """Links that only do not cross their UART, and no end of which is wrong as a whole."""
        told = {joint for _, end in self.explained_ends for joint in end.joints}
        left = {link: [joint for joint in joints if joint not in told] for link, joints in self._only_crossing.items()}
        return {link: joints for link, joints in left.items() if joints}

    @cached_property
    def single_clashes(self) -> dict[Joint, Agreement]:
        """Clashes that no single cause explains."""
        told = {joint for cause in self.explained.values() for joint in cause.joints}
        told |= {joint for _, end in self.explained_ends for joint in end.joints}
        told |= {joint for joints in self.not_crossed.values() for joint in joints}
        return {joint: found for joint, found in self.clashing.items() if joint not in told}

    @cached_property
    def hidden_clashes(self) -> list[tuple[Contact, Contact, Agreement]]:
        """Clashes on one net between contacts that no lead joins directly, and that no other clash there tells of."""
        return list(hidden_clashes(self))

    @cached_property
    def misplaced(self) -> frozenset[ContactKey]:
        """Contacts that clash over a lead, or within their net."""
        over_leads = {contact.key for joint in self.clashing for contact in (joint.a, joint.b)}
        return frozenset(over_leads | {contact.key for a, b, _ in self.hidden_clashes for contact in (a, b)})

    @cached_property
    def clashing_runs(self) -> frozenset[int]:
        """Runs (over every in-line part) on which something clashes."""
        contacts = [contact for joint in self.clashing for contact in (joint.a, joint.b)]
        contacts += [a for a, _, _ in self.hidden_clashes]
        return frozenset(self.whole_runs[contact.net_id] for contact in contacts)

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

    @cached_property
    def by_termination(self) -> dict[str, list[Joint]]:
        found: dict[str, list[Joint]] = {}
        for joint in self.joints:
            for reference in dict.fromkeys(joint.link):
                found.setdefault(reference, []).append(joint)
        return found


def _is_data(contact: Contact) -> bool:
    """A line of data, which no switch joins to a supply: a chip select is strapped."""
    return contact.role.group in DATA_LINES and contact.role.name != "spi_cs"
