"""All rows that could be measured with a beeper: each is one place of the fixed probe, and what the other visits.

What must beep and what must not is not thought out here: it is read off the craft as drawn, and only what no board can
change is written down.  Nothing here comes near a pack.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind
from tabside.model.craft import ContactKey
from tabside.model.natural import natural
from tabside.prove.bench.reading import Bench, State
from tabside.prove.bench.world import BARE, PLUGS, Place, PlaceKind, World, is_board, key_of
from tabside.prove.measurement import At, End, When


class Candidate(Struct, frozen=True):
    """A row before it has words."""

    when: When
    group: str
    cable: str | None
    plugged: tuple[str, ...]
    where: End
    joined: tuple[End, ...]
    open: tuple[End, ...]
    leads: tuple[str, ...]  # that must conduct


class _Site(Struct, frozen=True):
    """An end of a lead that a probe can touch."""

    mark: str
    key: ContactKey
    kind: EndKind

    @property
    def reference(self) -> str:
        return self.key[0]


class _Setting(NamedTuple):
    """When it is measured, and what is plugged in then."""

    when: When
    plugged: tuple[str, ...] = ()


class Candidates:
    def __init__(self, world: World) -> None:
        self._world = world
        self._sound = Bench(world, promised=True)

    def all(self) -> Iterator[Candidate]:
        for unit in self._world.units:
            if set(unit) & self._world.live:
                continue
            sites = [site for mark in unit for site in self._sites(mark)]
            for group in self._groups(unit):
                yield from self._loose([site for site in sites if site.mark in group])
            yield from self._through_parts(unit, sites)
            yield from self._in_a_board(unit, sites)
            yield from self._soldered(unit, sites)

    def _groups(self, unit: Sequence[str]) -> list[set[str]]:
        groups: dict[str, set[str]] = {}
        for mark in unit:
            groups.setdefault(self._world.group(mark), set()).add(mark)
        return list(groups.values())

    def _sites(self, mark: str) -> Iterator[_Site]:
        if self._world.own(mark):
            return
        for end in self._world.made[mark].ends:
            if end.kind in PLUGS or end.kind in BARE:
                yield _Site(mark, end.key, end.kind)

    def _loose(self, sites: Sequence[_Site]) -> Iterator[Candidate]:
        """Nothing plugged in, nothing soldered: each wire from each end, the other probe along all other ends."""
        loose = _Setting(When.LOOSE)
        for site in sites:
            others = [other for other in sites if other.reference != site.reference]
            if site.kind in BARE and all(other.kind in BARE for other in others):
                others = [other for other in others if other.mark == site.mark]  # single wires: nothing ties them
            far = next((other for other in others if other.mark == site.mark), None)
            if far is None:
                continue
            yield self._row(loose, site, others)
            near = [other for other in others if other.reference == far.reference]
            if len(near) < len(others):
                yield self._row(loose, site, near)

    def _parts(self, unit: Iterable[str]) -> tuple[str, ...]:
        keys = {key[0] for mark in unit for key in self._world.made[mark].lead.ends}
        return tuple(sorted((key for key in keys if self._world.passes_on(key)), key=natural))

    def _through_parts(self, unit: Sequence[str], sites: Sequence[_Site]) -> Iterator[Candidate]:
        """Splices and in-line parts done, fuses in and switches on, no board yet: all can be told."""
        parts = self._parts(unit)
        ends = [site for site in sites if site.reference not in parts]
        if not parts or len({site.reference for site in ends}) < 2:
            return
        for site in ends:
            others = [other for other in ends if other.reference != site.reference]
            row = self._row(_Setting(When.SPLICED, parts), site, others)
            if row.joined:
                yield row

    def _in_a_board(self, unit: Sequence[str], sites: Sequence[_Site]) -> Iterator[Candidate]:
        """One plug in its real board, everything else loose: from the board's known ground."""
        parts = self._parts(unit)
        for reference in dict.fromkeys(site.reference for site in sites if site.kind in PLUGS):
            if not is_board(self._world.craft.terminations[reference]):
                continue
            setting = _Setting(When.PLUGGED, (reference, *parts))
            ends = [site for site in sites if site.reference != reference and site.reference not in parts]
            yield from self._from_ground(setting, reference, ends, unit)

    def _from_ground(
        self, setting: _Setting, reference: str, ends: Sequence[_Site], unit: Sequence[str]
    ) -> Iterator[Candidate]:
        """Ground to ground beeps, supplies do not."""
        craft = self._world.craft
        board = craft.terminations[reference].board
        start = End(At.GROUND, board, reference)
        joined = [site for site in ends if self._grounded_run(site, reference)]
        supplied = [site for site in ends if self._supplied_run(site, reference)]
        if not joined:
            return
        visits = [self._end(site, setting) for site in (*joined, *supplied)]
        plugged = [site.reference for site in joined if site.reference in setting.plugged]
        boards = dict.fromkeys(craft.terminations[reference].board for reference in plugged)
        visits += [End(At.GROUND, other) for other in boards if other != board]
        yield self._classified(setting, joined[0].mark, start, visits, unit)

    def _grounded_run(self, site: _Site, reference: str) -> bool:
        """The lead joins ground to ground, isolated on neither side."""
        world = self._world
        runs = [key for key in self._run(site) if key[0] == reference]
        return world.grounded(site.key) and bool(runs) and all(world.grounded(key) for key in runs)

    def _supplied_run(self, site: _Site, reference: str) -> bool:
        keys = [site.key, *self._run(site)]
        runs = [key for key in keys if key[0] == reference]
        roles = [self._world.craft.contact(key).role for key in runs]
        return bool(roles) and all(role.is_supply for role in roles)

    def _run(self, site: _Site) -> list[ContactKey]:
        """Contacts at the other ends of what hangs on this end, over splices and in-line parts."""
        parts = self._parts(next(unit for unit in self._world.units if site.mark in unit))
        bare = site.kind in BARE
        place = Place(PlaceKind.BARE if bare else PlaceKind.CAVITY, *site.key, site.mark if bare else "")
        sure = self._sound.reaches(place, State(frozenset(parts)))
        return [
            key_of(reached)
            for reached in sure
            if reached.kind in (PlaceKind.CAVITY, PlaceKind.BARE) and reached != place
        ]

    def _soldered(self, unit: Sequence[str], sites: Sequence[_Site]) -> Iterator[Candidate]:
        """All soldered, plugs loose, nothing else on these boards."""
        parts = self._parts(unit)
        soldered = dict.fromkeys(site.reference for site in sites if site.kind is EndKind.PAD)
        pads = tuple(reference for reference in soldered if reference not in self._world.live_places)
        if not pads:
            return
        setting = _Setting(When.SOLDERED, (*pads, *parts))
        ends = [site for site in sites if site.reference not in parts]
        for site in ends:
            far = [
                other
                for other in ends
                if other.reference != site.reference and other.reference in pads and other.key in self._run(site)
            ]
            if far and (site.kind in PLUGS or all(natural(site.reference) < natural(other.reference) for other in far)):
                row = self._row(setting, site, far)
                if row.joined:
                    yield row
        for reference in pads:
            others = [site for site in ends if site.reference != reference]
            yield from self._from_ground(setting, reference, others, unit)

    def _end(self, site: _Site, setting: _Setting) -> End:
        reference, number = site.key
        board = self._world.craft.terminations[reference].board
        at = At.BARE if site.kind in BARE and reference not in setting.plugged else At.CONTACT
        return End(at, board, reference, number, site.mark)

    def _row(self, setting: _Setting, site: _Site, others: Sequence[_Site]) -> Candidate:
        visits = [self._end(other, setting) for other in others]
        start = self._end(site, setting)
        return self._classified(setting, site.mark, start, visits, [other.mark for other in others])

    def _classified(
        self, setting: _Setting, mark: str, start: End, visits: Sequence[End], unit: Iterable[str]
    ) -> Candidate:
        state = State(frozenset(setting.plugged))
        sure, maybe = self._sound.reach(self._sound.touched(start), state)
        places = [(end, self._sound.touched(end)) for end in dict.fromkeys(visits)]
        joined = tuple(end for end, place in places if place in sure)
        conducts = {lead for lead in (*unit, mark) if any(place in sure for place in self._world.wires[lead])}
        if start.at is At.GROUND:
            conducts = {end.lead for end in joined if end.lead is not None}
        return Candidate(
            when=setting.when,
            group=self._world.group(mark),
            cable=self._world.made[mark].lead.cable,
            plugged=setting.plugged,
            where=start,
            joined=joined,
            open=tuple(end for end, place in places if place not in maybe),
            leads=tuple(sorted(conducts, key=natural)),
        )
