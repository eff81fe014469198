"""One measurement on the bench, and what all of them are worked out from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from tabside.analysis.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.make.needs.lead_ends import EndKind, MadeLead, WireFrom
from tabside.model.craft import ContactKey, Craft, Kind
from tabside.model.roles import Volts
from tabside.words.contacts import name_of, termination_name

BARE = frozenset((EndKind.PAD, EndKind.SPLICE, EndKind.INLINE))  # ends that are soldered, and bare before that


class Test(StrEnum):
    METER = "meter"
    LEAD = "lead"
    OPEN = "must be open"
    LANDMARK = "landmark"
    EYE = "by eye"
    VOLTS = "volts"
    PART = "in-line part"
    SHORT = "no short"


@dataclass(frozen=True, slots=True)
class Measurement:
    """Where the two probes go and what the meter must say."""

    group: str  # heading under which it stands
    test: Test
    leads: tuple[str, ...]  # marks
    start: str
    end: str
    expect: str
    limit_ohm: float | None = None  # the most that the lead may have; None: not known
    has_limit: bool = False  # False: a limit does not apply
    note: str = ""


class Bench:
    """A craft in pieces: what is joined to what, and where a probe can go."""

    def __init__(self, craft: Craft, made: Mapping[str, MadeLead]) -> None:
        self.craft = craft
        self.made = made  # by mark
        self._judgement = Judgement(craft)

    @property
    def pack(self) -> Volts | None:
        """What the battery can reach, None when nobody says it."""
        return self._judgement.pack

    @cached_property
    def joints(self) -> Mapping[str, tuple[Joint, ...]]:
        """Contacts of boards that meet over leads, splices and in-line parts, by termination."""
        return {reference: tuple(joints) for reference, joints in self._judgement.by_termination.items()}

    @cached_property
    def joined_by_parts(self) -> Mapping[int, int]:
        """Net -> the first of all nets that in-line parts of any kind join to it."""
        first = {
            contact.net_id: contact.net_id for each in self.craft.terminations.values() for contact in each.contacts
        }

        def root(net: int) -> int:
            while first[net] != net:
                net = first[net]
            return net

        for part in self.craft.terminations.values():
            if part.kind is Kind.INLINE:
                low, *others = sorted({root(contact.net_id) for contact in part.contacts})
                for net in others:
                    first[net] = low
        return {net: root(net) for net in first}

    def name(self, key: ContactKey) -> str:
        """The contact as a person finds it: "pilot/J3:6 (GND)"."""
        return name_of(self.craft, self.craft.contact(key))

    def termination_name(self, reference: str) -> str:
        return termination_name(self.craft, reference)

    def begins_inside(self, mark: str) -> bool:
        """Whether a lead is a part's own: no probe reaches its end in the part."""
        return self.made[mark].wire_from is WireFrom.CAPTIVE

    def probe(self, mark: str, key: ContactKey) -> str:
        """Where a probe touches that end of a lead while it is plugged in nowhere and soldered to nothing."""
        end = next(end for end in self.made[mark].ends if end.key == key)
        if end.kind in BARE:
            return f"bare end of {mark} for {self.name(key)}"
        # A pack's own plug is live: the name must not send a probe there.
        return f"plug for {self.name(key)}, not on it" if end.kind is EndKind.MATE else self.name(key)
