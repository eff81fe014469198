"""Outputs that a net ties together although each was to serve something of its own: motors, chip selects, buses."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import combinations

from msgspec import Struct

from tabside.analysis.joined.joints import passes
from tabside.analysis.meeting.meetings import Meetings
from tabside.model.craft import Contact
from tabside.model.roles import Direction, Role, RoleClass

_CHANNEL = re.compile(r"CH(?:AN(?:NEL)?)?[ _]?\d{1,2}", re.IGNORECASE)  # a receiver's outputs
BUS_GROUPS = ("i2c",)  # a board's buses of different number are different buses


class Tie(Struct, frozen=True):
    contacts: tuple[Contact, ...]
    why: str
    fix: str


def tied_outputs(meetings: Meetings) -> Iterator[Tie]:
    """Motor outputs and chip selects that meet on one net, and two devices on one chip select."""
    for contacts in meetings.solid_members.values():
        if len(contacts) > 1:
            yield from _motors(meetings, contacts)
            yield from _selects(meetings, contacts)


def merged_buses(meetings: Meetings) -> Iterator[tuple[Contact, Contact]]:
    """Lines of two buses of one board, told apart by their numbers, on one net."""
    for contacts in meetings.solid_members.values():
        numbered = [
            contact for contact in contacts if contact.role.group in BUS_GROUPS and contact.role.index is not None
        ]
        for a, b in combinations(numbered, 2):
            same_line = a.role.name == b.role.name and _board(meetings, a) == _board(meetings, b)
            if same_line and a.role.index != b.role.index:
                yield a, b
                break


def _board(meetings: Meetings, contact: Contact) -> str:
    return meetings.craft.terminations[contact.termination].board


def _motors(meetings: Meetings, contacts: Sequence[Contact]) -> Iterator[Tie]:
    """Two outputs of one board, or outputs of two boards that a driver's one input hears."""
    outputs = [contact for contact in contacts if _is_motor_output(meetings, contact)]
    same_board = [
        (a, b)
        for a, b in combinations(outputs, 2)
        if _board(meetings, a) == _board(meetings, b) and (a.role.index != b.role.index or a.label != b.label)
    ]
    driver = next((c for c in contacts if _is_driver_input(meetings, c) and c not in outputs), None)
    boards = {_board(meetings, contact): contact for contact in reversed(outputs)}
    if same_board:
        tied: tuple[Contact, ...] = same_board[0]
    elif driver is not None and len(boards) > 1:
        tied = tuple(boards.values())
    else:
        return
    if any(meetings.agree(a, b).clashes for a, b in combinations(tied, 2)):
        return
    yield Tie(tied, "two motor outputs work against each other", "Give each output its own driver, or take one off.")


def _is_motor_output(meetings: Meetings, contact: Contact) -> bool:
    role = contact.role
    numbered = role.group == "motor" and role.direction is not Direction.LISTENS and role.index is not None
    if not numbered and not _CHANNEL.fullmatch(contact.label.strip()):
        return False
    return not _is_driver(meetings, _board(meetings, contact))


def _is_driver(meetings: Meetings, board: str) -> bool:
    """Whether a board turns motors itself: it has a motor's phases."""
    return any(
        contact.role.cls is RoleClass.PHASE
        for termination in meetings.terminations_of_board.get(board, ())
        for contact in termination.contacts
    )


def _is_driver_input(meetings: Meetings, contact: Contact) -> bool:
    role = contact.role
    if role.group == "motor":
        return (
            role.direction is Direction.LISTENS or role.index is None or _is_driver(meetings, _board(meetings, contact))
        )
    return role.name == "signal_any" and role.direction is not Direction.DRIVES


def _selects(meetings: Meetings, contacts: Sequence[Contact]) -> Iterator[Tie]:
    selects = [contact for contact in contacts if _is_select(contact.role)]
    for a, b in combinations(selects, 2):
        other = a.role.index != b.role.index or a.label.strip().upper() != b.label.strip().upper()
        if _board(meetings, a) == _board(meetings, b) and other:
            yield Tie((a, b), "two chip selects are one", "Give each chip select its own device.")
            return
    boards = {_board(meetings, contact): contact for contact in reversed(selects)}
    devices = [contact for board, contact in boards.items() if _shares_data(meetings, board, boards)]
    if len(boards) > 2 and len(devices) > 1 and not any(contact.role.is_ground for contact in contacts):
        yield Tie(
            tuple(devices),
            "one chip select for two devices, which answer at the same time",
            "Give each device a chip select of its own.",
        )


def _is_select(role: Role) -> bool:
    return role.name == "spi_cs" or (bool(role.readings) and any(reading.name == "spi_cs" for reading in role.readings))


def _shares_data(meetings: Meetings, board: str, boards: dict[str, Contact]) -> bool:
    """Whether the board's MISO meets one of another of these boards: a chain of registers passes data on instead."""
    for termination in meetings.terminations_of_board.get(board, ()):
        for contact in termination.contacts:
            if contact.role.line in ("miso", "sdo") and not passes(meetings.craft, contact.termination):
                run = meetings.solid_runs[contact.net_id]
                met = {_board(meetings, other) for other in meetings.solid_members[run]}
                if len(met & set(boards)) > 2:
                    return True
    return False
