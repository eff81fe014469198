"""What becomes of one cable: its steps, what is measured on the way, and what stands beside them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.fates.cable_fate import CableFate
from tabside.make.sheets.cable_plan import CableEnd, CablePlan, PlugRow, Step
from tabside.prove.measurement import Measurement


class Turn(NamedTuple):
    """When something is done: its sheet in the order of work, and the place of the step there."""

    sheet: int
    step: int


class CableWork(NamedTuple):
    """One cable's steps, and the rows of the continuity sheet that they can have spoiled."""

    fate: CableFate
    steps: tuple[Step, ...] = ()
    measure: tuple[Measurement, ...] = ()
    ends: tuple[CableEnd, ...] = ()  # of the cable as it becomes, then the places that it leaves
    looks: tuple[str, ...] = ()  # what one look at the real part must still settle
    rows: tuple[PlugRow, ...] = ()  # each plug that hands work on, before and after
    sheet: CablePlan | None = None  # of a cable that is made whole
    stopped: str = ""  # why it cannot be done; then there are no steps
    old_leads: Mapping[str, str] = {}  # how steps call a wire that is there -> its number in the old drawing
    gauges: Mapping[str, int | None] = {}  # of these wires, by the same names
    cautions: tuple[str, ...] = ()  # what can hurt on this sheet

    @property
    def tested(self) -> Iterator[Measurement]:
        """What its steps measure."""
        return (row for step in self.steps for row in step.rows)

    def with_steps(self, steps: Iterable[Step]) -> CableWork:
        """The same with other steps, numbered anew."""
        return self._replace(steps=numbered(steps))

    def with_more(self, steps: Iterable[Step], before: int) -> CableWork:
        """The same with these steps as well, before the one that is at this place now."""
        return self.with_steps((*self.steps[:before], *steps, *self.steps[before:]))

    def without_rows(self, ids: Collection[str]) -> CableWork:
        """The same without these rows, and without tests that are nothing else."""
        steps = []
        for step in self.steps:
            left = tuple(row for row in step.rows if row.id not in ids)
            if left or not step.rows:
                steps.append(replace(step, rows=left))
        return self.with_steps(steps)._replace(measure=tuple(row for row in self.measure if row.id not in ids))


def each_step(cables: Iterable[CableWork]) -> Iterator[tuple[Turn, Step]]:
    """All steps in the order in which they are done."""
    for n, work in enumerate(cables):
        for m, step in enumerate(work.steps):
            yield Turn(n, m), step


def numbered(steps: Iterable[Step]) -> tuple[Step, ...]:
    """From 1 up."""
    return tuple(replace(step, number=n) for n, step in enumerate(steps, 1))


def each_once(ends: Iterable[CableEnd]) -> tuple[CableEnd, ...]:
    """By name, the first of each: that of the new drawing."""
    by_name: dict[str, CableEnd] = {}
    for end in sorted(ends, key=lambda end: end.of_old):
        by_name.setdefault(end.name, end)
    return tuple(by_name.values())
