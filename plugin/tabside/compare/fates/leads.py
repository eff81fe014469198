"""What became of each lead: kept, made of something else, moved to another contact, taken out, or new."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import NamedTuple

from tabside.compare.fates.left_to_choice import Unplaced, alike, same_nets, same_parts
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import OtherBoard
from tabside.compare.reuse.wires import (
    Ends,
    another_plug,
    end_can_move,
    why_not,
)
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.model.craft import ContactKey
from tabside.model.natural import natural

_OTHER_JOB = 0.25  # less than an end to move: where as many are moved, a red wire does not become the minus
_WORTH = 100.0  # of a wire that is used again, against the ends to move


class WireWork(NamedTuple):
    """What its cable does with one new lead."""

    name: str  # "cable C3", or "wires W14 W15"
    is_made: bool
    moves: tuple[tuple[ContactKey, ContactKey], ...] = ()  # ends that go to another cavity or joint: old, new contact
    over: bool = False  # a contact of it goes over into another housing
    untouched: bool = False  # its cable is only plugged in elsewhere, where such a plug has been


class LeadFates(NamedTuple):
    """All leads of both crafts, by what happens to them; old ends are old contacts, new ends new ones."""

    kept: tuple[tuple[Ends, Ends], ...]  # old, new
    altered: tuple[tuple[Ends, Ends], ...]  # same contacts; gauge, colour, length or a plug is another
    moved: tuple[tuple[Ends, Ends], ...]  # the same wire at other contacts
    removed: tuple[Ends, ...]
    added: tuple[Ends, ...]

    @property
    def pairs(self) -> tuple[tuple[Ends, Ends], ...]:
        """Old and new ends of each wire that goes on."""
        return (*self.kept, *self.altered, *self.moved)

    @property
    def touched(self) -> tuple[Ends, ...]:
        """New leads that must be measured again."""
        return (*(new for _, new in self.altered), *(new for _, new in self.moved), *self.added)


def fates_of_leads(rebuild: Rebuild, swapped: Iterable[OtherBoard]) -> LeadFates:
    """Each old lead and each new lead once; none is moved yet.  `swapped`: boards that are others now."""
    old, new, matching = rebuild
    mapped = {ends: matching.ends(ends) for ends in old.leads}
    stays = {ends: now for ends, now in mapped.items() if now in new.leads and now is not None}
    kept: list[tuple[Ends, Ends]] = []
    altered: list[tuple[Ends, Ends]] = []
    for ends, now in stays.items():
        plugs = any(another_plug(old, key[0], new, matching.pairs[key[0]]) for key in ends)
        same = not plugs and alike(old.facts(ends), new.facts(now)) and not why_not(old, ends, new, now)
        (kept if same else altered).append((ends, now))
    left_old = sorted((ends for ends in old.leads if ends not in stays), key=lambda ends: _order(old, ends))
    left_new = sorted(set(new.leads) - set(stays.values()), key=lambda ends: _order(new, ends))
    unplaced = Unplaced(left_old, left_new, {ref for board in swapped for ref in board.leaves})
    chosen, left = same_nets(rebuild, unplaced)
    if (left.old or left.new) and not altered and same_parts(rebuild):
        whole = same_nets(rebuild, unplaced, whole=True)
        if not whole.left.old and not whole.left.new:  # nothing differs but what the order of references has decided
            chosen, left = whole
    return LeadFates((*kept, *chosen), tuple(altered), (), tuple(left.old), tuple(left.new))


def with_made(fates: LeadFates, made: Sequence[Ends]) -> LeadFates:
    """The same where these wires are made anew, whatever was there before."""
    anew = {pair for pair in (*fates.kept, *fates.moved) if pair[1] in made}
    if not anew:
        return fates
    return fates._replace(
        kept=tuple(pair for pair in fates.kept if pair not in anew),
        moved=tuple(pair for pair in fates.moved if pair not in anew),
        altered=(*fates.altered, *(pair for pair in (*fates.kept, *fates.moved) if pair in anew)),
    )


def with_pairs(fates: LeadFates, pairs: Collection[tuple[Ends, Ends]]) -> LeadFates:
    """The same where these old wires become these new ones, whatever was said of either before."""
    told = set(fates.pairs)
    moved = [pair for pair in pairs if pair not in told]
    old, new = {a for a, _ in moved}, {b for _, b in moved}
    apart = [(before, after) for before, after in told if before in old or after in new]

    def others(listed: tuple[tuple[Ends, Ends], ...]) -> tuple[tuple[Ends, Ends], ...]:
        return tuple(pair for pair in listed if pair not in apart)

    removed = dict.fromkeys([*fates.removed, *sorted((a for a, _ in apart), key=sorted)])
    added = dict.fromkeys([*fates.added, *sorted((b for _, b in apart), key=sorted)])
    return LeadFates(
        others(fates.kept),
        others(fates.altered),
        (*others(fates.moved), *moved),
        tuple(wire for wire in removed if wire not in old),
        tuple(wire for wire in added if wire not in new),
    )


def moves_between(
    old: Side, new: Side, places: Mapping[str, str], left_old: Iterable[Ends], left_new: Iterable[Ends]
) -> list[tuple[Ends, Ends]]:
    """Old wires for new places: those that need no end moved first, then one, then two.

    Where as many ends are moved, plus and minus stay what they are.  A wire of another gauge or colour, one that is too
    short, and an end that cannot be moved are no choice.  `places`: where each plug or joint of the old wires goes.
    """
    olds, news = list(left_old), list(left_new)
    moves: dict[tuple[Ends, Ends], float] = {}
    for before in olds:
        for after in news:
            count = _ends_to_move(old, new, places, before, after)
            if count is not None and not why_not(old, before, new, after):
                moves[before, after] = count + (_OTHER_JOB if _job(old, before) != _job(new, after) else 0.0)
    rest_old, rest_new = dict.fromkeys(olds), dict.fromkeys(news)
    moved: list[tuple[Ends, Ends]] = []
    for before, after in sorted(moves, key=lambda pair: moves[pair]):  # in their order where equal
        if before in rest_old and after in rest_new:
            del rest_old[before], rest_new[after]
            moved.append((before, after))
    if not any(pair[0] in rest_old or pair[1] in rest_new for pair in moves):
        return moved
    worth = [[_WORTH - moves[a, b] if (a, b) in moves else 0.0 for b in news] for a in olds]
    best = [(olds[r], news[c]) for r, c in best_pairs(worth) if worth[r][c]]
    return best if len(best) > len(moved) else moved


def _job(side: Side, wire: Ends) -> tuple[bool, bool]:
    """Whether it carries minus, and whether it carries a supply."""
    roles = [side.craft.contact(key).role for key in wire]
    return any(role.is_ground for role in roles), any(role.is_supply for role in roles)


def _ends_to_move(old: Side, new: Side, places: Mapping[str, str], before: Ends, after: Ends) -> int | None:
    """How many ends go to another contact, at the fewest; None when that cannot be done."""
    counts = []
    for order in (tuple(after), tuple(after)[::-1]):
        steps = [_end_moved(old, here, new, there, places) for here, there in zip(sorted(before), order, strict=True)]
        known = [step for step in steps if step is not None]
        if len(known) == len(steps):
            counts.append(sum(known))
    return min(counts, default=None)


def _end_moved(old: Side, here: ContactKey, new: Side, there: ContactKey, places: Mapping[str, str]) -> int | None:
    """0 when it is there, 1 when it can go there: a plug's contact stays in its plug, a joint may go elsewhere."""
    if (places.get(here[0]), here[1]) == there:
        return 0
    if new.terminations[there[0]].takes_plug and places.get(here[0]) != there[0]:
        return None
    return 1 if end_can_move(old, here, new, there) else None


def _order(side: Side, ends: Ends) -> tuple[object, ...]:
    return tuple((natural(reference), natural(contact)) for reference, contact in side.leads[ends].ends)
