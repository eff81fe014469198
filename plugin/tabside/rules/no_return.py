"""Signals and supplies between two boards need a ground between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tabside.analysis import harm
from tabside.analysis.causes.link_causes import Link
from tabside.analysis.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft
from tabside.model.findings import Finding, Severity
from tabside.model.roles import RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import link_name, listed, name_of, role_words

# Signals whose edges or small voltages suffer from a return by another way (common practice, no source; motor
# signals: autopilot wiki on ESCs and motors, each ESC signal with a ground of its own).
FAST_OR_ANALOG = frozenset(
    ("video", "current_sense", "voltage_sense", "rssi", "spi", "usb", "ethernet", "motor", "led", "swd")
)
_GROUNDS = (RoleClass.GROUND, RoleClass.SHIELD)
_PERHAPS_GROUND = (RoleClass.UNKNOWN, RoleClass.AMBIGUOUS)
_CARRIERS = (RoleClass.SIGNAL, RoleClass.SUPPLY)


@check("no-return", severity=Severity.ERROR)
def no_return(judgement: Judgement) -> Iterator[Finding]:
    """What goes to another board comes back over ground, best in the same cable.

    Passes: a cable with its ground; pads of two boards with a ground lead among them; motor phases.
    Fails: signals or supply between boards that no ground joins at all.
    Warns: ground only through other cables, and the signal is fast or analog.
    Notes: ground only through other cables, and the signal is slow; a buzzer that is switched in its return.
    Source: autopilot wiki on ESCs and motors (ground for each signal); the rest common practice, no source.
    """
    grounds = _Grounds(judgement)
    without_path: dict[frozenset[str], list[Link]] = {}
    for link, joints in judgement.links.items():
        boards = tuple(judgement.craft.terminations[reference].board for reference in link)
        if boards[0] == boards[1] or not _carriers(judgement, link) or grounds.beside(joints, (boards[0], boards[1])):
            continue
        if grounds.path(boards[0], boards[1]):
            if not grounds.astray(link):
                yield _finding(judgement, [link], path=True, perhaps=False)
        elif not grounds.lost_by_a_clash(boards[0], boards[1]):
            without_path.setdefault(grounds.islands(boards[0], boards[1]), []).append(link)
    for links in without_path.values():
        perhaps = any(grounds.perhaps(judgement.links[link]) for link in links)
        yield _finding(judgement, links, path=False, perhaps=perhaps)


def _carriers(judgement: Judgement, link: Link) -> list[Joint]:
    """Joints of a link that need a return: signals and supplies, but for those on what they must not meet at all."""
    return [
        joint
        for joint in judgement.links[link]
        if {joint.a.role.cls, joint.b.role.cls} & set(_CARRIERS)
        and not {joint.a.role.cls, joint.b.role.cls} & {*_GROUNDS, RoleClass.PHASE}
        and not (joint in judgement.clashing and judgement.clashing[joint].cause is Cause.CLASSES)
    ]


class _Grounds:
    """Which boards ground joins, and over which cables."""

    def __init__(self, judgement: Judgement) -> None:
        self._judgement = judgement
        self._craft = judgement.craft
        self._cable = {lead.mark: lead.cable for lead in self._craft.leads}
        self._island = _islands(judgement, [])
        self._mended_island = _islands(judgement, _ground_clashes(judgement))
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


def _ground_clashes(judgement: Judgement) -> list[tuple[Contact, Contact]]:
    pairs = [(joint.a, joint.b) for joint in judgement.clashing]
    pairs += [(a, b) for a, b, _ in judgement.hidden_clashes]
    return [(a, b) for a, b in pairs if a.role.is_ground or b.role.is_ground]


def _islands(judgement: Judgement, also: Iterable[tuple[Contact, Contact]]) -> dict[str, str]:
    """Board -> one board of those that ground joins; a board joins its own grounds inside."""
    parent: dict[str, str] = {}

    def root(board: str) -> str:
        parent.setdefault(board, board)
        while parent[board] != board:
            board = parent[board]
        return board

    for contacts in judgement.whole_members.values():
        if not any(contact.role.cls in _GROUNDS for contact in contacts):
            continue
        boards = [
            judgement.craft.terminations[contact.termination].board
            for contact in contacts
            if contact.role.cls in (*_GROUNDS, *_PERHAPS_GROUND)
        ]
        for board in boards[1:]:
            parent[root(board)] = root(boards[0])
    for pair in also:
        first, second = (judgement.craft.terminations[contact.termination].board for contact in pair)
        parent[root(first)] = root(second)
    return {board: root(board) for board in parent}


def _finding(judgement: Judgement, links: list[Link], *, path: bool, perhaps: bool) -> Finding:
    """One finding for a link, or for all links between boards that no ground joins."""
    craft, link = judgement.craft, links[0]
    carriers = [joint for each in links for joint in _carriers(judgement, each)]
    contacts = [contact for joint in carriers for contact in (joint.a, joint.b)]
    severity = _severity(contacts, path, perhaps)
    what = listed(list(dict.fromkeys(role_words(_known(joint).role) for joint in carriers)), 4)
    name = listed([link_name(craft, each) for each in links], 3)
    if not path:
        message = f"{name}: {what} between boards that no ground joins."
        fix = f"Join ground to ground{_open_grounds(craft, link)}, in the same cable."
    else:
        message = f"{name}: {what}, and ground joins the two boards only through other cables."
        fix = f"Run a ground lead in the same cable{_open_grounds(craft, link)}, beside the signal that it serves."
    if _switched(contacts):
        message = f"{name}: {what} and no ground: the current returns over the contact that switches it."
        fix = "Nothing, when the part hangs between these contacts; accept it in the craft file."
    return Finding(
        rule="no-return",
        severity=severity,
        message=message,
        fix=fix,
        where=at_contacts(craft, contacts),
        link=link,
        harm=harm.NO_GROUND if severity is Severity.ERROR else harm.NOT_FED,
    )


def _severity(contacts: list[Contact], path: bool, perhaps: bool) -> Severity:
    if _switched(contacts):
        return Severity.NOTE
    if not path:
        return Severity.WARNING if perhaps else Severity.ERROR
    return Severity.WARNING if any(contact.role.group in FAST_OR_ANALOG for contact in contacts) else Severity.NOTE


def _switched(contacts: list[Contact]) -> bool:
    """A part between a supply and the contact that switches it: its current does not return over ground."""
    names = {contact.role.name for contact in contacts}
    signals = {contact.role.group for contact in contacts if contact.role.cls is RoleClass.SIGNAL}
    return "buzzer_minus" in names and signals <= {"buzzer"}


def _known(joint: Joint) -> Contact:
    return joint.a if joint.a.role.cls in _CARRIERS else joint.b


def _open_grounds(craft: Craft, link: tuple[str, str]) -> str:
    """The ground contacts of both ends, for the person who has to join them."""
    grounds = [
        next((contact for contact in craft.terminations[end].contacts if contact.role.is_ground), None) for end in link
    ]
    names = [name_of(craft, contact) for contact in grounds if contact is not None]
    return f" ({' to '.join(names)})" if len(names) == 2 else ""
