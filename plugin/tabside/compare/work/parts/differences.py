"""Boards, packs and parts, by the difference of the two drawings."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import Exchanged, OtherBoard
from tabside.compare.side import Side
from tabside.compare.work.parts.thing import Tally, Thing, thing_of
from tabside.facts import families
from tabside.make.buy.part_purchases import inline_and_splices, other_parts
from tabside.model.craft import ContactKey, Kind, Termination
from tabside.model.natural import natural


def boards_by_difference(rebuild: Rebuild, others: Iterable[OtherBoard], tally: Tally) -> None:
    old, new, matching = rebuild
    for side, sign in ((old, -1), (new, 1)):
        for line in (*inline_and_splices(side.craft), *other_parts(side.craft.parts)):
            tally.more[thing_of(line)] += sign * (line.quantity or 0)
    kept = {(old.terminations[was].board, new.terminations[now].board) for was, now in matching.pairs.items()}
    renamed = {before for before, after in kept if before == after}
    for side, sign in ((old, -1), (new, 1)):
        for board in sorted(side.boards - renamed, key=natural):
            tally.more[Thing(f"board or part {board}")] += sign
    for other in others:
        if other.was == other.name:  # else it is told by its name
            tally.more[Thing(f"board {other.name} with the connectors drawn now, where the one there has others")] += 1


def packs_by_difference(rebuild: Rebuild, goes: Collection[str], tally: Tally) -> None:
    """A pack that goes under the name of the one that comes."""
    old, new = rebuild.old, rebuild.new
    for board in sorted(set(goes) & new.boards, key=natural):
        was, now = _pack_words(old, board), _pack_words(new, board)
        if was != now:
            tally.more[Thing(was)] -= 1
        tally.more[Thing(now if was != now else f"{now}, as drawn now")] += 1


def _pack_words(side: Side, board: str) -> str:
    mine = [termination for termination in side.terminations.values() if termination.board == board]
    gives = {rail.text for termination in mine for rail in termination.gives}
    said = (side.craft.settings.battery_text, *sorted(gives), *_own_plugs(side, board))
    return ", ".join((f"board or part {board}", *filter(None, said)))


def _own_plugs(side: Side, board: str) -> list[str]:
    ends = [end for made in side.made.values() for end in made.ends if end.kind is EndKind.MATED]
    meets = {end.key: end.family for end in ends if end.family}
    mine = {meets[key] for made in side.made.values() for key in _far_ends(side, made, board) if key in meets}
    return sorted(f"with its own {families.family(family).title} plug" for family in mine)


def _far_ends(side: Side, made: MadeLead, board: str) -> Iterator[ContactKey]:
    """Where a board's own wire goes in; of two own plugs in each other, the other one."""
    own = {key for key in side.own_ends(frozenset(made.lead.ends)) if side.terminations[key[0]].board == board}
    if own:
        yield from (key for key in made.lead.ends if key not in own)


def parts_by_difference(rebuild: Rebuild, exchanged: Exchanged, tally: Tally) -> None:
    """A lamp or a sensor that goes under the name of the one that comes."""
    old, new, matching = rebuild
    told = set[str]()  # with all of its own wires at once
    for reference, to in matching.pairs.items():
        before, after = old.terminations[reference], new.terminations[to]
        if before.board != after.board or not (
            before.board in exchanged.parts or exchanged.is_another_kind(before, after)
        ):
            continue
        if before.board in told:
            continue
        told.add(before.board)
        was, now = _part_words(before), _part_words(after)
        if was == now:
            was, now = f"{was}, {_how_joined(old, before)}", f"{now}, {_how_joined(new, after)}"
            tally.notes[Thing(now)] = (
                "or the one that is there, when this is put on its own wires, in the drawing's order"
            )
        tally.more[Thing(was)] -= 1
        tally.more[Thing(now)] += 1


def _part_words(part: Termination) -> str:
    return ", ".join(filter(None, (f"board or part {part.board}", part.value)))


def _how_joined(side: Side, part: Termination) -> str:
    if part.kind is not Kind.CAPTIVE:
        family = families.family(part.family).title if part.family else ""
        return f"with a board connector {family}".rstrip() if part.takes_plug else "with solder pads"
    return ", ".join(_own_plugs(side, part.board)) or "with bare wires of its own"
