"""Every joint of a craft judged once."""

from __future__ import annotations

from functools import cached_property

from msgspec.structs import replace

from tabside.analysis.joined.joints import Joint, letters_of
from tabside.analysis.judging.paired_outputs import paired_outputs
from tabside.analysis.judging.text_clashes import text_clashes
from tabside.analysis.meeting.agreement import DATA_LINES, Agreement, Cause, Outcome
from tabside.analysis.meeting.meetings import Meetings
from tabside.analysis.meeting.outcome import agreed, not_judged
from tabside.analysis.meeting.resistors import PAIRS, is_terminator, read_ohm
from tabside.analysis.meeting.signatures import Signature, by_signature
from tabside.model.craft import Contact, ContactKey, Kind
from tabside.model.roles import RoleClass
from tabside.wiring.terminations.part_kinds import FUSES

_HARD = ("SW", "S", "JP", "NT")  # nothing limits the current through them
LOGIC_V = 5.5  # rails up to this feed logic; common practice, no source


class JudgedJoints(Meetings):
    """The meetings of a craft, with the outcome of every joint."""

    @cached_property
    def outcomes(self) -> dict[Joint, Agreement]:
        """Every joint with its outcome; a listener among listeners agrees when something on the net drives it."""
        found = {joint: self._of_joint(joint) for joint in self.joints}
        return found | text_clashes(self, found) | paired_outputs(self, found)

    @cached_property
    def clashing(self) -> dict[Joint, Agreement]:
        return {joint: found for joint, found in self.outcomes.items() if found.clashes}

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
    def _kinds_on_whole_run(self) -> dict[int, dict[Signature, list[Contact]]]:
        return {run: by_signature(contacts) for run, contacts in self.whole_members.items()}


def _is_data(contact: Contact) -> bool:
    """A line of data, which no switch joins to a supply: a chip select is strapped."""
    return contact.role.group in DATA_LINES and contact.role.name != "spi_cs"
