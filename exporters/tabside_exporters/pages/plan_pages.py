"""The plan as pages for the bench: HTML with each plug drawn, Markdown with rows of boxes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from markupsafe import Markup

from tabside.documents.build import CraftBuild
from tabside.documents.document import Page
from tabside.documents.order_of_work import VOLTS
from tabside.make.craft_plan import CraftPlan
from tabside.make.sheets.cable_plan import Action, CableEnd, CablePlan, Handling, Step
from tabside.make.sheets.face_row import face_of_step
from tabside.make.sheets.handling import workmanship
from tabside.make.sheets.part_steps import PartStep
from tabside.prove.measurement import Measurement
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import CAUTIONS, ORDER_OF_WORK
from tabside.words.contacts import listed
from tabside.words.parts import part_name
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.markdown_pages import escaped
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.plug_drawing import plug_faces
from tabside_exporters.pages.sheet_layout import (
    LONG,
    MOST_BOXES,
    blocks_of,
    handling_block,
    is_dense,
    numbered,
    pads_of,
    sheet_anchor,
    twin_lines,
)

PARTS_ID = "parts"
_BOX = "\\[ \\]"


def write_plan_html(page: Page, build: CraftBuild) -> bytes:
    """What to do cable by cable: steps and tests in order with boxes to tick, and the faces of each plug."""
    plan = build.plan
    return rendered(
        "bench/plan.html.j2",
        styles=("tables/page.css", "bench/plug.css", "bench/plan.css"),
        title=page.document.title,
        about=clean_about(page.about),
        lines=[clean(line) for line in (*about_lines(page.about), *plan.legend)],
        cautions=(*CAUTIONS, *ORDER_OF_WORK),
        totals=[clean(line) for line in _totals(plan)],
        index=[*map(_index_row, plan.cables), *map(_index_part, plan.parts)],
        handling=_handling(plan),
        sheets=list(_sheets(build)),
        inspect=workmanship(plan.cables),
        parts=[] if any(cable.meets_pack for cable in plan.cables) else _part_words(plan),
        ends=_ends(build),
        notes=[clean(note) for note in (*plan.assumptions, *plan.mass.notes)],
    )


def _index_part(part: PartStep) -> dict[str, str]:
    return {
        "label": clean(part_name(part.reference)),
        "link": PARTS_ID,
        "between": clean(" - ".join(part.places)),
        "method": "solder across wires",
        "minutes": f"{part.minutes:g}",
        "cost": "no price stated",
    }


def _index_row(cable: CablePlan) -> dict[str, str]:
    return {
        "label": clean(cable.name),
        "link": sheet_anchor(cable.same_as or cable.label),
        "between": clean(cable.between),
        "method": cable.method.words + (f", as {clean(cable.same_as)}" if cable.same_as else ""),
        "minutes": f"{cable.minutes:g}",
        "cost": f"{cable.cost:.2f}",
    }


def _sheets(build: CraftBuild) -> Iterator[dict[str, object]]:
    """One for all cables that are made alike."""
    plan, row_numbers = build.plan, numbered(build.proof.rows)
    first_with_pack = _first_with_pack(build)
    parts = _part_words(plan)
    for cable in plan.cables:
        if cable.same_as is None:
            twins = [other for other in plan.cables if other.same_as == cable.label]
            first_parts, parts = (parts, []) if cable.meets_pack or cable.label == first_with_pack else ([], parts)
            whole = _whole(build) if cable.label == first_with_pack else []
            yield _sheet(cable, twins, row_numbers) | {
                "parts": first_parts,
                "whole": whole,
                "before": _told_before(cable.handling),
            }


def _told_before(handling: Sequence[Handling]) -> list[str]:
    if not handling:
        return []
    titles = listed([hand.title for hand in handling])
    return [clean(f"How contacts of {titles} come out and go in: before the first sheet")]


def _handling(plan: CraftPlan) -> list[dict[str, object]]:
    """How contacts come out and go in, each family once, in the order in which sheets need them."""
    crimped = _crimped(plan)
    needed = {handling.family: handling for cable in plan.cables for handling in cable.handling}
    return [handling_block(hand, crimped=hand.family in crimped) for hand in needed.values()]


def _first_with_pack(build: CraftBuild) -> str | None:
    """The first sheet on which a pack is at work: what is measured of the whole craft stands before it."""
    later = build.plan.cables[build.order_of_work.packs_from :]
    return next((cable.label for cable in later if cable.same_as is None), None)


def _whole(build: CraftBuild) -> list[dict[str, object]]:
    order = build.order_of_work
    return _listed(build, order.title, order.all_made)


def _ends(build: CraftBuild) -> list[dict[str, object]]:
    """What comes after all sheets."""
    whole = [] if _first_with_pack(build) else _whole(build)
    return [*whole, *_listed(build, VOLTS, build.order_of_work.volts)]


def _listed(build: CraftBuild, title: str, rows: Sequence[Measurement]) -> list[dict[str, object]]:
    numbers = numbered(build.proof.rows)
    lines = [{"number": numbers[row.id], "words": clean(row_words(row))} for row in rows]
    return [{"title": title, "rows": lines}] if lines else []


def _part_words(plan: CraftPlan) -> list[str]:
    return [clean(part.words) for part in plan.parts]


def _crimped(plan: CraftPlan) -> set[str | None]:
    """Families whose contacts are crimped by hand."""
    return {
        end.family
        for cable in plan.cables
        for step in cable.steps
        for end in cable.ends
        if step.action is Action.CRIMP and end.name == step.end
    }


def _sheet(cable: CablePlan, twins: list[CablePlan], row_numbers: dict[str, int]) -> dict[str, object]:
    labels = ", ".join([cable.heading, *(twin.label for twin in twins)])
    return {
        "id": sheet_anchor(cable.label),
        "label": clean(f"{labels}: make {len(twins) + 1}" if twins else labels),
        "between": clean(cable.between),
        "method": cable.method.words,
        "effort": cable.effort_words,
        "stopped": clean(cable.stopped),
        "from_what": clean(cable.from_what),
        "why": clean(cable.why),
        "cautions": [clean(text) for text in cable.cautions],
        "elsewhere": [clean(place.told(row_numbers)) for one in (cable, *twins) for place in one.elsewhere],
        "twins": twin_lines(cable, twins),
        "copies": len(twins) + 1 if len(twins) < MOST_BOXES else 1,
        "twin_tests": [block for twin in twins for block in blocks_of(twin, row_numbers) if block["kind"] == "test"],
        "looks": [clean(text) for text in cable.needs_one_look],
        "warnings": [clean(text) for text in cable.warnings],
        "blocks": blocks_of(cable, row_numbers),
        "dense": is_dense(cable),
        "wide": any(len(step.occupancy) > LONG for step in cable.steps),
        "pads": pads_of(cable),
        "plugs": _plugs(cable),
    }


def _plugs(cable: CablePlan) -> list[Markup]:
    """Each plug as it becomes, in the hand and on the board; all faces of the sheet side by side where they can be."""
    ends = {end.termination: end for end in cable.ends}
    rows = [row for row in cable.rows if row.termination in ends and row.after]
    among = 2 * len(rows)
    return [Markup(plug_faces(row, ends[row.termination], among=among, true_size=False, before=False)) for row in rows]


def _totals(plan: CraftPlan) -> Iterator[str]:
    yield from plan.total_words
    mass = plan.mass
    yield f"Mass of the harness: {mass.copper_g + mass.insulation_g:.1f} g for {mass.leads} wires."


def write_plan_markdown(page: Page, build: CraftBuild) -> bytes:
    """The same as a text that reads as it stands."""
    plan, about = build.plan, page.about
    parts = [f"# {page.document.title}: {escaped(about.craft_line)}"]
    if about.not_cleared:
        parts.append(f"**{about.not_cleared}**")
    parts.append("\n".join(f"- {escaped(line)}" for line in (*about.lines_below, *plan.legend)))
    parts += ["Caution:", "\n".join(f"- {escaped(line)}" for line in (*CAUTIONS, *ORDER_OF_WORK))]
    parts += [escaped(line) for line in _totals(plan)]
    if inspect := workmanship(plan.cables):
        parts += ["Inspect all finished work:", "\n".join(f"- {escaped(line)}" for line in inspect)]
    told: set[str] = set()
    live = False
    for cable in plan.cables:
        for handling in cable.handling:
            if handling.family not in told:
                told.add(handling.family)
                parts += _markdown_handling(handling)
        if cable.meets_pack and not live:
            live = True
            parts += _markdown_parts(plan)
        if cable.label == _first_with_pack(build):
            parts += _markdown_rows(_whole(build))
        parts += _markdown(cable, about.not_cleared)
    parts += [] if live else _markdown_parts(plan)
    parts += _markdown_rows(_ends(build))
    if plan.assumptions:
        parts += ["## Notes", "\n".join(f"- {escaped(note)}" for note in plan.assumptions)]
    return ("\n\n".join(parts) + "\n").encode()


def _markdown_parts(plan: CraftPlan) -> list[str]:
    if not plan.parts:
        return []
    lines = [f"- {_BOX} {escaped(part.words)}" for part in plan.parts]
    return ["Parts across wires, before any sheet with a pack:", "\n".join(lines)]


def _markdown_rows(blocks: Sequence[dict[str, object]]) -> Iterator[str]:
    for block in blocks:
        rows: Any = block["rows"]
        yield f"## {block['title']}"
        yield "\n".join(f"- {_BOX} step {row['number']}: {escaped(row['words'])}" for row in rows)


def _markdown(cable: CablePlan, not_cleared: str) -> Iterator[str]:
    yield f"## {escaped(cable.heading)}: {cable.method.words}. {escaped(cable.between)}"
    if not_cleared:
        yield f"**{not_cleared}**"
    if cable.stopped:
        yield f"**Stop.** {escaped(cable.stopped)}"
        return
    source = f"From {escaped(cable.from_what)}. " if cable.from_what else ""
    alike = f"Made as {escaped(cable.same_as)}. " if cable.same_as else ""
    yield f"{alike}{source}Why: {escaped(cable.why)}. {cable.effort_words}."
    first = [f"- **{escaped(text)}**" for text in cable.cautions]
    first += [f"- {_BOX} Check by eye first: {escaped(text)}" for text in cable.needs_one_look]
    first += [f"- Warning: {escaped(text)}" for text in cable.warnings]
    if first:
        yield "\n".join(first)
    if cable.steps:
        ends = {end.name: end for end in cable.ends}
        yield "\n".join(_markdown_step(step, ends[step.end]) for step in cable.steps)
    if cable.elsewhere:
        yield "\n".join(f"- {escaped(place.words)}" for place in cable.elsewhere)


def _markdown_handling(handling: Handling) -> Iterator[str]:
    yield f"Contacts of {escaped(handling.title)}:"
    lines = (
        f"release: {handling.release}",
        f"seat: {handling.seat}",
        *(f"crimp: {text}" for text in handling.crimp),
        f"re-use: {handling.reuse}",
        f"source: {handling.source}",
    )
    yield "\n".join(f"- {escaped(line)}" for line in lines)


def _markdown_step(step: Step, end: CableEnd) -> str:
    lines = [f"- {_BOX} {step.number}. {escaped(step.words)}"]
    lines += [f"  - {_BOX} {escaped(row_words(row))}" for row in step.rows]
    face = face_of_step(step, end)
    if face is not None:
        boxes = " ".join(f"{box.number}:{box.lead or '-'}" for box in face.boxes)
        row = f"# {boxes}" if face.mark_left else f"{boxes} #"
        parked = f", parked {face.parked}" if face.parked else ""
        housing = f"{face.housing} housing " if face.housing else ""
        lines.append(f"  {housing}`{clean(row).replace('`', '')}`{escaped(parked)}")
    return "\n".join(lines)
