"""The way back: which boards ground joins, and which links bring power or signals without it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from tabside.analysis.joined.joints import Joint, is_coil
from tabside.analysis.joined.wired import Link
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.agreement import LOAD_ENDS, WIPER
from tabside.analysis.meeting.outcome import Cause
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.findings import Severity
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass

# Signals whose edges or small voltages suffer from a return by another way (common practice, no source; motor
# signals: autopilot wiki on ESCs and motors, each ESC signal with a ground of its own).
FAST_OR_ANALOG = frozenset(
    ("video", "current_sense", "voltage_sense", "rssi", "spi", "usb", "ethernet", "motor", "led", "swd")
)
_GROUNDS = (RoleClass.GROUND, RoleClass.SHIELD)
_PERHAPS_GROUND = (RoleClass.UNKNOWN, RoleClass.AMBIGUOUS)
_TWO = 2
CARRIERS = (RoleClass.SIGNAL, RoleClass.SUPPLY)


def _returns_by_itself(judgement: Judgement, reference: str, link: Link) -> bool:
    """A part on leads of its own without supply and ground (motor, loudspeaker, button): one lead is the way back."""
    part = judgement.craft.terminations[reference]
    powered = any(c.role.is_supply or c.role.is_ground or c.role.group == "buzzer" for c in part.contacts)
    if part.kind is Kind.CAPTIVE and not powered and len(judgement.links[link]) > 1:
        return True
    return _has_two_legs_alone(judgement, part)


def _has_two_legs_alone(judgement: Judgement, part: Termination) -> bool:
    """Two contacts that say nothing, and no other on its board: a float switch, a lamp; what it needs is not known."""
    return (
        part.kind in (Kind.CAPTIVE, Kind.PAD)
        and len(part.contacts) == _TWO
        and all(c.role.cls is RoleClass.UNKNOWN and c.key in judgement.joined for c in part.contacts)
        and judgement.terminations_of_board.get(part.board) == [part]
    )


class NoReturn(Struct, frozen=True):
    """Links between two groups of boards whose currents have no ground beside them."""

    links: tuple[Link, ...]
    path: bool  # ground joins them over other cables
    perhaps: bool  # a lead of unknown role may be the ground


def missing_returns(judgement: Judgement) -> Iterator[NoReturn]:
    """Links with no ground in the same cable; those with no ground at all are gathered by the groups of boards."""
    grounds = _Grounds(judgement)
    without_path: dict[frozenset[str], list[Link]] = {}
    for link, joints in judgement.links.items():
        boards = tuple(judgement.craft.terminations[reference].board for reference in link)
        if boards[0] == boards[1] or not carriers(judgement, link) or grounds.beside(joints, (boards[0], boards[1])):
            continue
        if grounds.path(boards[0], boards[1]):
            if not grounds.astray(link):
                yield NoReturn((link,), path=True, perhaps=False)
        elif not grounds.lost_by_a_clash(boards[0], boards[1]):
            without_path.setdefault(grounds.islands(boards[0], boards[1]), []).append(link)
    for links in without_path.values():
        perhaps = any(grounds.perhaps(judgement.links[link]) for link in links)
        yield NoReturn(tuple(links), path=False, perhaps=perhaps)


_NO_OWN_CURRENT = frozenset(
    ("cell_tap", "relay_contact", "anode", "cathode", WIPER, *LOAD_ENDS)
)  # it returns where it came from


def carriers(judgement: Judgement, link: Link) -> list[Joint]:
    """Joints of a link that need a return: signals and supplies, but for those on what they must not meet at all."""
    if any(_returns_by_itself(judgement, reference, link) for reference in link):
        return []
    if any(judgement.craft.terminations[reference].unread for reference in link):
        return []  # a transistor is no board with a ground of its own
    return [
        joint
        for joint in judgement.links[link]
        if {joint.a.role.cls, joint.b.role.cls} & set(CARRIERS)
        and not {joint.a.role.cls, joint.b.role.cls} & {*_GROUNDS, RoleClass.PHASE}
        and not (joint in judgement.clashing and judgement.clashing[joint].cause is Cause.CLASSES)
        and not judgement.is_meant(joint)
        and not any(is_coil(judgement.craft, contact) for contact in (joint.a, joint.b))
        and not _NO_OWN_CURRENT & {joint.a.role.name, joint.b.role.name}
    ]


class _Grounds:
    """Which boards ground joins, and over which cables."""

    def __init__(self, judgement: Judgement) -> None:
        self._judgement = judgement
        self._craft = judgement.craft
        self._cable = {lead.mark: lead.cable for lead in self._craft.leads}
        self._island = _islands(judgement, _other_ways_back(judgement))
        self._mended_island = _islands(judgement, [*_other_ways_back(judgement), *_ground_clashes(judgement)])
        self._between: dict[frozenset[str], list[Joint]] = {}
        for joint in judgement.joints:
            boards = frozenset(self._craft.terminations[reference].board for reference in joint.link)
            if any(contact.role.cls in _GROUNDS for contact in (joint.a, joint.b)):
                self._between.setdefault(boards, []).append(joint)

    def path(self, a: str, b: str) -> bool:
        return self._island.get(a, a) == self._island.get(b, b)

    def islands(self, a: str, b: str) -> frozenset[str]:
        """The two groups of boards that these belong to: a board without ground is told once, whatever it meets."""
        return frozenset((self._island.get(a, a), self._island.get(b, b)))

    def lost_by_a_clash(self, a: str, b: str) -> bool:
        """Whether the boards have no ground only because a ground lies where it clashes; that is told as such."""
        return self._mended_island.get(a, a) == self._mended_island.get(b, b)

    def astray(self, link: Link) -> bool:
        """Whether a ground lead of the link's ends meets a contact that clashes: it runs there for that alone."""
        for joint in (joint for end in link for joint in self._judgement.by_termination.get(end, ())):
            misplaced = {joint.a.key, joint.b.key} & self._judgement.misplaced
            if misplaced and any(contact.role.is_ground for contact in (joint.a, joint.b)):
                return True
        return False

    def beside(self, joints: Iterable[Joint], boards: tuple[str, str]) -> bool:
        """A ground lead between the boards in the same cable, or among the same loose leads.

        One that clashes at its other end counts: what it should have been is told by the clash.
        """
        cables = self._cables(joints)
        return any(cables & self._cables([ground]) for ground in self._between.get(frozenset(boards), ()))

    def perhaps(self, joints: Iterable[Joint]) -> bool:
        """Whether a lead of unknown role may be the ground."""
        return any(joint.a.role.cls in _PERHAPS_GROUND and joint.b.role.cls in _PERHAPS_GROUND for joint in joints)

    def _cables(self, joints: Iterable[Joint]) -> set[str | None]:
        return {self._cable[mark] for joint in joints for mark in joint.leads}


