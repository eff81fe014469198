"""What is known of the matching before anything is guessed: boards by name, places on them, uuids, references.

A plug goes into a place on a board.  So whole boards are matched first, then the places of each by their printed
names, then symbols that KiCad knows as the same ones, then references.  What is left is found by fit.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Hashable, Iterable
from typing import NamedTuple

from tabside.compare.side import Side, another_part, is_loose, shape
from tabside.model.craft import Kind, Termination

_GENERIC = ("conn_", "screw_terminal", "~")  # names of KiCad's own symbols: no board has them printed on it


class Anchors(NamedTuple):
    """Old reference -> new reference, and what tells it."""

    pairs: dict[str, str]
    how: dict[str, str]


def anchors_of(old: Side, new: Side, *, other_shapes: bool) -> Anchors:
    """All that names and uuids tell; `other_shapes`: a reference tells a place even when its plug is another."""
    boards = _boards(old, new)
    found = Anchors({}, {})

    def board_of(side: Side, termination: Termination) -> str:
        """In words of the new drawing; "" for a part of no board."""
        board = side.board(termination.reference)
        return boards.get(board, f"old: {board}") if board and side is old else board

    def alone(side: Side, termination: Termination) -> Hashable:
        return board_of(side, termination) or None

    def place(side: Side, termination: Termination) -> Hashable:
        board, name = board_of(side, termination), printed_name(termination)
        return (board, name) if board and name else None

    def uuid(side: Side, termination: Termination) -> Hashable:
        return (
            (termination.place.uuid, termination.place.sheet, board_of(side, termination))
            if termination.place.uuid
            else None
        )

    def uuid_anywhere(side: Side, termination: Termination) -> Hashable:
        """A plug can go into another board's connector; a pad or a lead of another board is another one."""
        goes = termination.kind is Kind.RECEPTACLE
        return (termination.place.uuid, "" if goes else board_of(side, termination)) if termination.place.uuid else None

    def reference(side: Side, termination: Termination) -> Hashable:
        alike = () if other_shapes else shape(termination)
        return (termination.reference, board_of(side, termination), is_loose(termination), alike)

    _join(old, new, found, "board", alone, only_ones=True)
    _join(old, new, found, "place", place)
    _join(old, new, found, "uuid", uuid)
    _join(old, new, found, "uuid", uuid_anywhere)
    _join(old, new, found, "reference", reference)
    return found


def _join(
    old: Side,
    new: Side,
    found: Anchors,
    what: str,
    key: Callable[[Side, Termination], Hashable],
    *,
    only_ones: bool = False,
) -> None:
    """Pairs those of one key, where it is that of one termination on each side.

    `only_ones`: of all terminations, not of those that are left.
    """
    taken = set(found.pairs.values())
    rest_old = [place for place in old.terminations.values() if only_ones or place.reference not in found.pairs]
    rest_new = [place for place in new.terminations.values() if only_ones or place.reference not in taken]
    before, after = _single(old, rest_old, key), _single(new, rest_new, key)
    for sign, was in before.items():
        if sign in after and not another_part(old.terminations[was], new.terminations[after[sign]]):
            found.pairs[was] = after[sign]
            found.how[was] = what


def _single(
    side: Side, terminations: Iterable[Termination], key: Callable[[Side, Termination], Hashable]
) -> dict[Hashable, str]:
    by_key: dict[Hashable, list[str]] = {}
    for termination in terminations:
        told = key(side, termination)
        if told is not None:
            by_key.setdefault(told, []).append(termination.reference)
    return {told: members[0] for told, members in by_key.items() if len(members) == 1}


def _boards(old: Side, new: Side) -> dict[str, str]:
    """Old board -> new board: by name, then by the uuids, the references and the plugs of all its terminations."""
    before, after = _terminations(old), _terminations(new)
    found = {board: board for board in before if board in after}
    for told in (_uuids, _references, _shapes, _signals):
        votes: Counter[tuple[str, str]] = Counter()
        taken = set(found.values())
        for one, terminations in before.items():
            if one in found:
                continue
            for other, candidates in after.items():
                common = told(terminations) & told(candidates)
                if other not in taken and 2 * common.total() > max(len(terminations), len(candidates)):
                    votes[one, other] = common.total()
        for (one, other), _ in sorted(votes.items(), key=lambda vote: (-vote[1], vote[0])):
            if one not in found and other not in found.values():
                found[one] = other
    return found


def _terminations(side: Side) -> dict[str, list[Termination]]:
    found: dict[str, list[Termination]] = {}
    for termination in side.terminations.values():
        board = side.board(termination.reference)
        if board:
            found.setdefault(board, []).append(termination)
    return found


def _uuids(terminations: Iterable[Termination]) -> Counter[Hashable]:
    return Counter(termination.place.uuid for termination in terminations if termination.place.uuid)


def _references(terminations: Iterable[Termination]) -> Counter[Hashable]:
    return Counter(
        (termination.reference, termination.kind, termination.family, termination.ways) for termination in terminations
    )


def _shapes(terminations: Iterable[Termination]) -> Counter[Hashable]:
    return Counter(shape(termination) for termination in terminations)


def _signals(terminations: Iterable[Termination]) -> Counter[Hashable]:
    """The same signals in another order."""
    return Counter(
        (
            termination.kind,
            termination.family,
            termination.ways,
            tuple(sorted(contact.label for contact in termination.contacts)),
        )
        for termination in terminations
    )


def printed_name(termination: Termination) -> str:
    """The place's name on the board, however it is written; "" where the drawing has only that of a symbol."""
    name = termination.value.strip().casefold()
    return "" if name.startswith(_GENERIC) else re.sub(r"[\s_-]", "", name)
