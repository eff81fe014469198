"""Which rows of the new continuity sheet the work can have spoiled, and with which cable each of them is measured."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import cached_property

from tabside.compare.changes.craft_files import missing_craft_file
from tabside.compare.changes.parts_across import changes_of_parts
from tabside.compare.changes.stated import stated_anew
from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.what_part import is_another
from tabside.compare.side import Side, is_loose
from tabside.documents.build import CraftBuild
from tabside.make.sheets.when.moments import is_volts
from tabside.model.craft import Cable, Kind
from tabside.prove.measurement import At, Measurement, RowKind, Test, When, touched_leads


class SpoiledRows:
    """Those of cables that are worked on, of parts that are others, and of the whole craft."""

    def __init__(
        self,
        rebuild: Rebuild,
        build: CraftBuild,
        fates: tuple[CableFate, ...],
    ) -> None:
        old, new, matching = rebuild
        self._build, self._new, self._fates = build, new, fates
        self._anew = stated_anew(rebuild)
        self._marks: set[str] = set()
        self._at: dict[str, str] = {}  # id of a row -> the cable with which it is measured
        for fate in fates:
            worked = fate.what != KEEP and fate.replugged is None
            if fate.new is not None and (worked or fate.in_own_plug or self._stated_anew(fate)):
                self._marks |= set(fate.new.leads)
        known = {now: reference for reference, now in matching.pairs.items()}
        inline = (termination for termination in new.terminations.values() if termination.kind is Kind.INLINE)
        self._parts = {
            part.reference
            for part in inline
            if (part.reference, "") in self._anew
            or part.reference not in known
            or is_another(old.terminations[known[part.reference]], part)
        }
        stay = matching.pairs.items()
        self._volts = missing_craft_file(rebuild) is None and (
            _volts_of(old, (was for was, _ in stay)) != _volts_of(new, (now for _, now in stay))
        )
        gone = any(fate.new is None for fate in fates)
        came = any(reference not in known for reference in new.terminations)
        across = any(changes_of_parts(rebuild))
        worked = any(fate.replugged for fate in fates)
        self._hands = bool(self._marks or self._parts or gone or came or across or worked)
        self.any = self._hands or self._volts

    def share_out(self, ordered: Sequence[CableFate]) -> None:
        """Each row to the last of these on whose wires it depends: before that it cannot be made."""
        for fate in ordered:
            for row in self._own(fate):
                self._at[row.id] = fate.name
        on = {
            mark: (n, fate.name)
            for n, fate in enumerate(ordered)
            if fate.new is not None and (self._own(fate) or (fate.what != KEEP and fate.replugged is None))
            for mark in fate.new.leads
        }
        for row in self._build.proof.rows:
            if row.id in self._at and not is_volts(row):
                last = max((on[mark] for mark in self._met_by(row) if mark in on), default=None)
                self._at[row.id] = last[1] if last is not None else self._at[row.id]

    def _met_by(self, row: Measurement) -> frozenset[str]:
        """The wires on which it depends: of what is joined, also those through which it goes on."""
        touched, place = touched_leads(row), row.where.termination
        if row.kind is RowKind.LOOK:
            loose = place in self._new.terminations and is_loose(self._new.terminations[place])
            return frozenset({*touched, *self._new.marks_at(place)} if loose else touched)
        bare = any(end.at is At.BARE for end in row.ends)
        apart = row.when is When.LOOSE or (bare and row.when is not When.SPLICED)
        return frozenset(touched) if apart else self._new.reached(touched)

    def of(self, fate: CableFate) -> tuple[Measurement, ...]:
        """In the order of the sheet."""
        if fate.new is None:
            return ()
        mine = {row.id for row in self._own(fate) if is_volts(row)}
        return tuple(row for row in self._build.proof.rows if self._at.get(row.id) == fate.name or row.id in mine)

    def _own(self, fate: CableFate) -> tuple[Measurement, ...]:
        """All that work on this cable can have spoiled, whichever cable it is measured with."""
        return self._by_cable[fate.name] if fate.new is not None else ()

    @cached_property
    def _by_cable(self) -> dict[str, tuple[Measurement, ...]]:
        return {fate.name: tuple(self._spoiled_by(fate, fate.new)) for fate in self._fates if fate.new is not None}

    def _spoiled_by(self, fate: CableFate, cable: Cable) -> Iterator[Measurement]:
        stated_anew, own = self._stated_anew(fate), self._build.proof.rows_of(cable.leads)
        if fate.what == KEEP and not fate.in_own_plug and not stated_anew:
            return
        if fate.replugged is not None and not stated_anew:
            yield from (row for row in own if _tries(fate, row))
            return
        ids = {row.id for row in own}
        live = set(cable.ends) if self._new.live.keys() & set(cable.leads) else set()
        for row in self._build.proof.rows:
            if row.id in ids or (row.kind is RowKind.VOLTS and {end.termination for end in row.ends} & live):
                yield row

    def all(self, told: Collection[str]) -> Iterator[Measurement]:
        """In the order of the sheet, the meter itself first when there is anything to measure; `told`: by id."""
        spoiled = {row.id for row in self._spoiled()}
        rows = [row for row in self._build.proof.rows if row.id in spoiled or row.id in told]
        meter = [row for row in self._build.proof.rows if row.when is When.METER]
        yield from (*meter, *rows) if rows else ()

    def _spoiled(self) -> Iterator[Measurement]:
        of_cables = {row.id for rows in self._by_cable.values() for row in rows}
        spoiled = of_cables | {row.id for row in self._build.proof.rows_of(self._marks)}
        for row in self._build.proof.rows:
            part = row.test is Test.PART and row.where.termination in self._parts
            last = self._hands and row.when is When.CRAFT
            if row.id in spoiled or part or last or (self._volts and row.kind is RowKind.VOLTS):
                yield row

    def _stated_anew(self, fate: CableFate) -> bool:
        marks = fate.new.leads if fate.new is not None else ()
        keys = {key for mark in marks for key in self._new.by_mark[mark].ends}
        return bool(self._anew & (keys | {(reference, "") for reference, _ in keys}))


def _tries(fate: CableFate, row: Measurement) -> bool:
    """Whether the row holds a cable in which nothing changes against a board in which it has not been."""
    board_end = row.plugged[0] if row.plugged else row.where.termination
    return row.when is When.PLUGGED and board_end in fate.untried


def _volts_of(side: Side, references: Iterable[str]) -> tuple[object, ...]:
    """What the packs of a craft are said to give: of those that come or go hands are on the wires themselves."""
    gives = [[contact.gives for contact in side.terminations[ref].contacts] for ref in references]
    return (side.craft.settings.battery, repr(gives))