def _other_ways_back(judgement: Judgement) -> list[tuple[Contact, Contact]]:
    """Packs in series have one ground, the lowest minus; a part's minus goes back over the output that switches it."""
    series = [(lower.minus, upper.minus) for lower, upper in judgement.packs.series.values()]
    return series + [
        (joint.a, joint.b)
        for joint, found in judgement.outcomes.items()
        if found.agrees and joint.a.role.is_ground != joint.b.role.is_ground
    ]


def _ground_clashes(judgement: Judgement) -> list[tuple[Contact, Contact]]:
    pairs = [(joint.a, joint.b) for joint in judgement.clashing]
    pairs += [(a, b) for a, b, _ in judgement.hidden_clashes]
    return [(a, b) for a, b in pairs if a.role.is_ground or b.role.is_ground]


def _islands(judgement: Judgement, also: Iterable[tuple[Contact, Contact]]) -> dict[str, str]:
    """Board -> one board of those that ground joins; a board joins its own grounds inside."""
    groups: Groups[str] = Groups()
    for contacts in judgement.whole_members.values():
        if not any(contact.role.cls in _GROUNDS for contact in contacts):
            continue
        boards = [
            judgement.craft.terminations[contact.termination].board
            for contact in contacts
            if contact.role.cls in (*_GROUNDS, *_PERHAPS_GROUND)
        ]
        for board in boards[1:]:
            groups.join(board, boards[0])
    for pair in also:
        first, second = (judgement.craft.terminations[contact.termination].board for contact in pair)
        groups.join(first, second)
    return {board: groups.root(board) for board in groups.members}


def return_severity(contacts: list[Contact], *, path: bool, perhaps: bool) -> Severity:
    """How bad it is that these go without a ground beside them."""
    if is_switched(contacts):
        return Severity.NOTE
    if not path:
        return Severity.WARNING if perhaps else Severity.ERROR
    return Severity.WARNING if any(contact.role.group in FAST_OR_ANALOG for contact in contacts) else Severity.NOTE


def is_switched(contacts: list[Contact]) -> bool:
    """A part between a supply and the contact that switches it: its current does not return over ground."""
    names = {contact.role.name for contact in contacts}
    signals = {contact.role.group for contact in contacts if contact.role.cls is RoleClass.SIGNAL}
    return "buzzer_minus" in names and signals <= {"buzzer"}
