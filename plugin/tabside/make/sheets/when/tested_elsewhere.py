"""Wires that no test on their own sheet tells about: which sheet does, or why none can."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from tabside.make.method import Method
from tabside.make.sheets.cable_plan import CablePlan, Elsewhere
from tabside.model.craft import Craft, Kind
from tabside.prove.measurement import Measurement, RowKind, touched_leads
from tabside.words.contacts import listed, plural


def with_pointers(
    sheets: Sequence[CablePlan], craft: Craft, live: Collection[str], finders: Mapping[str, Collection[str]]
) -> Iterator[CablePlan]:
    """The sheets, each with what is said of its wires elsewhere.

    `live`: marks of leads with voltage, which volts tell about; `finders`: by wire, rows that find a mistake there.
    """
    on = {row.id: (sheet, row) for sheet in sheets for step in sheet.steps for row in step.rows}
    for sheet in sheets:
        yield replace(sheet, elsewhere=tuple(_elsewhere(sheet, on, craft, live, finders)))


def _elsewhere(
    sheet: CablePlan,
    on: Mapping[str, tuple[CablePlan, Measurement]],
    craft: Craft,
    live: Collection[str],
    finders: Mapping[str, Collection[str]],
) -> Iterator[Elsewhere]:
    here = [row for step in sheet.steps for row in step.rows]
    told = {mark for row in here for mark in touched_leads(row)}
    if any(row.kind is RowKind.VOLTS for row in here):
        told |= set(live)
    ids = {row.id for row in here}
    groups: dict[tuple[str, ...], list[str]] = {}
    for mark in sheet.leads if not sheet.stopped else ():
        found = [id for id in on if id in finders.get(mark, ())]
        if mark not in told and not ids & set(found):
            groups.setdefault(tuple(found), []).append(mark)
    for rows_found, marks in groups.items():
        rows = tuple(on[id][1] for id in rows_found)
        names = tuple(dict.fromkeys(on[id][0].name for id in rows_found))
        yield Elsewhere(tuple(marks), rows, names, _words(sheet, marks, names, craft))


def _words(sheet: CablePlan, marks: Sequence[str], names: Sequence[str], craft: Craft) -> str:
    wires = listed(list(marks), 40)
    if names:
        return f"{wires}: tested on the {plural(len(names), 'sheet')} of {listed(list(names), 40)}"
    if sheet.method is Method.DIRECT:
        return f"{wires}: the part's own wires in its own plug, nothing to meter; first power shows it"
    parts = list(_parts(marks, craft))
    why = f": one end is inside {listed(parts, 12)}" if parts else ""
    return f"{wires}: no meter row can tell{why}; inspect the joints against the drawing, tug; first power shows it"


def _parts(marks: Iterable[str], craft: Craft) -> dict[str, None]:
    """Parts with their own leads, from which these come."""
    leads = [lead for lead in craft.leads if lead.mark in set(marks)]
    ends = [craft.terminations[key[0]] for lead in leads for key in lead.ends]
    return {termination.board: None for termination in ends if termination.kind is Kind.CAPTIVE}
