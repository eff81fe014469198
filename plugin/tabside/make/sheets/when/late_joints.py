"""Joints that wait for another sheet, and the sheet on which each measurement can be made.

A splice, and a part's contact that takes several wires, is made when the last of them is cut: then all ends lie
together, and one tube covers them.  What is measured through it is measured before any of these wires meets a board, so
their pads wait until then, too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct, field

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead
from tabside.analysis.power_ways import Joint
from tabside.make.needs.cable_jobs import soldered
from tabside.make.needs.live_leads import ground_first
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import Craft, Kind
from tabside.model.groups import Groups
from tabside.prove.measurement import Measurement, RowKind, Test, When, touched_leads

Shared = tuple[str, str]  # (splice, ""), or (in-line part, contact), where several wires meet


def shared_place(end: LeadEnd) -> Shared | None:
    """Where one tube covers all wires; None where each joint has its own."""
    if end.kind is EndKind.SPLICE:
        return (end.key[0], "")
    return end.key if end.kind is EndKind.INLINE else None


class LateJoints(Struct, frozen=True):
    """Sheets by their labels."""

    at: Mapping[Joint, str] = field(default_factory=dict)  # where a joint is made that is not made on its wire's sheet
    rows: Mapping[str, str] = field(default_factory=dict)  # id of a row -> where it can be made
    tube: Mapping[Shared, str] = field(default_factory=dict)  # where several wires meet -> the one with the heat-shrink
    alone: Mapping[str, str] = field(default_factory=dict)  # splice -> mark of the one wire that waits for a pack's own


def late_joints(
    ordered: Sequence[CableChoice],
    rows: Sequence[Measurement],
    live: Mapping[str, str],
    last_joints: Mapping[Joint, str],
    craft: Craft,
    *,
    whole: bool,
) -> LateJoints:
    """`last_joints`: of packs, made when their volts were measured; `whole`: all of a craft is planned."""
    order = _Order(ordered, live, craft)
    gathered = order.gathered() if whole else {}
    ready = order.ready(rows, gathered)
    waiting = dict(gathered)
    if whole:
        waiting |= order.pads_of(ready)
    at = {joint: order.label(n) for joint, n in waiting.items()}
    places = dict(order.places(rows, ready, waiting, last_joints))
    return LateJoints(at, places, order.tubes(at_once=whole), order.alone)


class _Order:
    """Sheets by their turn."""

    def __init__(self, ordered: Sequence[CableChoice], live: Mapping[str, str], craft: Craft) -> None:
        self._ordered = ordered
        self._live = live
        self._sheet_of = {made.lead.mark: n for n, choice in enumerate(ordered) for made in choice.job.leads}
        self._groups: Groups[object] = Groups()
        self._passes = {t.reference for t in craft.terminations.values() if t.kind in (Kind.SPLICE, Kind.INLINE)}
        self._pads = {t.reference for t in craft.terminations.values() if t.kind is Kind.PAD}
        self._hot_sheets = [n for n, sheet in enumerate(ordered) if self._hot(sheet.job.leads) and not sheet.stopped]
        self._shared: dict[Shared, list[MadeLead]] = {}
        for n, choice in enumerate(ordered):
            for reference in self._passes & set(choice.job.terminations):
                self._groups.join(n, reference)
            cold = [made for made in choice.job.leads if made.lead.mark not in live]
            for made in (*cold, *ground_first(craft, (made for made in choice.job.leads if made.lead.mark in live))):
                for end in made.ends if not choice.stopped else ():
                    if (place := shared_place(end)) is not None:
                        self._shared.setdefault(place, []).append(made)

    def label(self, sheet: int) -> str:
        return self._ordered[sheet].job.label

    def gathered(self) -> dict[Joint, int]:
        """Ends that wait for the last wire of their place; a pack's own wires come to what is joined already."""
        found: dict[Joint, int] = {}
        for (reference, _), leads in self._shared.items():
            cold = [made.lead.mark for made in leads if made.lead.mark not in self._live]
            last = max((self._sheet_of[mark] for mark in cold), default=0)
            found |= {(mark, reference): last for mark in cold if self._sheet_of[mark] < last}
        return found

    @property
    def alone(self) -> dict[str, str]:
        """A wire that nothing lies beside before a pack's own wire comes."""
        found: dict[str, str] = {}
        for (reference, contact), leads in self._shared.items():
            cold = [made.lead.mark for made in leads if made.lead.mark not in self._live]
            if not contact and len(cold) == 1 and self._hot(leads):
                found[reference] = cold[0]
        return found

    def tubes(self, *, at_once: bool) -> dict[Shared, str]:
        """The first wire of what is made at once; else the last one, a pack's own among them."""
        return {
            place: leads[0 if at_once and not self._hot(leads) else -1].lead.mark
            for place, leads in self._shared.items()
        }

    def _hot(self, leads: Iterable[MadeLead]) -> bool:
        return any(made.lead.mark in self._live for made in leads)

    def ready(self, rows: Iterable[Measurement], gathered: Mapping[Joint, int]) -> dict[object, int]:
        """Wires that splices and in-line parts tie together -> the sheet on which the meter goes through them."""
        found: dict[object, int] = {}
        for row in rows:
            visited = self._visited(row)
            if visited and row.kind is not RowKind.LOOK and _through_parts(row):
                group = self._groups.root(visited[0])
                found[group] = max(found.get(group, 0), *visited)
        for (mark, _), last in gathered.items():
            group = self._groups.root(self._sheet_of[mark])
            if group in found:
                found[group] = max(found[group], last)
        return found

    def pads_of(self, ready: Mapping[object, int]) -> dict[Joint, int]:
        """Pads that are soldered when the meter has been through the splice or the part."""
        found: dict[Joint, int] = {}
        for n, choice in enumerate(self._ordered):
            last = ready.get(self._groups.root(n), n)
            for made in choice.job.leads if n < last and not choice.stopped else ():
                joints = [end for end in made.ends if soldered(end) and end.key[0] not in self._passes]
                pads = [end.key[0] for end in joints if end.kind is EndKind.PAD]
                found |= {(made.lead.mark, pad): last for pad in pads if made.lead.mark not in self._live}
        return found

    def places(
        self,
        rows: Iterable[Measurement],
        ready: Mapping[object, int],
        waiting: Mapping[Joint, int],
        last_joints: Mapping[Joint, str],
    ) -> Iterator[tuple[str, str]]:
        """Rows of another sheet than their cable's."""
        late = {mark: last for (mark, _), last in waiting.items()}
        for row in rows:
            if row.when is When.PART:
                first = [n for n, sheet in enumerate(self._ordered) if row.where.termination in sheet.job.terminations]
                if first:
                    yield row.id, self.label(first[0])
            elif row.test is Test.SHORT and self._hot_sheets and row.where.termination in self._pads:
                yield row.id, self.label(self._hot_sheets[0])
            elif row.kind is RowKind.LOOK and row.when is not When.CRAFT:
                if (label := self._last_joint(row, waiting, last_joints)) is not None:
                    yield row.id, label
            elif row.kind is RowKind.BEEP and row.when in (When.SPLICED, When.PLUGGED, When.SOLDERED):
                sheets = self._visited(row)
                if sheets and _through_parts(row):
                    sheets.append(ready[self._groups.root(sheets[0])])
                sheets += [late[mark] for mark in touched_leads(row) if mark in late and row.when is When.SOLDERED]
                if len(set(sheets)) > 1 or row.when is When.SPLICED:
                    yield row.id, self.label(max(sheets))

    def _visited(self, row: Measurement) -> list[int]:
        return [self._sheet_of[mark] for mark in touched_leads(row) if mark in self._sheet_of]

    def _last_joint(
        self, row: Measurement, waiting: Mapping[Joint, int], last_joints: Mapping[Joint, str]
    ) -> str | None:
        """Where the last of the joints is made that it looks at."""
        place = row.where.termination
        late = [label for (_, at), label in last_joints.items() if at == place]
        if late:
            return late[-1]
        sheets = [
            waiting.get((made.lead.mark, place), n)
            for n, choice in enumerate(self._ordered)
            for made in (choice.job.leads if row.when is When.SOLDERED and not choice.stopped else ())
            if any(end.key[0] == place and soldered(end) for end in made.ends)
        ]
        elsewhere = len(set(sheets)) > 1 or (bool(sheets) and set(self._visited(row)) != set(sheets))
        return self.label(max(sheets)) if elsewhere else None


def _through_parts(row: Measurement) -> bool:
    """Measured with splices and in-line parts made, and no pad."""
    return row.when is When.SPLICED or (row.when is When.PLUGGED and bool(row.parts_first))
