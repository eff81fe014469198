"""What becomes of one old cable that is to be a new one: which wires stay, and what hands do with it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from collections.abc import Set as AbstractSet
from functools import cached_property
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import EndKind, plug_kind
from tabside.compare.fates.cable_fate import (
    KEEP,
    MOVE_PLUG,
    RE_HOUSE,
    RE_MAKE,
    RE_PIN,
    RE_USE,
    SHORTEN,
    ends_moved,
    wires_of,
)
from tabside.compare.fates.conversions import Conversion
from tabside.compare.fates.leads import LeadFates
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import (
    Ends,
    another_plug,
    gets_new_end,
    goes_over,
    is_replaced,
    own_unfit,
    shorter_by,
    why_not,
)
from tabside.compare.side import Side, another_board
from tabside.model.craft import Cable, ContactKey
from tabside.model.natural import natural


class _MovedEnd(NamedTuple):
    """An end of a wire, where it was and where it goes."""

    here: ContactKey
    there: ContactKey
    is_new: bool  # it is cut off and made once more


class Decision:
    """What is done with one old cable: which wires stay, and what hands do.

    `taken`: wires of which one end goes into another plug, or is made anew.
    """

    def __init__(
        self,
        rebuild: Rebuild,
        leads: LeadFates,
        conversion: Conversion,
        taken: Collection[tuple[Ends, Ends]] = (),
    ) -> None:
        self._rebuild, self.leads = rebuild, leads
        self.old, self.new, self._matching = old, new, _ = rebuild
        self.was, self.now, places = conversion
        self._here, self._there = wires_of(old, self.was), wires_of(new, self.now)
        other = [ref for ref, to in places.items() if another_plug(old, ref, new, to)]
        over = [ref for ref in other if goes_over(old, ref, new, places[ref])]
        replaced = [ref for ref in other if ref not in over]
        wires = self._used_again(taken, replaced)
        self.replaced = [ref for ref in replaced if not _touch(wires, ref)]
        self.places = {
            ref: to for ref, to in places.items() if ref in self.replaced or not is_replaced(old, ref, new, to)
        }
        self.wires = [] if self._is_another_object(wires) else wires
        self.over = [ref for ref in over if _touch(self.wires, ref)]
        missing = self._there - {b for _, b in self.wires}
        left = self._here - {a for a, _ in self.wires}
        self.there_already = frozenset(wire for wire in missing if _comes_along(old, new, wire, self.places))
        there = {b for _, b in self.wires} | missing
        self.unused = frozenset(wire for wire in left if _stays_unused(old, wire, self.places, there))
        self.made, self.gone = missing - self.there_already, left - self.unused

    def _used_again(self, taken: Collection[tuple[Ends, Ends]], replaced: Collection[str]) -> list[tuple[Ends, Ends]]:
        """Old and new ends of each wire that serves again."""
        old, new = self.old, self.new
        return [
            (before, after)
            for before, after in self.leads.pairs
            if before in self._here
            and after in self._there
            and (
                (before, after) in taken
                or (not why_not(old, before, new, after) and not any(key[0] in replaced for key in before))
            )
        ]

    def _is_another_object(self, wires: Collection[tuple[Ends, Ends]]) -> bool:
        """Coax, USB and plugs that cut through the insulation: not all of it serves again, so none of it does."""
        whole = len(wires) >= max(len(self._here), len(self._there))
        plugs = [*_plugs(self.old, self._here), *_plugs(self.new, self._there)]
        return not whole and any(map(_one_object, plugs))

    @cached_property
    def hands(self) -> list[_MovedEnd]:
        """Ends of wires that serve again elsewhere or otherwise, and go to another place."""
        kept = set(self.leads.kept)
        return [
            _MovedEnd(here, there, gets_new_end(self.old, before, here, self.new, after, there))
            for before, after in self.wires
            if (before, after) not in kept
            for here, there in ends_moved(self.places, before, after)
        ]

    @cached_property
    def new_ends(self) -> int:
        """Of these those that are cut off and made once more."""
        return sum(end.is_new for end in self.hands)

    @cached_property
    def contacts(self) -> int:
        """Of these those that go into a housing as they are."""
        return sum(self.new.terminations[end.there[0]].takes_plug and not end.is_new for end in self.hands)

    @cached_property
    def housings(self) -> list[str]:
        """New connectors whose plug none of the old ones becomes."""
        used = {key[0] for _, b in self.wires for key in b}
        return sorted(used & self.new.plugged(self.now.leads) - set(self.places.values()), key=natural)

    @cached_property
    def shorter(self) -> dict[Ends, float]:
        """Millimetres by which each wire is too long, by its new ends."""
        found = {after: shorter_by(self.old, before, self.new, after) for before, after in self.wires}
        return {ends: spare for ends, spare in found.items() if spare}

    @cached_property
    def plugs(self) -> dict[str, str]:
        """Plugs that go into another connector, or into one of another board."""
        return {
            ref: to
            for ref, to in self.places.items()
            if self.new.terminations[to].takes_plug
            and (self._matching.pairs.get(ref) != to or another_board(self.old, self.new, ref, to))
        }

    @cached_property
    def unfit(self) -> dict[str, str]:
        """New number of each own wire of a part that will not do -> why."""
        reasons = (
            (self.new.leads[after].mark, own_unfit(self.old, before, self.new, after)) for before, after in self.wires
        )
        return {mark: why for mark, why in reasons if why}

    @cached_property
    def stays(self) -> bool:
        """Whether it stays where it is at one end at least."""
        return any(self._matching.pairs.get(ref) == to for ref, to in self.places.items())

    @cached_property
    def only_plugged(self) -> bool:
        """Nothing is done to it but that its plugs go into other connectors, with no pack near."""
        work = (self.hands, self.made, self.gone, self.there_already, self.unused, self.replaced, self.over)
        if not self.stays or not self.plugs or any(work) or self.shorter or self.unfit:
            return False
        return not (_meets_pack(self.old, self.was) or _meets_pack(self.new, self.now))

    @cached_property
    def untried(self) -> list[str]:
        """Connectors in which no plug with these wires has been."""
        return [to for to in self.plugs.values() if not _is_tried(self._rebuild, self.now, to)]

    @cached_property
    def reasons(self) -> set[str]:
        """Why wires that are there between the same contacts will not do."""
        pairs = (
            (before, after) for before, after in self.leads.altered if before in self._here and after in self._there
        )
        return {why for was, now in pairs if (why := why_not(self.old, was, self.new, now))}

    @cached_property
    def what(self) -> str:
        return _what(
            made=bool(self.made or self.gone or self.replaced or self.new_ends or self.unfit),
            over=bool(self.over),
            plugs=bool(self.plugs),
            hands=len(self.hands),
            shorter=bool(self.shorter),
            stay=self.stays,
        )


def _touch(wires: Iterable[tuple[Ends, Ends]], reference: str) -> bool:
    """Whether one of these wires ended there before."""
    return any(key[0] == reference for a, _ in wires for key in a)


def _meets_pack(side: Side, cable: Cable) -> bool:
    """Whether it is a pack's own, so that its plug is handled with power near."""
    return bool(set(cable.leads) & side.live.keys())


