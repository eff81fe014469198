"""What becomes of one old cable that is to be a new one: which wires stay, what hands do, and that in words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from functools import cached_property

from tabside.analysis.lead_ends import EndKind, plug_kind
from tabside.compare.fates.cable_fate import (
    KEEP,
    MEASURED,
    MOVE_PLUG,
    RE_HOUSE,
    RE_MAKE,
    RE_PIN,
    RE_USE,
    SHORTEN,
    CableFate,
    ends_moved,
    own_unfit_words,
    wires_of,
)
from tabside.compare.fates.conversions import Conversion
from tabside.compare.fates.leads import LeadFates
from tabside.compare.rebuild import Rebuild
from tabside.compare.reuse.wires import (
    SLACK,
    Ends,
    another_plug,
    gets_new_end,
    goes_over,
    is_replaced,
    own_unfit,
    shorter_by,
    to_see,
    to_see_words,
    why_not,
)
from tabside.compare.side import Side, another_board
from tabside.facts import families
from tabside.model.craft import Cable, ContactKey
from tabside.model.natural import natural
from tabside.words.contacts import counted, listed


class Decision:
    """What is done with one old cable: which wires stay, what hands do, and that in words.

    `taken`: wires of which one end goes into another plug, or is made anew.
    """

    def __init__(
        self,
        rebuild: Rebuild,
        leads: LeadFates,
        conversion: Conversion,
        taken: Collection[tuple[Ends, Ends]] = (),
    ) -> None:
        self._rebuild, self._leads = rebuild, leads
        self._old, self._new, self._matching = old, new, _ = rebuild
        self._was, self._now, places = conversion
        self._here, self._there = wires_of(old, self._was), wires_of(new, self._now)
        other = [ref for ref, to in places.items() if another_plug(old, ref, new, to)]
        over = [ref for ref in other if goes_over(old, ref, new, places[ref])]
        replaced = [ref for ref in other if ref not in over]
        wires = self._used_again(taken, replaced)
        self._replaced = [ref for ref in replaced if not _touch(wires, ref)]
        self._places = {
            ref: to for ref, to in places.items() if ref in self._replaced or not is_replaced(old, ref, new, to)
        }
        self._wires = [] if self._is_another_object(wires) else wires
        self._over = [ref for ref in over if _touch(self._wires, ref)]
        missing = self._there - {b for _, b in self._wires}
        left = self._here - {a for a, _ in self._wires}
        self._there_already = frozenset(wire for wire in missing if _comes_along(old, new, wire, self._places))
        there = {b for _, b in self._wires} | missing
        self._unused = frozenset(wire for wire in left if _stays_unused(old, wire, self._places, there))
        self._made, self._gone = missing - self._there_already, left - self._unused

    def _used_again(self, taken: Collection[tuple[Ends, Ends]], replaced: Collection[str]) -> list[tuple[Ends, Ends]]:
        """Old and new ends of each wire that serves again."""
        old, new = self._old, self._new
        return [
            (a, b)
            for a, b in self._leads.pairs
            if a in self._here
            and b in self._there
            and ((a, b) in taken or (not why_not(old, a, new, b) and not any(key[0] in replaced for key in a)))
        ]

    def _is_another_object(self, wires: Collection[tuple[Ends, Ends]]) -> bool:
        """Coax, USB and plugs that cut through the insulation: not all of it serves again, so none of it does."""
        whole = len(wires) >= max(len(self._here), len(self._there))
        plugs = [*_plugs(self._old, self._here), *_plugs(self._new, self._there)]
        return not whole and any(map(_one_object, plugs))

    @cached_property
    def _moving(self) -> list[tuple[Ends, Ends, list[tuple[ContactKey, ContactKey]]]]:
        """Wires that serve again elsewhere or otherwise, with their ends that go to another place."""
        kept = set(self._leads.kept)
        return [(a, b, ends_moved(self._places, a, b)) for a, b in self._wires if (a, b) not in kept]

    @cached_property
    def _hands(self) -> list[tuple[ContactKey, ContactKey]]:
        """Ends of wires that go to another place."""
        return [end for _, _, ends in self._moving for end in ends]

    @cached_property
    def _new_ends(self) -> int:
        """Ends of wires that serve again which are cut off and made once more."""
        return sum(gets_new_end(self._old, a, x, self._new, b, y) for a, b, ends in self._moving for x, y in ends)

    @cached_property
    def _contacts(self) -> int:
        """Of the ends that move those that go into a housing as they are."""
        return sum(
            self._new.terminations[y[0]].takes_plug and not gets_new_end(self._old, a, x, self._new, b, y)
            for a, b, ends in self._moving
            for x, y in ends
        )

    @cached_property
    def _housings(self) -> list[str]:
        """New connectors whose plug none of the old ones becomes."""
        used = {key[0] for _, b in self._wires for key in b}
        return sorted(used & self._new.plugged(self._now.leads) - set(self._places.values()), key=natural)

    @cached_property
    def _shorter(self) -> dict[Ends, float]:
        """Millimetres by which each wire is too long, by its new ends."""
        found = {b: shorter_by(self._old, a, self._new, b) for a, b in self._wires}
        return {ends: spare for ends, spare in found.items() if spare}

    @cached_property
    def _plugs(self) -> dict[str, str]:
        """Plugs that go into another connector, or into one of another board."""
        return {
            ref: to
            for ref, to in self._places.items()
            if self._new.terminations[to].takes_plug
            and (self._matching.pairs.get(ref) != to or another_board(self._old, self._new, ref, to))
        }

    @cached_property
    def _unfit(self) -> dict[str, str]:
        """New number of each own wire of a part that will not do -> why."""
        reasons = ((self._new.leads[b].mark, own_unfit(self._old, a, self._new, b)) for a, b in self._wires)
        return {mark: why for mark, why in reasons if why}

    @cached_property
    def _stays(self) -> bool:
        """Whether it stays where it is at one end at least."""
        return any(self._matching.pairs.get(ref) == to for ref, to in self._places.items())

    @cached_property
    def _only_plugged(self) -> bool:
        """Nothing is done to it but that its plugs go into other connectors, with no pack near."""
        work = (self._hands, self._made, self._gone, self._there_already, self._unused, self._replaced, self._over)
        if not self._stays or not self._plugs or any(work) or self._shorter or self._unfit:
            return False
        return not (_meets_pack(self._old, self._was) or _meets_pack(self._new, self._now))

    @cached_property
    def _untried(self) -> list[str]:
        """Connectors in which no plug with these wires has been."""
        return [to for to in self._plugs.values() if not _is_tried(self._rebuild, self._now, to)]

    @cached_property
    def _what(self) -> str:
        return _what(
            made=bool(self._made or self._gone or self._replaced or self._new_ends or self._unfit),
            over=bool(self._over),
            plugs=bool(self._plugs),
            hands=len(self._hands),
            shorter=bool(self._shorter),
            stay=self._stays,
        )

    def fate(self) -> CableFate:
        """What becomes of the old cable."""
        moves = self._what in (RE_PIN, RE_HOUSE, RE_USE, MOVE_PLUG)
        return CableFate(
            self._what,
            self._was,
            self._now,
            " ".join(self._said()),
            tuple(sorted(self._wires, key=lambda pair: sorted(pair[1]))),
            tuple(sorted(self._made, key=sorted)),
            tuple(sorted(self._gone, key=sorted)),
            tuple(self._places.items()),
            len(self._hands) if moves else None,
            tuple(self._over),
            tuple(sorted(self._there_already, key=sorted)),
            unfit=tuple(sorted(self._unfit.items(), key=lambda item: natural(item[0]))),
            replugged=tuple(self._plugs.values()) if self._only_plugged else None,
            untried=tuple(self._untried) if self._only_plugged else (),
        )

    def _said(self) -> Iterator[str]:
        yield from self._said_of_plugs()
        yield from self._said_of_ends()
        yield from self._said_of_wires()
        if self._only_plugged:
            yield _replugged_words(self._new, self._untried)
        elif self._what != KEEP:
            yield MEASURED

    def _said_of_plugs(self) -> Iterator[str]:
        old, new = self._old, self._new
        if self._plugs and not self._stays:
            yield f"Use the old cable of {' and '.join(old.name(end) for end in self._was.ends)} here."
        for ref, to in self._plugs.items():
            places = [old.name(ref), new.name(to)]
            if places[0] == places[1]:  # one reference for both: what is printed there tells them apart
                values = old.terminations[ref].value, new.terminations[to].value
                places = [f"{place} ({value})" for place, value in zip(places, values, strict=True)]
            yield f"Unplug it from {places[0]} and plug it into {places[1]}."
        if self._replaced:
            names = ", ".join(new.name(self._places[ref]) for ref in self._replaced)
            yield f"What goes in at {names} has changed."
        for to in (self._places[ref] for ref in self._over):
            housing = f"{families.family(new.terminations[to].family or '').title} {new.terminations[to].ways}-way"
            yield f"Re-house: at {new.name(to)} its contacts go over into a {housing} housing."

    def _said_of_ends(self) -> Iterator[str]:
        contacts, joints = self._contacts, len(self._hands) - self._contacts - self._new_ends
        if contacts and not self._over:
            yield f"Re-pin, {counted(contacts, 'contact')} to move: the steps name each wire."
        if joints > 0:
            yield f"Re-solder, {counted(joints, 'joint')} to move: the steps name each wire."
        if self._new_ends:
            yield f"New ends to make: {self._new_ends}; the steps name each wire."
        if self._housings:
            yield f"It gets a new housing at {listed([self._new.name(ref) for ref in self._housings], 40)}."

    def _said_of_wires(self) -> Iterator[str]:
        old, new = self._old, self._new
        if self._there_already or self._unused:
            yield "Of the part's own plug another wire is used than before: it stays as it is."
        if self._made or self._gone:
            yield self._said_of_made()
            reasons = _reasons(old, new, self._leads, self._here, self._there)
            yield from sorted({f"One there is {why}." for why in reasons})
        yield from self._said_of_lengths()
        for mark in sorted(self._unfit, key=natural):
            yield own_unfit_words(mark, self._unfit[mark])
        seen = {place for a, b in self._wires for place in to_see(old, a, new, b)}
        if seen:
            yield to_see_words(sorted(seen, key=natural))

    def _said_of_made(self) -> str:
        if self._made and not self._wires:
            if all(map(self._new.is_in_own_plug, self._made)):
                return "The new part brings its own wires and its plug; the old cable goes."
            if self._was.mark:
                return "All its wires are made new, and the old cable goes whole."
        return f"Wires to make: {len(self._made)}; wires to take out: {len(self._gone)}."

    def _said_of_lengths(self) -> Iterator[str]:
        """Wires that are too long by as much in one sentence."""
        marks: dict[str, list[str]] = {}
        for ends, spare in sorted(self._shorter.items(), key=lambda item: natural(self._new.leads[item[0]].mark)):
            marks.setdefault(f"{round(spare, 1):g} mm too long: {SLACK}", []).append(self._new.leads[ends].mark)
        for words, alike in marks.items():
            yield f"{listed(alike, 40)} {'is' if len(alike) == 1 else 'are'} {words}"


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


def _replugged_words(new: Side, untried: Collection[str]) -> str:
    if not untried:
        return "Nothing in it changes."
    first = listed([new.name(to) for to in untried], 40)
    return f"Nothing in it changes; measure it at {first}, where no such plug has been."


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


def _reasons(
    old: Side, new: Side, leads: LeadFates, here: AbstractSet[Ends], there: AbstractSet[Ends]
) -> Iterator[str]:
    for a, b in leads.altered:
        if a in here and b in there and (why := why_not(old, a, new, b)):
            yield why
