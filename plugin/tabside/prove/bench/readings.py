"""What rows show with a mistake in the craft: probed only where the mistake reaches, and once, whoever asks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set

from tabside.prove.bench.mistakes import Mistake
from tabside.prove.bench.reading import Bench, SoundBench
from tabside.prove.bench.world import Place, World
from tabside.prove.measurement import Measurement, RowKind, When

_Fails = bool | None  # None: it may


class Readings:
    """The readings of one craft, mistake by mistake."""

    def __init__(self, world: World) -> None:
        self.sound = SoundBench(world)
        self.world = world
        self._rows: list[Measurement] = []
        self._as_drawn: list[_Fails] = []  # what each row shows on a sound craft
        self._numbers: dict[int, int] = {}  # by the row's identity: to compare rows takes longer than to probe
        self._reached: dict[Place | str, set[int]] = {}  # numbers of the rows that depend on a place or a termination
        self._otherwise: dict[str, dict[int, _Fails]] = {}  # by mistake: rows that may show something else

    def fails(self, mistakes: Iterable[Mistake], rows: Sequence[Measurement]) -> Iterator[list[_Fails]]:
        """For each mistake, of each row whether it shows it."""
        position = {self._number(row): n for n, row in enumerate(rows)}
        as_drawn = [self._as_drawn[number] for number in position]
        for mistake in mistakes:
            shown = as_drawn.copy()
            for number, fails in self._otherwise_with(mistake, position.keys()).items():
                if number in position:
                    shown[position[number]] = fails
            yield shown

    def _otherwise_with(self, mistake: Mistake, numbers: Set[int]) -> dict[int, _Fails]:
        """Of these rows at least, those that may show something else than as drawn."""
        otherwise = self._otherwise.setdefault(mistake.id, {})
        bench = Bench(self.world, mistake.change, sound=self.sound)
        touched = {number for at in bench.changed for number in self._reached.get(at, ())}
        for number in (touched & numbers).difference(otherwise):
            otherwise[number] = bench.probed(self._rows[number])
        return otherwise

    def _number(self, row: Measurement) -> int:
        known = self._numbers.get(id(row))
        return self._added(row) if known is None else known

    def _added(self, row: Measurement) -> int:
        number = self._numbers[id(row)] = len(self._rows)
        self._rows.append(row)  # its identity stays its own as long as it is kept
        if row.when is When.METER or row.kind is RowKind.LOOK:  # no wire is in it
            self._as_drawn.append(False)
            return number
        scope = self.sound.scope(row)
        self._as_drawn.append(scope.fails)
        depends_on: tuple[Place | str, ...] = (*scope.places, *scope.at)
        for at in depends_on:
            self._reached.setdefault(at, set()).add(number)
        return number