def _is_tried(rebuild: Rebuild, now: Cable, connector: str) -> bool:
    """Whether another plug was in this connector before, with wires at the same contacts and the same said of them."""
    old, new, matching = rebuild
    before = next((ref for ref, to in matching.pairs.items() if to == connector), None)
    if before is None or another_plug(old, before, new, connector) or another_board(old, new, before, connector):
        return False
    wired = {number for number, _ in old.leads_at[before]}
    keys = {key for mark in now.leads for key in new.by_mark[mark].ends if key[0] == connector}
    same = all(old.label((before, key[1])) == new.label(key) for key in keys)
    return same and {number for _, number in keys} <= wired


def _comes_along(old: Side, new: Side, wire: Ends, places: Mapping[str, str]) -> bool:
    """Whether a wire that was not drawn is in the part's own plug all the same, where it is drawn now."""
    back = {to: ref for ref, to in places.items()}
    if not new.is_in_own_plug(wire) or len({number for _, number in wire}) > 1 or not {r for r, _ in wire} <= set(back):
        return False
    used = {(ref, number) for ref in back.values() for number, _ in old.leads_at[ref]}
    return not used & {(back[reference], number) for reference, number in wire}


def _stays_unused(old: Side, wire: Ends, places: Mapping[str, str], used: set[Ends]) -> bool:
    """Whether a wire that is no longer drawn can stay in the part's own plug: nothing else goes into its cavity."""
    full = {key for wire in used for key in wire}
    return old.is_in_own_plug(wire) and not any((places.get(key[0], ""), key[1]) in full for key in wire)


def _plugs(side: Side, wires: AbstractSet[Ends]) -> set[str | None]:
    found = (side.terminations[key[0]] for wire in wires for key in wire)
    return {termination.family for termination in found if termination.takes_plug}


def _one_object(family: str | None) -> bool:
    return plug_kind(family) in (EndKind.MADE, EndKind.SLOT)


def _what(*, made: bool, over: bool, plugs: bool, hands: int, shorter: bool, stay: bool) -> str:
    if not stay:
        return RE_USE
    if over:
        return RE_HOUSE
    if made:
        return RE_MAKE
    if hands:
        return RE_PIN
    if plugs:
        return MOVE_PLUG
    return SHORTEN if shorter else KEEP
