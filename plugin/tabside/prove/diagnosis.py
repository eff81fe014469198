"""From failed rows to the mistake: which of the model's mistakes explain the readings, and what parts them best."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import combinations

from msgspec import Struct

from tabside.errors import TabsideError
from tabside.prove.bench.mistakes import LIKELY, Change, Mistake, MistakeKind
from tabside.prove.bench.plug_mistakes import harmless_swaps
from tabside.prove.bench.reading import Bench
from tabside.prove.bench.world import World
from tabside.prove.continuity import Proof
from tabside.prove.cures import cure
from tabside.prove.measurement import Measurement, RowKind, Section, Test, When
from tabside.prove.rows.eye import look_at

_Ranked = tuple[tuple[Mistake, ...], float]  # mistakes made together, and how well they explain

MOST_SHOWN = 8  # explanations
_EACH_SHOWN = 2  # the same of each cable, where its rows are explained without those of the others
_MOST_PARTED = 40  # explanations that the next measurement is to part
_MOST_PAIRS = 2000  # of two mistakes, likeliest first, that are tried on the craft
# How well a mistake explains readings against the others.  Common practice, no source.
FAR = 0.4  # what does not lie side by side is mistaken less often
MAY_FAIL = 0.3  # a mistake that need not show in a failed row
NOT_NAMED = 0.2  # a row before the last failed one that is not named would have failed, too
NOT_YET = 0.6  # the same of a later one: perhaps it was not measured yet
_WORTH_MEASURING = 0.02  # bits; below it a measurement tells nothing


class Explanation(Struct, frozen=True):
    """One mistake, or two made together, that would show these readings."""

    mistakes: tuple[Mistake, ...]
    rows: tuple[str, ...]  # ids of the failed rows that it makes fail
    weight: float  # against the others, the same elsewhere counted in; they sum to 1
    elsewhere: tuple[tuple[Mistake, ...], ...] = ()  # the same done to the same leads at their other end

    @property
    def id(self) -> str:
        return " and ".join(mistake.id for mistake in self.mistakes)


class Diagnosis(Struct, frozen=True):
    """What the readings mean."""

    explanations: tuple[Explanation, ...]  # likeliest first; none: nothing in the model explains them
    measure_next: Measurement | None  # what parts the explanations best; None where nothing would
    what_to_do: tuple[str, ...]  # for each explanation
    failed: tuple[Measurement, ...]  # rows that may have a mistake of wires behind them
    of_themselves: tuple[Measurement, ...]  # failed rows about what they name: no mistake of wires is behind them
    unexplained: tuple[Measurement, ...]  # failed rows of wires that nothing in the model explains
    is_by_cable: bool  # no two mistakes explain all: each cable's rows are explained for themselves
    hidden: int  # explanations that are not listed, each less likely than those that are

    @property
    def is_unexplained(self) -> bool:
        """Whether rows of wires failed, and nothing in the model explains any of them."""
        return bool(self.unexplained) and not self.explanations


class Diagnoser:
    """Holds the readings of one sheet against its mistakes."""

    def __init__(self, proof: Proof) -> None:
        self.proof = proof
        self._benches: dict[str, Bench] = {}
        self._known: dict[tuple[str, str], bool | None] = {}

    @cached_property
    def rows(self) -> dict[str, Measurement]:
        """Every row that may be named: those of the sheet, those it does without, and a look at each place."""
        proof = self.proof
        looks = look_at(proof.world, {place for mistake in proof.mistakes for place, _ in mistake.at})
        return {row.id: row for row in (*looks, *proof.spare, *proof.rows)}

    @cached_property
    def mistakes(self) -> tuple[Mistake, ...]:
        """Those of the sheet, and swaps that do no harm: rows show them, too."""
        return (*self.proof.mistakes, *harmless_swaps(self.proof.world))

    @cached_property
    def _own(self) -> frozenset[str]:
        """Rows about what they name: the meter, a fuse, a capacitor's legs, a pack's volts, a part's own leads."""
        finders = {id for ids in self.proof.found_by.values() for id in ids}
        others = [row for row in self.proof.rows if row.id not in finders]
        return frozenset(row.id for row in others if self._is_of_what_it_names(row))

    def _is_of_what_it_names(self, row: Measurement) -> bool:
        if row.kind is RowKind.LOOK or row.when in (When.PART, When.METER):
            return True
        return row.kind is RowKind.VOLTS and all(self._fails((mistake,), row.id) is False for mistake in self.mistakes)

    def is_of_itself(self, id: str) -> bool:
        """Whether the row is about a part or a joint that it names, and no mistake of wires is behind it."""
        return id in self._own

    def fails(self, mistake: Mistake, row: Measurement) -> bool | None:
        """Whether this row shows this mistake; None: it may."""
        return self._fails((mistake,), row.id)

    def shown(self, rows: Sequence[Measurement]) -> Iterator[list[bool | None]]:
        """For each mistake of the sheet what `fails` says of each row."""
        places = [n for n, row in enumerate(rows) if row.kind is RowKind.LOOK]
        looks = [rows[n] for n in places]
        mistakes = self.mistakes
        for mistake, shown in zip(mistakes, self.proof.readings.fails(mistakes, rows), strict=True):
            for n, fails in zip(places, self._seen([mistake], looks), strict=True):
                shown[n] = fails
            yield [
                False if row.test is Test.SHORT and not can_short([mistake], row) else fails
                for fails, row in zip(shown, rows, strict=True)
            ]

    def row_ids(self, named: Iterable[str]) -> list[str]:
        """Ids of rows that are named by step or by id.

        Raises: TabsideError for one that this drawing's sheet does not have.
        """
        steps = {str(step): row.id for step, row in enumerate(self.proof.rows, 1)}
        ids = []
        for name in named:
            id = steps.get(name, name)
            if id not in self.rows:
                what = f"step {name}" if name.isdecimal() else f'the row "{name}"'
                raise TabsideError(
                    f"{what} is not on the continuity sheet of this drawing, which has steps 1 to {len(steps)}; "
                    "readings of another drawing say nothing about it: export the sheet again"
                )
            ids.append(id)
        return ids

    def diagnose(self, failed: Collection[str], passed: Collection[str]) -> Diagnosis:
        """The mistakes behind these readings, by ids of rows; a row that is not named was not measured."""
        behind = [id for id in failed if id not in self._own]
        parts = self._parts(behind, passed)
        gathered = [self._gathered(ranked, behind) for _, ranked in parts]
        is_by_cable = len(parts) > 1
        most = _EACH_SHOWN if is_by_cable else MOST_SHOWN
        explanations = [one for found in gathered for one in found[:most]]
        ranked = next((ranked for (_, ranked), found in zip(parts, gathered, strict=True) if len(found) > 1), [])
        unexplained = {id for ids, ranked in parts if not ranked for id in ids}
        return Diagnosis(
            explanations=tuple(explanations),
            measure_next=self._next(ranked[:_MOST_PARTED], {*failed, *passed}),
            what_to_do=tuple(
                cure(self.proof.world, explanation.mistakes, explanation.elsewhere) for explanation in explanations
            ),
            failed=tuple(self.rows[id] for id in behind),
            of_themselves=tuple(self.rows[id] for id in failed if id in self._own),
            unexplained=tuple(self.rows[id] for id in behind if id in unexplained),
            is_by_cable=is_by_cable and bool(explanations),
            hidden=sum(max(0, len(found) - most) for found in gathered),
        )

    def _parts(self, behind: Sequence[str], passed: Collection[str]) -> list[tuple[Sequence[str], list[_Ranked]]]:
        """Failed rows with what explains them: all of them together, else those of each cable for themselves."""
        together = self._ranked(behind, passed) if behind else []
        groups: dict[str, list[str]] = {}
        for id in behind:
            groups.setdefault(self.rows[id].group, []).append(id)
        if together or len(groups) == 1:
            return [(behind, together)]
        return [(ids, self._ranked(ids, passed)) for ids in groups.values()]

    def _ranked(self, failed: Collection[str], passed: Collection[str]) -> list[_Ranked]:
        return self._singles(failed, passed) or self._pairs(failed, passed)

    def _gathered(self, ranked: Sequence[_Ranked], failed: Collection[str]) -> list[Explanation]:
        """The same done to the same leads is one explanation, at whichever end it was done: the readings are equal."""
        total = sum(weight for _, weight in ranked)
        groups: dict[frozenset[tuple[str, frozenset[str]]], list[_Ranked]] = {}
        for mistakes, weight in ranked:
            key = frozenset((mistake.kind.value, frozenset(mistake.leads)) for mistake in mistakes)
            groups.setdefault(key, []).append((mistakes, weight))
        explanations = [
            Explanation(
                mistakes=group[0][0],
                rows=tuple(id for id in failed if self._fails(group[0][0], id)),
                weight=sum(weight for _, weight in group) / total,
                elsewhere=tuple(mistakes for mistakes, _ in group[1:]),
            )
            for group in groups.values()
        ]
        return sorted(explanations, key=lambda explanation: (-explanation.weight, explanation.id))

    def _singles(self, failed: Collection[str], passed: Collection[str]) -> list[_Ranked]:
        ranked = []
        for mistake in self.mistakes:
            weight = self._weight((mistake,), failed, passed)
            if weight:
                ranked.append(((mistake,), weight))
        return sorted(ranked, key=lambda found: (-found[1], found[0][0].id))

    def _weight(self, mistakes: tuple[Mistake, ...], failed: Collection[str], passed: Collection[str]) -> float:
        """How well it explains the readings; 0 where it contradicts one."""
        weight = math.prod(LIKELY[mistake.kind] * (1.0 if mistake.near else FAR) for mistake in mistakes)
        for id in failed:
            fails = self._fails(mistakes, id)
            if fails is False:
                return 0.0
            weight *= 1.0 if fails else MAY_FAIL
        if any(self._fails(mistakes, id) for id in passed):
            return 0.0
        return weight * self._of_what_is_not_named(mistakes, {*failed, *passed}, failed)

    def _of_what_is_not_named(
        self, mistakes: tuple[Mistake, ...], told: Collection[str], failed: Collection[str]
    ) -> float:
        last = max((self.proof.step_of.get(id, 0) for id in failed), default=0)
        weight = 1.0
        for step, row in enumerate(self.proof.rows, 1):
            if row.id not in told and row.kind is not RowKind.LOOK and self._fails(mistakes, row.id):
                weight *= NOT_NAMED if step < last else NOT_YET
        return weight

    def _fails(self, mistakes: tuple[Mistake, ...], id: str) -> bool | None:
        """Whether the row shows these mistakes; None: it may."""
        key = ("+".join(mistake.id for mistake in mistakes), id)
        if key not in self._known:
            self._known[key] = self._worked_out(mistakes, self.rows[id])
        return self._known[key]

    def _worked_out(self, mistakes: tuple[Mistake, ...], row: Measurement) -> bool | None:
        if row.kind is RowKind.LOOK:
            return next(self._seen(mistakes, [row]))
        if row.test is Test.SHORT and not can_short(mistakes, row):
            return False
        return self._bench(mistakes).fails(row)

    def _bench(self, mistakes: tuple[Mistake, ...]) -> Bench:
        name = "+".join(mistake.id for mistake in mistakes)
        if name not in self._benches:
            change = together(self.proof.world, [mistake.change for mistake in mistakes])
            self._benches[name] = Bench(self.proof.world, change, sound=self.proof.readings.sound)
        return self._benches[name]

    def _seen(self, mistakes: Sequence[Mistake], looks: Iterable[Measurement]) -> Iterator[bool | None]:
        """A look on the sheet shows what it is there for; a look at a place shows what was done there."""
        found = {id for mistake in mistakes for id in self.proof.found_by.get(mistake.id, ())}
        places = {place for mistake in mistakes for place, _ in mistake.at}
        for row in looks:
            if row.id in found:
                yield True
            elif row.id in self._own or row.where.termination not in places or row.group is Section.PLUGGING:
                yield False  # what hangs on labels shows in names, not in wires
            else:  # a row of the sheet is there for other mistakes: nobody promises that it shows this one
                yield None if row.id in self.proof.step_of else True

    def _pairs(self, failed: Collection[str], passed: Collection[str]) -> list[_Ranked]:
        """Two mistakes at once, where one alone explains nothing."""
        by_row: dict[str, list[Mistake]] = {
            id: [mistake for mistake in self.mistakes if self._fails((mistake,), id) is not False] for id in failed
        }
        if not by_row or not all(by_row.values()):
            return []
        ranked = []
        for pair in self._likely_pairs(by_row):
            if _apart(pair[0].change, pair[1].change):
                weight = self._weight(pair, failed, passed)
                if weight:
                    ranked.append((pair, weight))
        return sorted(ranked, key=lambda found: (-found[1], [mistake.id for mistake in found[0]]))

    def _likely_pairs(self, by_row: Mapping[str, Sequence[Mistake]]) -> Iterator[tuple[Mistake, Mistake]]:
        """Pairs that together reach every failed row, likeliest first."""
        explains: dict[str, set[str]] = {}
        mistakes: dict[str, Mistake] = {}
        for row, found in by_row.items():
            for mistake in found:
                explains.setdefault(mistake.id, set()).add(row)
                mistakes[mistake.id] = mistake
        rows = set(by_row)
        pairs = [(one, other) for one, other in combinations(mistakes, 2) if explains[one] | explains[other] == rows]

        def worth(pair: tuple[str, str]) -> float:
            return -math.prod(LIKELY[mistakes[id].kind] * (1.0 if mistakes[id].near else FAR) for id in pair)

        for one, other in sorted(pairs, key=worth)[:_MOST_PAIRS]:
            yield mistakes[one], mistakes[other]

    def _next(self, ranked: Sequence[_Ranked], told: Collection[str]) -> Measurement | None:
        """The row whose result parts the explanations best."""
        best, most = None, _WORTH_MEASURING
        total = sum(weight for _, weight in ranked)
        for id, row in self.rows.items():
            if id in told:
                continue
            shares = [(weight / total, self._fails(mistakes, id)) for mistakes, weight in ranked]
            fail = sum(weight * (0.5 if fails is None else float(fails)) for weight, fails in shares)
            unsure = sum(weight for weight, fails in shares if fails is None)
            told_by_it = _bits(fail) - unsure  # what the row cannot say is as good as a coin
            if told_by_it > most:
                best, most = row, told_by_it
        return best


