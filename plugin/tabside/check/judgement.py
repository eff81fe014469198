"""Every joint of a craft judged once: what the single checks look at."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property

from ..model.craft import Contact, ContactKey, Craft, Kind, Termination
from ..model.roles import Rail, Role, RoleClass, Volts
from .agreement import Agreement, Cause, Outcome, agree
from .joints import Joint, joints_of, letters_of, members_of, passes, runs_of
from .order import SingleCause, single_causes
from .outcome import agreed, not_judged

Link = tuple[str, str]
Signature = tuple[Role, tuple[Rail, ...], tuple[Rail, ...]]
_TWO_ROWS = re.compile(r"(?<![0-9A-Za-z])0?[2-9]x\d\d")
_NO_NUMBER = 1_000_000  # contacts without a decimal number get numbers of their own from here, and no row


@dataclass(frozen=True, slots=True)
class Explained:
    """A single cause of a link's clashes."""

    cause: SingleCause
    end: str | None  # reference of the end that it concerns; None when the drawing cannot tell
    joints: tuple[Joint, ...]  # the clashes that it explains, those of other links included


@dataclass
class Judgement:
    """A craft with the outcome of every joint.  Built once per run of the checks; changes nothing in the craft."""

    craft: Craft
    _known: dict[tuple[Signature, Signature], Agreement] = field(default_factory=dict)

    def agree(self, a: Contact, b: Contact) -> Agreement:
        """`agree` of the two contacts, remembered: large nets repeat the same few contacts."""
        key = (signature(a), signature(b))
        if key not in self._known:
            self._known[key] = self._known[key[::-1]] = agree(a, b, self.pack)
        return self._known[key]

    @cached_property
    def pack(self) -> Volts | None:
        """What the battery can reach: the craft file says it, or the one pack whose `Gives` names its cells."""
        if self.craft.settings.battery is not None:
            return self.craft.settings.battery
        stated = {
            rail.volts
            for termination in self.craft.terminations.values()
            for contact in termination.contacts
            for rail in contact.gives
            if rail.battery and rail.volts is not None
        }
        return stated.pop() if len(stated) == 1 else None

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        return joints_of(self.craft)

    @cached_property
    def joined(self) -> frozenset[ContactKey]:
        """Contacts that a lead meets, or would meet on a net that has more leads than its contacts take."""
        crowded = {key for each in self.craft.crowded for island in each.islands for key in island}
        crowded |= {key for each in self.craft.crowded for key in each.contacts}
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
    def _kinds_on_whole_run(self) -> dict[int, dict[Signature, list[Contact]]]:
        return {run: by_signature(contacts) for run, contacts in self.whole_members.items()}

    @cached_property
    def outcomes(self) -> dict[Joint, Agreement]:
        """Every joint with its outcome; a listener among listeners agrees when something on the net drives it."""
        return {joint: self._of_joint(joint) for joint in self.joints}

    def _of_joint(self, joint: Joint) -> Agreement:
        found = self.agree(joint.a, joint.b)
        if found.nobody_drives:
            found = self.driven(joint.a, found, {joint.a.key, joint.b.key})
        return self._through_parts(joint, found) if found.cause is Cause.CLASSES else found

    def _through_parts(self, joint: Joint, found: Agreement) -> Agreement:
        """A button, a lamp or a pull-up joins a signal to ground or to a rail on purpose; a divider, to the battery."""
        parts = [part for part in joint.through if self.craft.terminations[part].kind is Kind.INLINE]
        parts = [part for part in parts if letters_of(part) != "F"]
        signal = any(contact.role.cls is RoleClass.SIGNAL for contact in (joint.a, joint.b))
        if not parts or not signal:
            return found
        between = " and ".join(parts)
        if not (joint.a.role.battery or joint.b.role.battery):
            return not_judged(f"{found.reason}, through {between}")
        if any(letters_of(part) == "R" for part in parts):
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
    def not_crossed(self) -> dict[Link, list[Joint]]:
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
        found = {}
        for link, joints in self.links.items():
            if link not in self.not_crossed and any(joint in self.clashing for joint in joints):
                explained = self._explain(link, joints)
                if explained is not None:
                    found[link] = explained
        return found

    @cached_property
    def single_clashes(self) -> dict[Joint, Agreement]:
        """Clashes that no single cause of a link explains."""
        told = {joint for each in self.explained.values() for joint in each.joints}
        told |= {joint for joints in self.not_crossed.values() for joint in joints}
        return {joint: found for joint, found in self.clashing.items() if joint not in told}

    @cached_property
    def hidden_clashes(self) -> list[tuple[Contact, Contact, Agreement]]:
        """Clashes on one net between contacts that no lead joins directly, and that no other clash there tells of."""
        by_run: dict[int, set[Signature]] = {}
        for joint in self.clashing:
            by_run.setdefault(self.solid_runs[joint.a.net_id], set()).update((signature(joint.a), signature(joint.b)))
        found = []
        for run, contacts in self.solid_members.items():
            kinds = by_signature(contacts)
            if len(contacts) > 1:
                found += list(self._hidden_on_run(kinds, by_run.get(run, set())))
        return found

    def _hidden_on_run(
        self, kinds: dict[Signature, list[Contact]], told: set[Signature]
    ) -> Iterator[tuple[Contact, Contact, Agreement]]:
        signatures = list(kinds)
        for k, first in enumerate(signatures):
            for second in signatures[k:]:
                pair = (kinds[first][0], kinds[second][-1])
                if (first in told and second in told) or pair[0].key == pair[1].key:
                    continue
                met = self.agree(*pair)
                if met.nobody_drives:
                    met = self.driven(pair[0], met, {pair[0].key, pair[1].key})
                if met.clashes:
                    yield (*pair, met)

    def row_of(self, termination: Termination) -> int | None:
        """Ways of a single row of numbered contacts; None where there is no such row (pads, bare leads, two rows)."""
        return termination.ways if termination.takes_plug and single_row(termination) else None

    def _explain(self, link: Link, joints: list[Joint]) -> Explained | None:
        ends = [self.craft.terminations[reference] for reference in link]
        if not all(single_row(end) for end in ends):
            return None
        numbers = [_numbers(end) for end in ends]
        contacts = [{number: end.contact(text) for text, number in numbers[k].items()} for k, end in enumerate(ends)]
        joined = [(numbers[0][joint.a.number], numbers[1][joint.b.number]) for joint in joints]
        drawn = dict(zip(joined, joints, strict=True))

        def judge(a: int, b: int) -> Agreement:
            if (a, b) in drawn:
                return self.outcomes[drawn[a, b]]
            if a not in contacts[0] or b not in contacts[1]:
                return not_judged("there is no such contact")
            return self._if_joined(contacts[0][a], contacts[1][b])

        rows = [
            self.row_of(end) if all(number < _NO_NUMBER for number in numbers[k].values()) else None
            for k, end in enumerate(ends)
        ]
        causes = single_causes(joined, judge, (rows[0], rows[1]))
        if not causes:
            return None
        best = causes[0]
        alike = [cause for cause in causes if (cause.rule, cause.moved) == (best.rule, best.moved)]
        alike = [cause for cause in alike if cause.shift_size == best.shift_size]
        best, told = self._which_end(alike, link)
        clashes = [joint for joint in joints if joint in self.clashing]
        elsewhere = self._mended_elsewhere(best, told, link, joints)
        return Explained(best, link[best.end] if told and best.end is not None else None, (*clashes, *elsewhere))

    def _if_joined(self, a: Contact, b: Contact) -> Agreement:
        """What a lead between these two would mean, with whatever else is on their nets."""
        found = self.agree(a, b)
        if not found.nobody_drives:
            return found
        for contact, other in ((a, b), (b, a)):
            rest = {each.key for each in self.craft.terminations[other.termination].contacts} | {contact.key}
            met = self.driven(contact, found, rest)
            if not met.clashes:
                return met
        return found

    def _which_end(self, alike: list[SingleCause], link: Link) -> tuple[SingleCause, bool]:
        """The end that the cause concerns, and whether the drawing tells: by what the other links of both ends say."""
        ends = {cause.end for cause in alike}
        if alike[0].rule == "swapped-pair":
            return alike[0], False
        if len(ends) == 1:
            return alike[0], True
        cost = {cause.end: self._cost_elsewhere(cause, link) for cause in reversed(alike)}
        best = min(alike, key=lambda cause: cost[cause.end])
        return best, len(set(cost.values())) > 1

    def _others_at(self, cause: SingleCause, link: Link) -> Iterator[tuple[Joint, Agreement]]:
        """Joints of the end's other links, each with what it would be without the slip."""
        assert cause.end is not None
        end = self.craft.terminations[link[cause.end]]
        numbers = {contact.number: contact for contact in end.contacts}
        for joint in self._by_termination.get(end.reference, ()):
            if set(joint.link) == set(link):
                continue
            own, far = (joint.a, joint.b) if joint.a.termination == end.reference else (joint.b, joint.a)
            if own.number.isdecimal() and far.termination != end.reference:
                intended = numbers.get(str(cause.intended(int(own.number))))
                yield joint, self.agree(intended, far) if intended else not_judged("there is no such contact")

    @cached_property
    def terminations_of_board(self) -> dict[str, list[Termination]]:
        """Boards and parts with their terminations; splices and in-line parts are none."""
        found: dict[str, list[Termination]] = {}
        for termination in self.craft.terminations.values():
            if not passes(self.craft, termination.reference):
                found.setdefault(termination.board, []).append(termination)
        return found

    @cached_property
    def _by_termination(self) -> dict[str, list[Joint]]:
        found: dict[str, list[Joint]] = {}
        for joint in self.joints:
            for reference in dict.fromkeys(joint.link):
                found.setdefault(reference, []).append(joint)
        return found

    def _cost_elsewhere(self, cause: SingleCause, link: Link) -> int:
        return sum(would.clashes - (joint in self.clashing) for joint, would in self._others_at(cause, link))

    def _mended_elsewhere(self, best: SingleCause, told: bool, link: Link, joints: list[Joint]) -> Iterator[Joint]:
        """Clashes of other links that the same slip explains: they are not told twice."""
        if best.rule != "swapped-pair":
            ends = (best.end,) if told else (0, 1)
            for end in ends:
                cause = replace(best, end=end, ways=self.row_of(self.craft.terminations[link[end or 0]]) or best.ways)
                for joint, would in self._others_at(cause, link):
                    if joint in self.clashing and would.agrees:
                        yield joint
            return
        k, m = (joints[position] for position in best.exchanged)
        swapped = {k.a.key: m.a, m.a.key: k.a, k.b.key: m.b, m.b.key: k.b}
        for joint in self.clashing:
            if joint.link == link:
                continue
            for own, far in ((joint.a, joint.b), (joint.b, joint.a)):
                if own.key in swapped and self.agree(swapped[own.key], far).agrees:
                    yield joint
                    break


def single_row(termination: Termination) -> bool:
    """Whether the contacts stand in one row; KiCad names parts of two rows 2x05 or 02x05 where the family is unknown."""
    return termination.rows == 1 and not _TWO_ROWS.search(f"{termination.footprint} {termination.value}")


def signature(contact: Contact) -> Signature:
    """All that agreement depends on."""
    return (contact.role, contact.gives, contact.takes)


def by_signature(contacts: list[Contact]) -> dict[Signature, list[Contact]]:
    found: dict[Signature, list[Contact]] = {}
    for contact in contacts:
        found.setdefault(signature(contact), []).append(contact)
    return found


def _numbers(termination: Termination) -> dict[str, int]:
    """Contact as drawn -> its number; contacts without a decimal one get one beyond every row."""
    return {
        contact.number: int(contact.number) if contact.number.isdecimal() else _NO_NUMBER + n
        for n, contact in enumerate(termination.contacts)
    }
