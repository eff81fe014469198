"""What a meter would show at each row, on a craft as drawn and with a mistake in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import NamedTuple

from msgspec import Struct

from tabside.prove.bench.mistakes import Change
from tabside.prove.bench.world import Inside, Joined, Place, PlaceKind, World, contact_of, key_of
from tabside.prove.measurement import End, Measurement, RowKind, When

AS_DRAWN = Change()


class State(Struct, frozen=True):
    """What is plugged in and soldered by then."""

    plugged: frozenset[str]  # terminations
    off: frozenset[str] = frozenset()  # switches that are off


class Bench:
    """The craft with one change, ready to be probed."""

    def __init__(
        self, world: World, change: Change = AS_DRAWN, *, promised: bool = False, sound: SoundBench | None = None
    ) -> None:
        """`promised`: count only on what nobody can break: what a sound craft must show.

        `sound`: rows that cannot notice the change are not probed here: they show what they show there.
        """
        self._sound = sound
        self._by_wire: dict[State, Joined] = {}
        self._world = world
        self._change = change
        self._sure = (Inside.JOINED,) if promised else (Inside.JOINED, Inside.RAIL)
        self._maybe = (Inside.UNKNOWN, Inside.RAIL, Inside.SIGNAL) if promised else (Inside.UNKNOWN,)
        self._moved_to: dict[Place, list[str]] = {}
        self._moved = {mark for mark, _ in change.moved}
        for mark in self._moved:
            for place in self._ends(mark):
                self._moved_to.setdefault(place, []).append(mark)
        self._bridges: dict[Place, list[Place]] = {}
        for a, b in change.bridges:
            self._bridges.setdefault(a, []).append(b)
            self._bridges.setdefault(b, []).append(a)
        self._soldered_to: dict[Place, list[Place]] = {}
        for bare, contact in change.soldered.items():
            self._soldered_to.setdefault(contact, []).append(bare)
        self._seats = {seat: (plug, turned) for plug, (seat, turned) in change.seated.items()}
        self._changed = self._places_changed()
        self._changed_at = {*change.miscounted, *change.seated, *self._seats}

    @property
    def changed(self) -> set[Place | str]:
        """Places and terminations from which the meter reaches something else than in the craft as drawn."""
        return {*self._changed, *self._changed_at}

    def _places_changed(self) -> set[Place]:
        """Places from which the meter reaches something else than in the craft as drawn."""
        places = {place for bridge in self._change.bridges for place in bridge}
        for mark in (*self._moved, *self._change.gone):
            places.update(self._world.wires[mark], self._ends(mark))
        for bare, contact in self._change.soldered.items():
            places |= {bare, contact, contact_of(bare)}
        return places

    def touched(self, end: End) -> Place:
        """Where a person's probe goes who follows the row."""
        place = self._world.probed(end)
        if place.kind is PlaceKind.CONTACT and end.lead is not None and self._moved_to:  # a pad, or a wire came there
            cavity = Place(PlaceKind.CAVITY, end.termination, end.contact)
            place = cavity if cavity in self._moved_to else place
        if place.kind is not PlaceKind.CAVITY or not self._change.miscounted:
            return place
        ways = self._change.miscounted.get(self._world.plug_at(place))
        return place if ways is None else place._replace(number=str(ways + 1 - int(place.number)))

    def reach(self, start: Place, state: State) -> tuple[set[Place], set[Place]]:
        """What certainly beeps from there, and what may."""
        return self.reaches(start, state), self.reaches(start, state, maybe=True)

    def reaches(self, start: Place, state: State, *, maybe: bool = False) -> set[Place]:
        """What certainly beeps from there; `maybe`: what may beep, too."""
        return self._walk(start, state, (*self._sure, *self._maybe) if maybe else self._sure)

    def _walk(self, start: Place, state: State, inside: tuple[Inside, ...]) -> set[Place]:
        seen = {start: False}  # whether a board's copper alone leads there: a wire to the same place leads on
        waiting = [(start, False)]
        changed, by_board = self._changed, self._world.by_board(inside, state.off)
        by_wire = elsewhere = self._wires_in(state)
        if self._sound is not None and not self._changed_at:
            elsewhere = self._sound._wires_in(state)
        while waiting:
            place, hopped = waiting.pop()
            for other in (by_wire if place in changed else elsewhere)[place]:
                if seen.get(other, True):
                    seen[other] = False
                    waiting.append((other, False))
            if not hopped:  # from contact to contact of one board once: what is apart is apart, whatever lies between
                for other in by_board[place]:
                    if other not in seen:
                        seen[other] = True
                        waiting.append((other, True))
        return set(seen)

    def _wires_in(self, state: State) -> Joined:
        """Where wires lead from a place."""
        if state not in self._by_wire:
            self._by_wire[state] = Joined(partial(self._led_to, state=state))
        return self._by_wire[state]

    def _led_to(self, place: Place, *, state: State) -> Iterable[Place]:
        """As on the sound bench, but from places that the change touches."""
        if self._sound is not None and not self._is_changed(place):
            return self._sound._wires_in(state)[place]
        return self._follow(place, state)

    def _is_changed(self, place: Place) -> bool:
        if place in self._changed:
            return True
        if not self._changed_at or place.kind is PlaceKind.GROUND:
            return False
        return place.at in self._changed_at or self._world.plug_at(place) in self._changed_at

    def _ends(self, mark: str) -> tuple[Place, Place]:
        first, second = self._world.wires[mark]
        moved = self._change.moved
        return (moved.get((mark, 0), first), moved.get((mark, 1), second))

    def _follow(self, place: Place, state: State) -> Iterator[Place]:
        gone = self._change.gone
        for mark in self._world.wires_at.get(place, ()):
            if mark not in self._moved and mark not in gone:
                a, b = self._world.wires[mark]
                yield b if a == place else a
        if self._moved_to:
            for mark in self._moved_to.get(place, ()):
                if mark not in gone:
                    a, b = self._ends(mark)
                    yield b if a == place else a
        if self._bridges:
            yield from self._bridges.get(place, ())
        if place.kind is PlaceKind.CAVITY and place.at in state.plugged:
            yield self._seat(place)
        elif place.kind is PlaceKind.BARE and place.at in state.plugged:
            yield self._change.soldered.get(place, contact_of(place))
        elif place.kind is PlaceKind.CONTACT:
            yield from self._into(place, state)

    def _seat(self, cavity: Place) -> Place:
        reference, turned = self._change.seated.get(self._world.plug_at(cavity), (cavity.at, None))
        number = cavity.number if turned is None else str(turned + 1 - int(cavity.number))
        return Place(PlaceKind.CONTACT, reference, number)

    def _into(self, contact: Place, state: State) -> Iterator[Place]:
        """From a board's contact into what is plugged in or soldered there."""
        if contact.at in self._seats:
            plug, turned = self._seats[contact.at]
            if plug in state.plugged and (turned is None or contact.number.isdecimal()):
                number = contact.number if turned is None else str(turned + 1 - int(contact.number))
                yield Place(PlaceKind.CAVITY, plug, number)
        elif contact.at in state.plugged and contact.at not in self._change.seated:
            yield Place(PlaceKind.CAVITY, contact.at, contact.number)
        if contact.at in state.plugged:
            for bare in self._world.soldered_at.get(contact, ()):
                if bare not in self._change.soldered:
                    yield bare
            yield from self._soldered_to.get(contact, ())

    def fails(self, row: Measurement) -> bool | None:
        """Whether the row shows anything else than it must; None: it may."""
        if row.when is When.METER:
            return False  # no wire is in it
        if self._sound is not None:
            scope = self._sound.scope(row)
            if self._changed.isdisjoint(scope.places) and self._changed_at.isdisjoint(scope.at):
                return scope.fails
        return self.probed(row)

    def probed(self, row: Measurement) -> bool | None:
        """The same, with the probes."""
        if row.kind is RowKind.VOLTS:
            return self._volts_fail(row)
        start, state = self.touched(row.where), state_of(row)
        sure = self.reaches(start, state)
        apart = [self.touched(end) for end in row.open]
        if not sure.isdisjoint(apart):
            return True
        quiet = [place for end in row.joined if (place := self.touched(end)) not in sure]
        if not quiet and not apart:
            return False
        maybe = self.reaches(start, state, maybe=True)
        if not maybe.issuperset(quiet):
            return True
        return None if quiet or not maybe.isdisjoint(apart) else False

    def _volts_fail(self, row: Measurement) -> bool:
        """Red must reach a pack's plus and black its minus, and nothing both."""
        state = state_of(row)
        red = self.reaches(self.touched(row.where), state)
        black = self.reaches(self.touched(row.joined[0]), state)
        good = self._poles(red) == {"+"} and self._poles(black) == {"-"}
        return not good

    def _poles(self, places: Iterable[Place]) -> set[str]:
        found = set()
        for place in places:
            if place.kind is PlaceKind.CONTACT and self._world.is_pack(place.at):
                role = self._world.craft.contact(key_of(place)).role
                found.add("-" if role.is_ground else "+")
        return found


