"""What a pack reaches: packs in series, or that meet in a splice, are one circuit."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.make.needs.live_leads import fuses, switches
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement
from tabside.words.fuses import leave_out

_PASSES = (Kind.SPLICE, Kind.INLINE)


class Circuit(NamedTuple):
    """What a pack of the new build reaches: packs in series, or that meet in a splice, are one circuit."""

    packs: tuple[str, ...]
    wires: frozenset[str]
    places: frozenset[str]
    fuses: tuple[str, ...]
    switches: tuple[str, ...]
    loads: int  # what takes its current and is not plugged in, at plus
    gated: bool  # a fuse, once it is out, parts each of its packs from all loads and plugs
    in_series: bool = False  # one pack's plus is on another one's minus

    def waits_for(self, packs: Collection[str]) -> bool:
        """Whether its volts are nowhere on the craft before these packs are on."""
        return self.in_series and any(pack in packs for pack in self.packs)

    def comes_again(self, packs: Collection[str]) -> bool:
        """Whether one of these packs, which are off until the last sheet is done, is in it."""
        return any(pack in packs for pack in self.packs)

    @property
    def has_plug(self) -> bool:
        """Whether it ends in plugs: it can be parted from the craft."""
        return not self.loads

    def is_of(self, row: Measurement) -> bool:
        """Whether its volts are measured there."""
        leads = {end.lead for end in row.ends if end.lead}
        return bool(leads & self.wires) if leads else bool({end.termination for end in row.ends} & self.places)

    def has_gate(self, joint_at_load: bool) -> bool:
        """Whether its fuses or switches keep power from more than the last joint."""
        return bool(self.fuses or self.switches) and self.loads > int(joint_at_load)

    @property
    def powers(self) -> bool:
        """Whether its last joint brings power onto the craft."""
        return not self.has_plug and not self.gated

    def fuse_stays_out(self) -> str:
        """Of a pack that has no plug."""
        return f"{leave_out(self.fuses)}: this pack has no plug. At first power put a smoke stopper in its place"


def fuse_waits(fuses: Collection[str]) -> str:
    """Where nothing but the fuse keeps a pack's power from the craft."""
    return f"{leave_out(fuses)} until first power; then a smoke stopper in its place first"


def circuits_of(side: Side) -> Iterator[Circuit]:
    """What its packs reach."""
    found: list[tuple[frozenset[str], frozenset[str]]] = []  # packs, and all that they reach
    for pack in sorted(set(side.live.values()), key=natural):
        packs, wires = frozenset((pack,)), side.reached(_own_wires(side, pack))
        for other in [circuit for circuit in found if circuit[1] & wires]:
            found.remove(other)
            packs, wires = packs | other[0], wires | other[1]
        found.append((packs, wires))
    for packs, wires in found:
        yield _circuit(side, packs, wires)


def _own_wires(side: Side, pack: str) -> set[str]:
    return {mark for mark in side.live if side.live[mark] == pack}


def _circuit(side: Side, packs: Collection[str], wires: frozenset[str]) -> Circuit:
    places, minus = met(side, wires), {mark for mark in wires if side.is_minus(mark)}
    plus = wires - minus
    ends = (end for mark in plus or wires for end in side.made_by_mark[mark].ends)
    own_plus = [_own_wires(side, pack) - minus for pack in packs]
    onto_minus = [meets_minus(side, own, pack) for pack, own in zip(packs, own_plus, strict=True)]
    return Circuit(
        packs=tuple(sorted(packs, key=natural)),
        wires=wires,
        places=frozenset(places),
        fuses=fuses(side.craft, places),
        switches=switches(side.craft, places),
        loads=len({end.key for end in ends if at_load(side, end)}),
        gated=all(_is_gated(side, own) for own, parted in zip(own_plus, onto_minus, strict=True) if not parted)
        or any(_is_fused_to_next(side, own) for own, parted in zip(own_plus, onto_minus, strict=True) if parted),
        in_series=any(onto_minus),
    )


def meets_minus(side: Side, plus: Iterable[str], pack: str) -> bool:
    """Whether this pack's plus goes on to the minus of the next one: that one is parted from the craft."""
    others = (mark for mark in side.reached(plus) if side.live.get(mark, pack) != pack)
    return any(side.is_minus(mark) for mark in others)


def _is_gated(side: Side, plus: Collection[str]) -> bool:
    """Whether fuses are on every way from these wires of a pack to a load or a plug, and there is one."""
    known = set(fuses(side.craft, side.terminations))
    waiting, seen, met_fuse = [side.by_mark[mark] for mark in plus], set[str](), False
    while waiting:
        lead = waiting.pop()
        if lead.mark in seen:
            continue
        seen.add(lead.mark)
        for end in side.made_by_mark[lead.mark].ends:
            passes = side.terminations[end.key[0]].kind in _PASSES
            if not passes and (end.kind is not EndKind.OWN or at_load(side, end)):
                return False
            fused = end.key[0] in known
            met_fuse = met_fuse or fused
            waiting += [
                other
                for other in side.craft.leads
                if passes and any(key == end.key if fused else key[0] == end.key[0] for key in other.ends)
            ]
    return met_fuse or not plus


def _is_fused_to_next(side: Side, plus: Collection[str]) -> bool:
    """Of packs in series: whether a fuse is between this one's plus and the minus of the next."""
    known = set(fuses(side.craft, side.terminations))
    waiting, seen = [side.by_mark[mark] for mark in plus], set[str]()
    while waiting:
        lead = waiting.pop()
        if lead.mark in seen:
            continue
        seen.add(lead.mark)
        if lead.mark in side.live and lead.mark not in plus:
            return False
        passed = {ref for ref, _ in lead.ends if ref not in known and side.terminations[ref].kind in _PASSES}
        waiting += [other for other in side.craft.leads if passed & {ref for ref, _ in other.ends}]
    return bool(plus)


def at_load(side: Side, end: LeadEnd) -> bool:
    """Whether nothing parts the wire there from what takes the pack's current: a pad, or a lamp's own wire."""
    other = side.terminations[end.key[0]].board not in side.packs
    return end.kind is EndKind.PAD or (end.kind is EndKind.OWN and other)


def met(side: Side, marks: Iterable[str]) -> set[str]:
    return {reference for mark in marks for reference, _ in side.by_mark[mark].ends}


def far_key(side: Side, mark: str) -> ContactKey:
    """Where a part's own wire ends outside the part: of a pack's at another part's own wire there."""
    ends = side.made_by_mark[mark].ends
    outside = [end for end in ends if end.kind is not EndKind.OWN]
    outside += [end for end in ends if side.terminations[end.key[0]].board != side.live.get(mark)]
    return (*outside, ends[-1])[0].key


def far_end(side: Side, mark: str) -> str:
    """The same in words."""
    reference, contact = far_key(side, mark)
    return f"{side.name(reference)} {contact}"


def old_end(rebuild: Rebuild, mark: str) -> str:
    """The place where a pack's own wire ends in the old build, as the new drawing calls it where it has it."""
    old, new, matching = rebuild
    reference, contact = far_key(old, mark)
    now = matching.pairs.get(reference)
    return f"{new.name(now)} {contact}" if now is not None else f"{old.name(reference)} {contact} of the old drawing"
