"""A pack, or another part with its own wires, that is another one now: these go with it, the new one's come.

Nobody solders a new pack to the old one's wires, or a plug to wires that are live.  A pack whose own plug goes in is
unplugged and put away.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from tabside.compare.fates.cable_fate import MAKE, MAKE_WORDS, MEASURED, RE_MAKE, RETIRE, CableFate, wires_of
from tabside.compare.fates.cables import Cables
from tabside.compare.fates.leads import with_made
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends, as_cable
from tabside.compare.side import Side
from tabside.model.craft import Cable

GOES = (
    "Another pack: the old one's own wires come off, one at a time, and it is put away before the new one comes near."
)
_LEAVES = "This pack goes, and none comes in its place: its own wires come off, one at a time, and it is put away."
_OFF = "Another part: the old one's own wires come off."
_WHOLE = "Another pack: the old one goes with its own wires and its plug."
_PART = "Another part: the old one goes with its own wires and its plug."
_PART_COMES = "Another part: it brings its own wires."
_COMES = "Another pack: its own wires are soldered on last of all, one at a time."


def with_packs_exchanged(rebuild: Rebuild, found: Cables, other: Collection[str]) -> Cables:
    """The same, where a pack's own wires are those of another pack; `other`: old references where these begin."""
    if not other:
        return found
    told = {*(a for fate in found.fates for a, _ in fate.wires), *(a for fate in found.fates for a in fate.gone)}
    leaving = [_leaving(rebuild.old, fate, other, told) for fate in found.fates]
    parted = [_parted(rebuild, fate, leaves) for fate, leaves in zip(found.fates, leaving, strict=True)]
    off = [wire for each in parted for wire in each.off]
    fates = (*_off_first(rebuild, off), *(fate for each in parted for fate in each.fates))
    made = [after for leaves in leaving for _, after in leaves.used]
    return Cables(fates, with_made(found.leads, made))


class _Leaving(NamedTuple):
    """What of one cable goes with the old part."""

    used: list[tuple[Ends, Ends]]  # wires that were to go on
    gone: list[Ends]  # and those that were not
    wires: tuple[Ends, ...]  # all that leaves the cable


def _leaving(old: Side, fate: CableFate, other: Collection[str], told: Collection[Ends]) -> _Leaving:
    """`told`: old wires of which some cable says what becomes of them."""

    def goes(wire: Ends) -> bool:
        return any(ref in other for ref, _ in old.own_ends(wire))

    used = [(before, after) for before, after in fate.wires if goes(before)]
    gone = [wire for wire in fate.gone if goes(wire)]
    if fate.old is not None:  # with what would have stayed in its plug, unused
        gone += [wire for wire in wires_of(old, fate.old) if wire not in told and goes(wire)]
    leaves = (*(a for a, _ in used), *gone)
    if leaves and len(used) == len(fate.wires) and not any(map(old.is_of_pack, leaves)):
        leaves = tuple(dict.fromkeys((*leaves, *fate.gone)))  # with what else goes of that cable
    return _Leaving(used, gone, leaves)


class _Parted(NamedTuple):
    """One cable without the old part."""

    fates: list[CableFate]
    off: tuple[Ends, ...] = ()  # wires that come off before its turn


def _parted(rebuild: Rebuild, fate: CableFate, leaving: _Leaving) -> _Parted:
    old, new = rebuild.old, rebuild.new
    leaves = leaving.wires
    whole = fate.old is not None and fate.old.mark and set(leaves) == wires_of(old, fate.old)
    unplugged = whole and fate.new is None and all(map(old.is_in_own_plug, leaves))  # none comes in its place
    if not leaves or unplugged:
        return _Parted([fate])
    hot = any(map(old.is_of_pack, leaves))
    if whole:
        goes = CableFate(RETIRE, fate.old, None, _WHOLE if hot else _PART, gone=leaves, pack_goes=hot)
        return _Parted([goes] if fate.new is None else [goes, _made_whole(new, fate.new)])
    left = _without(new, fate, leaving.used, leaving.gone)
    if left.wires and not hot:
        return _Parted([left._replace(gone=(*left.gone, *leaves))])  # out of a plug in which others stay, in its turn
    return _Parted([left] if left.new is not None or left.gone else [], leaves)


def _made_whole(new: Side, cable: Cable) -> CableFate:
    return CableFate(MAKE, None, cable, MAKE_WORDS, made=tuple(sorted(wires_of(new, cable), key=sorted)))


def _off_first(rebuild: Rebuild, off: Collection[Ends]) -> Iterator[CableFate]:
    """Sheets of their own on which old parts go: packs, then all others."""
    old, matching = rebuild.old, rebuild.matching
    live = [wire for wire in off if old.is_of_pack(wire)]
    cold = [wire for wire in off if not old.is_of_pack(wire)]
    if live:
        stay = any(ref in matching.pairs for wire in live for ref, _ in old.own_ends(wire))
        said = GOES if stay else _LEAVES
        yield CableFate(RETIRE, as_cable(old, live), None, said, gone=tuple(live), pack_goes=True)
    if cold:
        yield CableFate(RETIRE, as_cable(old, cold), None, _OFF, gone=tuple(cold))


def boards_that_go(old: Side, fates: Iterable[CableFate]) -> set[str]:
    """Packs that have a sheet of their own on which they go, with their own wires."""
    going = (wire for fate in fates if fate.pack_goes for wire in fate.gone)
    return {old.terminations[ref].board for wire in going for ref, _ in old.own_ends(wire)} & old.packs


def _without(new: Side, fate: CableFate, mine: Collection[tuple[Ends, Ends]], gone: Collection[Ends]) -> CableFate:
    """The cable with the new part's wires made, and the old one's gone before its turn comes."""
    fate = fate._replace(gone=tuple(wire for wire in fate.gone if wire not in gone))
    if not mine:
        alone = fate.made and not (fate.wires or fate.gone)
        return CableFate(MAKE, None, fate.new, MAKE_WORDS, made=fate.made) if alone else fate
    comes = _COMES if any(new.is_of_pack(b) for _, b in mine) else _PART_COMES
    wires = tuple(pair for pair in fate.wires if pair not in mine)
    made = tuple(sorted((*fate.made, *(b for _, b in mine)), key=sorted))
    if not wires and not fate.gone:
        return CableFate(MAKE, None, fate.new, f"{comes} {MAKE_WORDS}", made=made)
    return fate._replace(what=RE_MAKE, said=f"{comes} {fate.said or MEASURED}", wires=wires, made=made, moved=None)
