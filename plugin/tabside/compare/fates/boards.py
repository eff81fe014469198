"""What becomes of cables whose board is another one: plugs go from the old one into the new one, joints as well.

A pack's own plug is out before the work begins, and stays so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.fates.cable_fate import KEEP, MEASURED, MOVE_PLUG, SHORTEN, CableFate
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import OtherBoard
from tabside.compare.reuse.wires import end_of
from tabside.compare.side import Side
from tabside.words.contacts import counted, listed

Comes = Mapping[str, OtherBoard]  # by each place on a board that comes


def with_other_boards(
    rebuild: Rebuild, fates: Iterable[CableFate], boards: Sequence[OtherBoard]
) -> tuple[CableFate, ...]:
    """The same, where boards are others."""
    comes = {ref: board for board in boards for ref in board.comes}
    return tuple(_on_other_boards(rebuild, fate, comes) if comes else fate for fate in fates)


def joints_on(new: Side, fate: CableFate, references: Iterable[str]) -> set[tuple[str, str]]:
    """Joints at these places to which wires that are used again are soldered in the new build."""
    places = set(references)
    return {
        key
        for _, after in fate.wires
        for key in after
        if key[0] in places and end_of(new, after, key).kind in (EndKind.PAD, EndKind.INLINE)
    }


def _on_other_boards(rebuild: Rebuild, fate: CableFate, comes: Comes) -> CableFate:
    new, matching = rebuild.new, rebuild.matching
    if fate.new is None or not fate.wires:
        return fate
    places = {ref: matching.pairs[ref] for a, _ in fate.wires for ref, _ in sorted(a) if ref in matching.pairs}
    places = {ref: to for ref, to in places.items() if to in fate.new.ends} | dict(fate.places)
    joints = joints_on(new, fate, comes)
    live = bool(set(fate.new.leads) & new.live.keys())
    plugged = new.plugged(fate.new.leads) if not live else set()
    plugs = tuple(to for to in places.values() if to in comes and to in plugged)
    words = " ".join(_words(new, joints, plugs, comes))
    if not words or fate.what not in (KEEP, MOVE_PLUG, SHORTEN):
        return fate
    board = next(comes[ref] for ref in (*(ref for ref, _ in sorted(joints)), *plugs))
    told = fate._replace(places=tuple(places.items()), said=f"{words} {fate.said or MEASURED}", board=board)
    if fate.what == SHORTEN:
        return told
    told = told._replace(what=MOVE_PLUG)
    if joints or (fate.what == MOVE_PLUG and fate.replugged is None):
        return told._replace(replugged=None, untried=())
    there = listed([new.name(to) for to in plugs], 40)
    said = fate.said or f"Nothing in it changes; measure it at {there}, where no such plug has been."
    return told._replace(
        said=f"{words} {said}",
        replugged=tuple(dict.fromkeys((*(fate.replugged or ()), *plugs))),
        untried=tuple(dict.fromkeys((*fate.untried, *plugs))),
    )


def _words(new: Side, joints: set[tuple[str, str]], plugs: Sequence[str], comes: Comes) -> Iterator[str]:
    for board in dict.fromkeys(comes.values()):
        mine = [key for key in joints if comes[key[0]] == board]
        there = [new.name(ref) for ref in plugs if comes[ref] == board]
        if there:
            yield f"Another {board.called}: out of the old one, into the new one at {listed(there, 40)}."
        if mine:
            yield f"Another {board.called}: {counted(len(mine), 'joint')} off the old one, onto the new one."
