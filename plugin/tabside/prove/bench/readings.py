"""What rows show with a mistake in the craft: probed only where the mistake reaches, and once, whoever asks."""

from __future__ import annotations

from collections.abc import Sequence

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

    def fails(self, mistake: Mistake, rows: Sequence[Measurement]) -> list[_Fails]:
        """Of each row whether it shows the mistake."""
        numbers = [self._number(row) for row in rows]
        otherwise = self._otherwise.setdefault(mistake.id, {})
        bench = Bench(self.world, mistake.change, sound=self.sound)
        touched = {n for at in bench.changed for n in self._reached.get(at, ())}
        for n in touched.intersection(numbers).difference(otherwise):
            otherwise[n] = bench.probed(self._rows[n])
        return [otherwise[n] if n in otherwise else self._as_drawn[n] for n in numbers]

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
        for at in (*scope.places, *scope.at):
            self._reached.setdefault(at, set()).add(number)
        return number
