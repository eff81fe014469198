"""What stands beside the steps of a changed cable: its plugs before and after, and what to look at in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.make.needs.twisted_pairs import twist_looks
from tabside.make.sheets.cable_plan import HANDS, PlugRow, Step
from tabside.make.sheets.ready_sheets import cavities_of


def plug_rows(
    sheet: WorkSheet, before: Mapping[str, tuple[str | None, ...]], done: Iterable[Step]
) -> Iterator[PlugRow]:
    """Of each plug that hands work on; `before`: what sat in it at first."""
    builds, old, new = sheet.builds, sheet.builds.old, sheet.builds.new
    worked = {step.end for step in done if step.action in HANDS and step.cavity}
    colours = {name: old.facts(wire).colour for wire, name in sheet.names.items()}
    made = (new.leads[wire].mark for wire in sheet.fate.made)
    colours |= {mark: builds.made[mark].lead.colour for mark in made}
    back = {now: reference for reference, now in sheet.fate.places}
    for ref, end in sheet.ends.items():
        if end.has_plug and not end.is_cup and end.ways is not None and end.name in worked:
            was = old.terminations[back[ref]] if ref in back else new.terminations[ref]
            first = cavities_of(before[ref], was, colours)
            last = cavities_of(sheet.steps.row(ref), new.terminations[ref], colours)
            yield PlugRow(end.board, ref, first, last)


def looks_at(sheet: WorkSheet, done: Sequence[Step]) -> tuple[str, ...]:
    """What one look at the real part must still settle."""
    in_hand = {step.lead for step in done if step.lead and step.cavity}
    return (*dict.fromkeys(_looks_at_plugs(sheet, done)), *twist_looks(sheet.builds.build.craft, in_hand))


def _looks_at_plugs(sheet: WorkSheet, done: Sequence[Step]) -> Iterator[str]:
    counted = (step for step in done if step.occupancy and step.action in HANDS and step.cavity)
    worked = {(step.end, step.of_old) for step in (*counted, *(step for step in done if step.rows))}
    for end in sheet.steps.ends:
        if end.has_plug and (end.name, end.of_old) in worked:
            views = sheet.builds.old_views if end.of_old else sheet.builds.views
            yield from views.looks(end)
