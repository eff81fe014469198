"""Cables that are made alike: one sheet serves them all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from tabside.make.sheets.cable_plan import CablePlan, Step


def with_twins(sheets: Iterable[CablePlan]) -> Iterator[CablePlan]:
    """The sheets in their order; each that an earlier one serves says so."""
    first: dict[object, str] = {}
    for sheet in sheets:
        if sheet.stopped:
            yield sheet
            continue
        label = first.setdefault(_making(sheet), sheet.label)
        yield sheet if label == sheet.label else replace(sheet, same_as=label)


def _making(sheet: CablePlan) -> object:
    """All that hands do and see, with wires and ends by their order instead of their names.

    Measurements stand apart: each of the cables has its own.
    """
    leads = {mark: n for n, mark in enumerate(sheet.leads)}
    ends = {end.name: n for n, end in enumerate(sheet.ends)}
    return (
        sheet.method,
        sheet.start_from,
        _without_names(sheet.from_what, sheet),
        sheet.start,
        len(sheet.leads),  # a part's own plug with a wire pulled has the steps of one that has all
        tuple((end.family, end.ways, end.entry, end.tabs, end.contact_1, end.has_plug) for end in sheet.ends),
        tuple(_step(step, leads, ends, sheet) for step in sheet.steps if not step.rows),
        tuple(tuple((cavity.number, cavity.signal) for cavity in row.after) for row in sheet.rows),
        len(sheet.needs_one_look),
    )


def _step(step: Step, leads: dict[str, int], ends: dict[str, int], sheet: CablePlan) -> object:
    return (
        step.action,
        ends[step.end],
        step.cavity,
        step.from_left,
        leads.get(step.lead, step.lead),
        step.colour,
        step.signal,
        step.live,
        step.housing,
        _without_names(step.brief, sheet),
    )


def _without_names(text: str, sheet: CablePlan) -> str:
    names = [*sheet.leads, *(end.shown for end in sheet.ends), sheet.label]
    for n, name in sorted(enumerate(names), key=lambda item: -len(item[1])):
        text = text.replace(name, f"#{n}")
    return text
