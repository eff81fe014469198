"""Which rows may certainly show a mistake: all others are not probed for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.prove.bench.mistakes import Mistake
from tabside.prove.bench.reading import AS_DRAWN, Bench, state_of
from tabside.prove.bench.world import Place, PlaceKind, World
from tabside.prove.measurement import Measurement, RowKind, When


class Reach:
    """Rows by what their fixed probe conducts to on a sound craft: nothing else can change what they show."""

    def __init__(self, world: World, rows: Sequence[Measurement]) -> None:
        sound = Bench(world, AS_DRAWN)
        self._rows = rows
        self._by_lead: dict[str, list[int]] = {}
        self._by_place: dict[tuple[str, str], list[int]] = {}
        self._by_plug: dict[str, list[int]] = {}
        for n, row in enumerate(rows):
            if row.when is When.METER:  # no wire is in it
                continue
            places: set[Place] = set()
            for end in (row.where, *(row.joined if row.kind is RowKind.VOLTS else ())):
                places |= sound.reaches(sound.touched(end), state_of(row))
            for lead in {mark for place in places for mark in world.wires_at.get(place, ())}:
                self._by_lead.setdefault(lead, []).append(n)
            for key in {(place.at, place.number) for place in places if place.kind is not PlaceKind.GROUND}:
                self._by_place.setdefault(key, []).append(n)
            for plug in {end.termination for end in row.ends} | set(row.plugged):
                self._by_plug.setdefault(plug, []).append(n)

    def near(self, mistake: Mistake) -> Iterator[Measurement]:
        """In their order."""
        return (self._rows[n] for n in sorted(self._numbers(mistake)))

    def _numbers(self, mistake: Mistake) -> set[int]:
        numbers = {n for lead in mistake.leads for n in self._by_lead.get(lead, ())}
        for key in mistake.at:
            numbers |= set(self._by_place.get(key, ()))
        if mistake.change.miscounted or mistake.change.seated:
            for reference, _ in mistake.at:
                numbers |= set(self._by_plug.get(reference, ()))
        return numbers