class Scope(NamedTuple):
    """What a row depends on in the craft as drawn, and whether it fails there."""

    row: Measurement
    places: set[Place]  # that its probes reach, for certain or perhaps
    at: set[str]  # terminations and plugs of these places and of its ends
    fails: bool | None


class SoundBench(Bench):
    """The craft as drawn, which remembers what each row depends on: hundreds of mistakes are held against it."""

    def __init__(self, world: World) -> None:
        super().__init__(world)
        self._scopes: dict[int, Scope] = {}  # by the row's identity: to compare rows takes longer than to probe

    def scope(self, row: Measurement) -> Scope:
        known = self._scopes.get(id(row))
        if known is None or known.row is not row:
            known = self._scopes[id(row)] = self._scope(row)
        return known

    def _scope(self, row: Measurement) -> Scope:
        state = state_of(row)
        fixed = (row.where, *(row.joined if row.kind is RowKind.VOLTS else ()))
        places = {place for end in fixed for reached in self.reach(self.touched(end), state) for place in reached}
        ends = {self.touched(end) for end in row.ends}
        # A pad's end, if a change should put a wire's plug there.
        places |= {Place(PlaceKind.CAVITY, end.at, end.number) for end in ends if end.kind is PlaceKind.CONTACT}
        met = [place for place in (*places, *ends) if place.kind is not PlaceKind.GROUND]
        at = {place.at for place in met} | {self._world.plug_at(place) for place in met}
        return Scope(row, places, at, self.probed(row))


def state_of(row: Measurement) -> State:
    return State(frozenset(row.plugged), frozenset(row.off))
