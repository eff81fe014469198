"""The plan as pages for the bench: HTML with each plug drawn, Markdown with rows of boxes."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from tabside.documents.build import Build
from tabside.documents.document import Page
from tabside.make.sheets.cable_plan import CablePlan, Plan, Step
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.markdown_pages import escaped
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.plug_drawing import plug_faces

_BOX = "\\[ \\]"


def write_plan_html(page: Page, build: Build) -> bytes:
    """One cable a page: what to mark first, steps with boxes to tick, both faces of each plug, the proof."""
    plan = build.plan
    return rendered(
        "plan.html.j2",
        styles=("page.css", "plug.css", "plan.css"),
        title=page.document.title,
        about=clean_about(page.about),
        lines=[clean(line) for line in about_lines(page.about)],
        cautions=CAUTIONS,
        totals=[clean(line) for line in _totals(plan)],
        cables=[_cable(cable) for cable in plan.cables],
        notes=[clean(note) for note in (*plan.assumptions, *plan.mass.notes)],
    )


def _cable(cable: CablePlan) -> dict[str, object]:
    hands = bool(cable.steps or cable.start_proof)
    ends = {end.termination: end for end in cable.ends}
    return {
        "label": clean(cable.label),
        "between": clean(" - ".join(end.name for end in cable.ends)),
        "method": cable.method.value,
        "minutes": f"{cable.minutes:g}",
        "cost": f"{cable.cost:.2f}",
        "stopped": clean(cable.stopped),
        "from_what": clean(cable.from_what),
        "why": clean(cable.why),
        "looks": [clean(text) for text in cable.needs_one_look],
        "warnings": [clean(text) for text in cable.warnings],
        "first": [clean(text) for text in _first(cable)] if hands else [],
        "steps": [_step(step) for step in cable.steps],
        "plugs": [Markup(plug_faces(row, ends[row.termination])) for row in cable.rows if row.termination in ends],
        "proof": [
            {
                "leads": clean(" ".join(each.leads)),
                "start": clean(each.start),
                "end": clean(each.end),
                "expect": clean(each.expect),
                "note": clean(each.note),
            }
            for each in cable.proof
        ]
        if hands
        else [],
        "handling": [
            {
                "family": clean(each.family),
                "release": clean(each.release),
                "seat": clean(each.seat),
                "reuse": clean(each.reuse),
                "source": clean(each.source),
                "inspect": [clean(text) for text in each.inspect],
            }
            for each in cable.handling
        ],
    }


def _step(step: Step) -> dict[str, object]:
    colour = f" [{step.colour}]" if step.colour else ""
    return {
        "number": step.number,
        "words": clean(step.words + colour),
        "boxes": [clean(lead or "") for lead in step.occupancy] if _moves(step) else [],
        "parked": clean(step.parked or ""),
        "housing": step.housing,
    }


def _moves(step: Step) -> bool:
    return step.action.value in ("take out", "put in", "leave out")


def _first(cable: CablePlan) -> tuple[str, ...]:
    return (*cable.preparation, *((cable.start_proof,) if cable.start_proof else ()))


def _totals(plan: Plan) -> Iterator[str]:
    hand = plan.by_hand
    yield (
        f"All cables: {plan.minutes:g} min, {plan.cost:.2f} for parts, {plan.crimps} crimps by hand. Had all been "
        f"crimped by hand: {hand.minutes:g} min, {hand.crimps} crimps, {hand.contacts} contacts to buy, "
        f"{hand.cost:.2f} for contacts and wire."
    )
    yield f"Choice: {plan.bound_words}."
    mass = plan.mass
    yield f"Mass of the harness: {mass.copper_g + mass.insulation_g:.1f} g for {mass.leads} leads."


def write_plan_markdown(page: Page, build: Build) -> bytes:
    """The same as a text that reads as it stands."""
    plan, about = build.plan, page.about
    parts = [f"# {page.document.title}: {escaped(about.craft_line)}"]
    if about.not_cleared:
        parts.append(f"**{about.not_cleared}**")
    lines = (about.made_from_line, about.judged_line, *(f"Accepted: {line}" for line in about.accepted))
    parts.append("\n".join(f"- {escaped(line)}" for line in lines))
    parts += ["Caution:", "\n".join(f"- {escaped(line)}" for line in CAUTIONS)]
    parts += [escaped(line) for line in _totals(plan)]
    for cable in plan.cables:
        parts += _markdown(cable, about.not_cleared)
    if plan.assumptions:
        parts += ["## Notes", "\n".join(f"- {escaped(note)}" for note in plan.assumptions)]
    return ("\n\n".join(parts) + "\n").encode()


def _markdown(cable: CablePlan, not_cleared: str) -> Iterator[str]:
    between = " - ".join(end.name for end in cable.ends)
    yield f"## {escaped(cable.label)}: {cable.method.value}. {escaped(between)}"
    if not_cleared:
        yield f"**{not_cleared}**"
    if cable.stopped:
        yield f"**Stop.** {escaped(cable.stopped)}"
        return
    source = f"From {escaped(cable.from_what)}. " if cable.from_what else ""
    yield f"{source}Why: {escaped(cable.why)}. {cable.minutes:g} min, {cable.cost:.2f} for parts."
    hands = bool(cable.steps or cable.start_proof)
    looks = [f"- {_BOX} Needs one look: {escaped(text)}" for text in cable.needs_one_look]
    looks += [f"- Warning: {escaped(text)}" for text in cable.warnings]
    if looks:
        yield "\n".join(looks)
    if hands and (first := [f"- {_BOX} {escaped(text)}" for text in _first(cable)]):
        yield "\n".join(first)
    if cable.steps:
        yield "\n".join(_markdown_step(step) for step in cable.steps)
    if hands and cable.proof:
        yield "Proof, before any power:"
        yield "\n".join(
            f"- {_BOX} {escaped(f'{each.start} to {each.end}: {each.expect}')}"
            + (f" ({escaped(each.note)})" if each.note else "")
            for each in cable.proof
        )
    for each in cable.handling:
        yield f"Contacts of {escaped(each.family)}:"
        lines = (
            f"release: {each.release}",
            f"seat: {each.seat}",
            f"use again: {each.reuse}",
            *each.inspect,
            each.source,
        )
        yield "\n".join(f"- {escaped(line)}" for line in lines)


def _markdown_step(step: Step) -> str:
    colour = f" [{step.colour}]" if step.colour else ""
    line = f"- {_BOX} {step.number}. {escaped(step.words + colour)}"
    if not _moves(step):
        return line
    boxes = " ".join(f"{n}:{lead or '-'}" for n, lead in enumerate(step.occupancy, 1))
    parked = f", parked {step.parked}" if step.parked else ""
    housing = f"{step.housing} housing " if step.housing else ""
    return f"{line}\n  {housing}`{clean(boxes).replace('`', '')}`{escaped(parked)}"
