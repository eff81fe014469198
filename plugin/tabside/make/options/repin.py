"""Which contacts move so that a cable that is there becomes the drawn one, and in which order.

A cable is a set of leads, each a pair of cavities: of its first plug and of its second.  Cavities count from 1.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from enum import StrEnum

from msgspec import Struct

Pair = tuple[int, int]  # cavity of plug 0, cavity of plug 1


class Hand(StrEnum):
    TAKE_OUT = "take out"
    PUT_IN = "put in"
    LEAVE_OUT = "leave out"


class Move(Struct, frozen=True):
    """One contact out of a cavity or into one."""

    hand: Hand
    plug: int  # 0 or 1
    cavity: int
    lead: int  # index into the leads that are there


class Repin(Struct, frozen=True):
    """How the leads that are there become the drawn ones."""

    becomes: Mapping[int, Pair]  # lead that is there -> drawn pair; leads that are not named are left out
    unused: tuple[int, ...]
    moves: tuple[Move, ...]
    moved: int  # contacts put into another cavity, the fewest possible

    @property
    def plugs(self) -> tuple[int, ...]:
        """At which a contact is put in."""
        return tuple(sorted({move.plug for move in self.moves if move.hand is Hand.PUT_IN}))


def plan_repin(there: Sequence[Pair], drawn: Collection[Pair], at: int | None = None) -> Repin | None:
    """The plan with the fewest moves; `at` allows contacts of one plug only to be put elsewhere.

    None when the leads that are there cannot become the drawn ones: too few, or not by work at that plug alone.
    """
    wanted = sorted(drawn)
    becomes = _match(there, wanted, at)
    if becomes is None:
        return None
    unused = tuple(n for n in range(len(there)) if n not in becomes)
    moves: list[Move] = []
    for lead in unused:  # a lead that is not used leaves both plugs before anything else needs its cavities
        moves += [Move(Hand.LEAVE_OUT, plug, there[lead][plug], lead) for plug in (0, 1)]
    for plug in (0, 1):
        goes = {n: (there[n][plug], pair[plug]) for n, pair in becomes.items()}
        moves += in_order(goes, plug)
    moved = sum(there[n][plug] != pair[plug] for n, pair in becomes.items() for plug in (0, 1))
    return Repin(becomes, unused, tuple(moves), moved)


def _match(there: Sequence[Pair], wanted: Sequence[Pair], at: int | None) -> dict[int, Pair] | None:
    """Each drawn pair gets a lead, with the fewest cavities changed.

    A lead that joins the drawn pair already keeps it: giving it away never saves a move, since any other lead needs
    one move for this pair at least, and the lead itself one for any other pair.
    """
    index = {pair: n for n, pair in enumerate(there)}
    becomes = {index[pair]: pair for pair in wanted if pair in index}
    left = [pair for pair in wanted if pair not in index]
    free = [n for n in range(len(there)) if n not in becomes]
    if len(free) < len(left):
        return None
    found = _most_matched(left, free, there, at)
    becomes |= found
    rest = [pair for pair in left if pair not in set(found.values())]
    if rest and at is not None:
        return None
    spare = [n for n in free if n not in becomes]
    becomes |= dict(zip(spare, rest, strict=False))
    return dict(sorted(becomes.items()))


def _most_matched(left: Sequence[Pair], free: Sequence[int], there: Sequence[Pair], at: int | None) -> dict[int, Pair]:
    """As many drawn pairs as possible get a lead of which one end stays where it is (augmenting paths)."""
    kept = (0, 1) if at is None else (1 - at,)
    fits = {pair: [n for n in free if any(there[n][plug] == pair[plug] for plug in kept)] for pair in left}
    given: dict[int, Pair] = {}

    def give(pair: Pair, tried: set[int]) -> bool:
        for n in fits[pair]:
            if n not in tried:
                tried.add(n)
                if n not in given or give(given[n], tried):
                    given[n] = pair
                    return True
        return False

    for pair in left:
        give(pair, set())
    return given


def is_parked(moves: Sequence[Move], n: int) -> bool:
    """Whether the contact that move `n` takes out waits while another one goes in."""
    return next(later for later in moves[n + 1 :] if later.hand is Hand.PUT_IN).lead != moves[n].lead


def in_order(goes: Mapping[int, Pair], plug: int) -> list[Move]:
    """Takes out and puts in so that every cavity is empty when it is needed.

    Runs that end in an empty cavity go from that end and park nothing; in a ring one contact is parked while the
    others move up.
    """
    sits = {source: lead for lead, (source, _) in goes.items()}
    to_do = {lead: pair for lead, pair in goes.items() if pair[0] != pair[1]}
    moves: list[Move] = []

    def take(lead: int) -> None:
        moves.append(Move(Hand.TAKE_OUT, plug, to_do[lead][0], lead))
        del sits[to_do[lead][0]]

    def put(lead: int) -> None:
        _, target = to_do.pop(lead)
        moves.append(Move(Hand.PUT_IN, plug, target, lead))
        sits[target] = lead

    def up() -> None:
        while ready := [lead for lead, (_, target) in to_do.items() if target not in sits and lead != parked]:
            take(ready[0])
            put(ready[0])

    parked: int | None = None
    up()
    while to_do:
        parked = min(to_do, key=lambda lead: to_do[lead][0])
        take(parked)
        up()
        put(parked)
        parked = None
    return moves
