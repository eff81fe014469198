"""One measurement on the bench, and what all of them are worked out from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from tabside.analysis.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.model.craft import ContactKey, Craft
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


class At(StrEnum):
    """What kind of place a probe touches."""

    CONTACT = "contact"  # `lead` named: that lead's end, in its plug or soldered; no lead: the board's own contact
    BARE = "bare end"  # of `lead`, made for that contact, before it is soldered
    GROUND = "known ground"  # of `board`: known without this sheet
    PROBE = "probe"  # the other probe


@dataclass(frozen=True, slots=True)
class End:
    """Where a probe touches."""

    at: At
    board: str = ""
    termination: str = ""
    contact: str = ""
    lead: str | None = None


class RowKind(StrEnum):
    BEEP = "beep"
    VOLTS = "volts"  # red on `where`, black on the one end in `joined`
    LOOK = "look"  # no meter finds it: for the eye


class When(StrEnum):
    """The earliest moment at which a row can be done, in the order of work."""

    METER = "meter"  # before all
    LOOSE = "loose"  # the cable lies loose: nothing plugged in, nothing soldered
    PLUGGED = "plugged"  # one end in its real board, all other ends loose, bare ends not soldered yet
    HALF = "half soldered"  # soldered at the terminations in `plugged`, all other ends loose
    SOLDERED = "soldered"  # all of its ends soldered, nothing else on these boards
    PART = "part"  # an in-line part by itself
    CRAFT = "craft"  # everything plugged in and soldered, the pack away
    PACK = "pack"  # volts, last


@dataclass(frozen=True, slots=True)
class Measurement:
    """One row of the continuity sheet: one place of the fixed probe, and all that the other probe visits."""

    group: str  # heading under which it stands
    test: Test
    leads: tuple[str, ...]  # marks
    start: str  # where the fixed probe goes, in words
    end: str  # where the other one goes, in words
    expect: str  # what the meter must say
    limit_ohm: float | None = None  # the most that the lead may have; None: not known
    has_limit: bool = False  # False: a limit does not apply
    note: str = ""
    id: str = ""  # made of what it measures: the same row has the same id whatever else has changed
    kind: RowKind = RowKind.BEEP
    when: When = When.LOOSE
    cable: str | None = None  # its mark; None for leads that enter no plug, and for what belongs to no cable
    plugged: tuple[str, ...] = ()  # terminations plugged in or soldered by then
    where: End = End(At.PROBE)  # of the fixed probe
    joined: tuple[End, ...] = ()  # must beep
    open: tuple[End, ...] = ()  # must not beep
    volts: tuple[float, float] | None = None  # lowest and highest; None: not stated, or no volts are measured


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
            nets = {contact.number: contact.net_id for contact in part.contacts}
            for number, net in nets.items():
                for other in part.beyond(number):
                    low, high = sorted((root(net), root(nets[other])))
                    first[high] = low
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