def can_short(mistakes: Iterable[Mistake], row: Measurement) -> bool:
    """Whether one of them is where something is plugged in or soldered, and joins anything: a missing wire does not.

    At the place that is measured pads may touch before a wire is on them.
    """
    return any(
        mistake.kind is not MistakeKind.LEFT_OUT
        and not mistake.harmless
        and any(
            place in row.plugged or (place == row.where.termination and mistake.kind is MistakeKind.PAD_BRIDGE)
            for place, _ in mistake.at
        )
        for mistake in mistakes
    )


def _bits(share: float) -> float:
    if share <= 0.0 or share >= 1.0:
        return 0.0
    return -share * math.log2(share) - (1 - share) * math.log2(1 - share)


def _apart(one: Change, other: Change) -> bool:
    """Whether both can be done to one craft; contacts that were moved can be moved again, as in a ring of three."""
    twice = set(one.moved) & set(other.moved)
    return (
        not (twice and (one.miscounted or other.miscounted))
        and not set(one.soldered) & set(other.soldered)
        and not set(one.seated) & set(other.seated)
        and not {mark for mark, _ in one.moved} & other.gone
        and not {mark for mark, _ in other.moved} & one.gone
    )


def together(world: World, changes: Sequence[Change]) -> Change:
    """One change, or two, the second done to what the first has left."""
    if len(changes) == 1:
        return changes[0]
    one, other = changes
    goes_to = {world.wires[mark][side]: place for (mark, side), place in other.moved.items()}
    first = {end: goes_to.get(place, place) for end, place in one.moved.items()}
    return Change(
        moved={**{end: place for end, place in other.moved.items() if end not in first}, **first},
        gone=one.gone | other.gone,
        bridges=(*one.bridges, *other.bridges),
        soldered={**one.soldered, **other.soldered},
        miscounted={**one.miscounted, **other.miscounted},
        seated={**one.seated, **other.seated},
    )
