"""A pack that is another one now: its own wires go with it, and those of the new one come.

Nobody solders a new pack to the old one's wires.  A pack whose own plug goes in is only unplugged.
"""

from __future__ import annotations

from collections.abc import Collection

from tabside.analysis.meeting.part_plugs import packs
from tabside.compare.fates.cable_fate import KEEP_WORDS, MAKE, MAKE_WORDS, RE_MAKE, RETIRE, CableFate, wires_of
from tabside.compare.fates.cables import Cables
from tabside.compare.fates.leads import with_made
from tabside.compare.fates.wires import Ends, as_cable
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.model.craft import Termination

GOES = (
    "Another pack: the old one's own wires come off, one at a time, and it is put away before the new one comes near."
)
_WHOLE = "Another pack: the old one goes with its own wires and its plug."
_COMES = "Another pack: its own wires are soldered on last of all, one at a time."


def with_packs_exchanged(old: Side, new: Side, matching: Matching, found: Cables) -> Cables:
    """The same, where a pack's own wires that are soldered on are those of another pack."""
    other = _exchanged(old, new, matching)
    if not other:
        return found
    fates: list[CableFate] = []
    off: list[Ends] = []
    made: list[Ends] = []
    for fate in found.fates:
        mine = [(a, b) for a, b in fate.wires if _is_own_of(old, a, other) and not new.is_in_own_plug(b)]
        mine = [(a, b) for a, b in mine if not old.is_in_own_plug(a)]
        if not mine or fate.new is None:
            fates.append(fate)
            continue
        made += [b for _, b in mine]
        if fate.old is not None and fate.old.mark and {a for a, _ in mine} == wires_of(old, fate.old):
            fates.append(CableFate(RETIRE, fate.old, None, _WHOLE, gone=tuple(a for a, _ in mine)))
            fates.append(
                CableFate(MAKE, None, fate.new, MAKE_WORDS, made=tuple(sorted(wires_of(new, fate.new), key=sorted)))
            )
            continue
        off += [a for a, _ in mine]
        fates.append(_without(fate, mine))
    if off:
        fates.insert(0, CableFate(RETIRE, as_cable(old, off), None, GOES, gone=tuple(off)))
    return Cables(tuple(fates), with_made(found.leads, made))


def _without(fate: CableFate, mine: Collection[tuple[Ends, Ends]]) -> CableFate:
    """The cable with the new pack's wires made, and the old one's gone before its turn comes."""
    wires = tuple(pair for pair in fate.wires if pair not in mine)
    made = tuple(sorted((*fate.made, *(b for _, b in mine)), key=sorted))
    if not wires and not fate.gone:
        return CableFate(MAKE, None, fate.new, f"{_COMES} {MAKE_WORDS}", made=made)
    words = "Measure all of it." if fate.words == KEEP_WORDS else fate.words
    return fate._replace(what=RE_MAKE, words=f"{_COMES} {words}", wires=wires, made=made, moved=None)


def _exchanged(old: Side, new: Side, matching: Matching) -> frozenset[str]:
    """Old references of the wires' beginnings at packs that are others now, by their value or by what they give."""
    live, still = packs(old.craft), packs(new.craft)
    pairs = [(old.terminations[a], new.terminations[b]) for a, b in matching.pairs.items()]
    mine = [(a, b) for a, b in pairs if a.board in live and b.board in still]
    boards = {
        a.board
        for a, b in mine
        if (a.value and b.value and a.value != b.value) or _other_volts(_volts(old, a), _volts(new, b))
    }
    return frozenset(a.reference for a, _ in mine if a.board in boards)


def _volts(side: Side, pack: Termination) -> tuple[str, ...]:
    """What it gives, by its own words or the craft file's; () when nobody says it."""
    rails = [rail for contact in pack.contacts for rail in contact.gives] or list(pack.gives)
    own = sorted({repr(rail.volts) for rail in rails if rail.volts is not None})
    if own:
        return tuple(own)
    battery = side.craft.settings.battery
    return () if battery is None else (repr(battery),)


def _other_volts(before: tuple[str, ...], after: tuple[str, ...]) -> bool:
    return bool(before and after) and before != after


def _is_own_of(side: Side, wire: Ends, packs_gone: Collection[str]) -> bool:
    return any(reference in packs_gone for reference, _ in side.own_ends(wire))
