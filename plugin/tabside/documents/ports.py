"""What is connected to which port of each board, in the words used when its firmware is set up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from tabside.analysis.joined.joints import joints_of
from tabside.documents.port_words import PulseSide, extras, lacks_number, notes_on, port_kind, port_words, pulse_side
from tabside.model.craft import Contact, Craft, Kind, Termination
from tabside.model.natural import natural
from tabside.model.roles import RoleClass

_NO_BOARD = frozenset((Kind.SPLICE, Kind.INLINE, Kind.CAPTIVE))  # a captive part has nothing to set up at its leads


class Meeting(Struct, frozen=True):
    """One contact of a port and the contact of another board that it meets."""

    own: Contact
    far: Contact
    through: tuple[str, ...]  # in-line parts and splices between


class Port(Struct, frozen=True):
    """One port of one board, with all that hangs on it."""

    board: str
    termination: str
    words: str  # "serial 2: receiver, half duplex"
    signals: tuple[str, ...]  # own contacts: "TX2 (3)"
    others: tuple[str, ...]  # boards
    there: tuple[str, ...]  # their contacts: "receiver/J1:2 (RX)"
    notes: tuple[str, ...]
    lacks_number: bool = False  # it is named by its termination, because the drawing gives it no number
    use: tuple[object, ...] = ()  # what firmware is told of it, whatever it is called and whichever contacts carry it


def ports(craft: Craft) -> tuple[Port, ...]:
    """All ports that carry something but ground and supply, by board, termination and port."""
    by_termination: dict[str, list[Meeting]] = {}
    for joint in joints_of(craft):
        for own, far in ((joint.a, joint.b), (joint.b, joint.a)):
            if _is_signal(own) or (_is_signal(far) and not own.role.judged):
                by_termination.setdefault(own.termination, []).append(Meeting(own, far, joint.through))
    turns_motor = {
        termination.board
        for termination in craft.terminations.values()
        if termination.kind not in _NO_BOARD
        and any(contact.role.cls is RoleClass.PHASE for contact in termination.contacts)
    }
    on_boards = [termination for termination in craft.terminations.values() if termination.kind not in _NO_BOARD]
    found = [
        port
        for termination in on_boards
        for port in _of_termination(craft, termination, by_termination.get(termination.reference, []), turns_motor)
    ]
    return tuple(sorted(found, key=lambda port: (natural(port.board), natural(port.termination), natural(port.words))))


def _is_signal(contact: Contact) -> bool:
    return contact.role.cls in (RoleClass.SIGNAL, RoleClass.PHASE, RoleClass.AMBIGUOUS, RoleClass.UNKNOWN)


def _of_termination(
    craft: Craft, termination: Termination, meetings: list[Meeting], turns_motor: set[str]
) -> Iterator[Port]:
    """Contacts of one group and number are one port; lines without a number join the only port of their group."""
    kinds = [_kind(craft, meeting, turns_motor) for meeting in meetings]
    numbers: dict[str, set[int]] = {}
    for met, kind in zip(meetings, kinds, strict=True):
        if met.own.role.index is not None:
            numbers.setdefault(kind, set()).add(met.own.role.index)
    gathered: dict[tuple[str, int | None, str], list[Meeting]] = {}
    for met, kind in zip(meetings, kinds, strict=True):
        index = met.own.role.index
        known = numbers.get(kind, set())
        if index is None and len(known) == 1:
            (index,) = known
        alone = met.own.number if kind == "" else ""  # unknown ones and single signals are ports by themselves
        gathered.setdefault((kind, index, alone), []).append(met)
    for (kind, index, _), found in gathered.items():
        yield _port(craft, termination, kind, index, found)


def _kind(craft: Craft, meeting: Meeting, turns_motor: set[str]) -> str:
    kind = port_kind(meeting.own)
    if kind == "" and meeting.own.role.cls is RoleClass.SIGNAL:
        kind = port_kind(meeting.far)  # "DIN" says little; the LED strip's data line at its other end says enough
    if kind != "motor":
        return kind
    own, far = (craft.terminations[contact.termination].board in turns_motor for contact in (meeting.own, meeting.far))
    return pulse_side(meeting.own, meeting.far, own, far)


def _port(craft: Craft, termination: Termination, kind: str, index: int | None, found: list[Meeting]) -> Port:
    others = _each(craft.terminations[meeting.far.termination].board for meeting in found)
    found = sorted(found, key=lambda meeting: natural(meeting.own.number))
    own = [meeting.own for meeting in found]
    first = port_words(kind, index, own[0], termination.reference)
    said = [*extras(kind, own, [meeting.far for meeting in found])]
    return Port(
        board=termination.board,
        termination=termination.reference,
        words=f"{first}: {', '.join([*others, *said])}",
        signals=_each(f"{contact.label or 'contact'} ({contact.number})" for contact in own),
        others=others,
        there=_each(_there(craft, meeting) for meeting in found),
        notes=tuple(notes_on(kind, own, [meeting.far for meeting in found])),
        lacks_number=lacks_number(kind, index),
        use=(kind, index, own[0].label if kind == "" else "", others, tuple(said), _order(kind, found)),
    )


def _order(kind: str, found: Iterable[Meeting]) -> tuple[int | None, ...]:
    """Of outputs the numbers at the other end: which motor or servo turns."""
    turns = kind in (PulseSide.MOTOR_OUT, PulseSide.OUT, PulseSide.UNKNOWN)
    return tuple(meeting.far.role.index for meeting in found) if turns else ()


def _there(craft: Craft, meeting: Meeting) -> str:
    label = f" ({meeting.far.label})" if meeting.far.label else ""
    through = f" through {', '.join(meeting.through)}" if meeting.through else ""
    return f"{meeting.far.termination}:{meeting.far.number}{label}{through}"


def _each(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))
