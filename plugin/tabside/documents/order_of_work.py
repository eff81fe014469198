"""The rows of the continuity sheet in the order of work: those of sheets where they are made, the others around."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from tabside.make.craft_plan import CraftPlan
from tabside.make.sheets.cable_plan import CablePlan
from tabside.prove.measurement import Measurement, RowKind, When

ALL_MADE = "When all cables are made, everything plugged in but the pack"
BEFORE_PACKS = "Before the pack's own leads are touched: everything else made and plugged in, the pack away"
VOLTS = "The pack by itself: volts, never ohms"
_FIRST = (When.METER, When.PART)


class OrderOfWork(Struct, frozen=True):
    before: tuple[Measurement, ...]  # the meter, and parts that no sheet handles
    all_made: tuple[Measurement, ...]  # of the whole craft, while no pack is near
    volts: tuple[Measurement, ...]  # of packs, that no sheet has
    packs_from: int  # the first sheet on which a pack is worked on or measured; as many as there are: none
    rows: tuple[Measurement, ...]  # all of them, in this order
    title: str  # over those of the whole craft


def order_of_work(rows: Sequence[Measurement], plan: CraftPlan) -> OrderOfWork:
    """No row with ohms comes after one with a pack's volts, unless it stands on the pack's own sheet."""
    by_id = {row.id: row for row in rows}
    on_sheets = [[id for id in _ids(cable) if id in by_id] for cable in plan.cables]
    told = {id for ids in on_sheets for id in ids}
    others = [row for row in rows if row.id not in told]
    before = [row for row in others if row.when in _FIRST]
    volts = [row for row in others if row.kind is RowKind.VOLTS]
    all_made = [row for row in others if row not in before and row not in volts]
    first = next((n for n, cable in enumerate(plan.cables) if _with_pack(cable)), len(plan.cables))
    cold, hot = ([by_id[id] for ids in sheets for id in ids] for sheets in (on_sheets[:first], on_sheets[first:]))
    ordered = {row.id: row for row in (*before, *cold, *all_made, *hot, *volts)}
    return OrderOfWork(
        before=tuple(before),
        all_made=tuple(all_made),
        volts=tuple(volts),
        packs_from=first,
        rows=tuple(ordered.values()),
        title=BEFORE_PACKS if first < len(plan.cables) else ALL_MADE,
    )


def _ids(cable: CablePlan) -> Iterator[str]:
    return (row.id for step in cable.steps for row in step.rows)


def _with_pack(cable: CablePlan) -> bool:
    return any(step.live or any(row.kind is RowKind.VOLTS for row in step.rows) for step in cable.steps)
