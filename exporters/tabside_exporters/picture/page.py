"""The picture of the whole craft as a page: what goes where at a glance, with the way into findings and plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.model.findings import Finding, Severity
from tabside.words.contacts import termination_name
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.findings_groups import ACCEPTED, numbered_findings
from tabside_exporters.pages.sheet_layout import sheet_anchor
from tabside_exporters.picture.content import Mark, Note, Notes, Run, Shown, Thing, runs_of
from tabside_exporters.picture.drawing import craft_svg, draw_craft

COLUMNS = (
    Column("cable", "number of the cable, or of the wires that no plug ties together"),
    Column("between", "boards and the connectors on them that it goes to"),
    Column("wires", "how many", CellKind.WHOLE),
    Column("method", "how it is made"),
    Column("findings", "errors, warnings and accepted findings about it, by their numbers on the findings page"),
)
_MOST_MARKS = 3  # at one thing; the rest is counted


def picture_table(build: CraftBuild) -> Iterator[Row]:
    """One row for each cable."""
    plans = {cable.label: cable for cable in build.plan.cables}
    marks = _marks(build)
    for run in runs_of(build.craft):
        yield {
            "cable": run.label,
            "between": " - ".join(termination_name(build.craft, reference) for reference in run.ends),
            "wires": len(run.marks),
            "method": plans[run.label].method.words,
            "findings": ", ".join(mark.words for mark in marks.get((Shown.CABLE, run.label), ())),
        }


def write_picture(page: Page, build: CraftBuild) -> bytes:
    """The drawing, and the same as a list for a small screen or a voice."""
    files = {document.id: document.files["html"] for document in page.folder if "html" in document.files}
    marks = _marks(build)
    picture = draw_craft(build.craft, _notes(build, files, marks))
    links = {cable.label: sheet_anchor(cable.same_as or cable.label) for cable in build.plan.cables}
    return rendered(
        "craft/craft-picture.html.j2",
        styles=(
            "tables/page.css",
            "craft/craft-picture.css",
            f"craft/craft-picture-{'upright' if picture.upright else 'wide'}.css",
        ),
        title=page.document.title,
        about=clean_about(page.about),
        lines=[clean(line) for line in about_lines(page.about)],
        picture=craft_svg(picture),
        alone=picture.alone,
        cables=[
            {name: clean(str(value)) for name, value in row.items()}
            | {
                "sheet": links[str(row["cable"])],
                "marks": _linked(marks.get((Shown.CABLE, str(row["cable"])), ()), files),
            }
            for row in page.rows
        ],
        plan=files.get("plan", ""),
        has_marks=any(marks.values()),
    )


def _notes(build: CraftBuild, files: Mapping[str, str], marks: Mapping[Thing, tuple[Mark, ...]]) -> Notes:
    plan = files.get("plan")
    cables = {
        cable.label: Note(
            lines=(cable.method.brief,),
            link=f"{plan}#{sheet_anchor(cable.same_as or cable.label)}" if plan else "",
            marks=_shown(_linked(marks.get((Shown.CABLE, cable.label), ()), files)),
            strong=any(mark.kind == Severity.ERROR for mark in marks.get((Shown.CABLE, cable.label), ())),
        )
        for cable in build.plan.cables
    }
    terminations = build.craft.terminations
    boards = {termination.board for termination in terminations.values()}
    at = {thing: Note(marks=_shown(_linked(found, files))) for thing, found in marks.items()}
    return Notes(
        cables,
        {name: note for (what, name), note in at.items() if what is Shown.PLUG and name in terminations},
        {name: note for (what, name), note in at.items() if what is Shown.BOARD and name in boards},
    )


def _marks(build: CraftBuild) -> dict[Thing, tuple[Mark, ...]]:
    """Findings by what they are about.

    Notes are left to the findings page: they are said of nearly every cable.
    """
    runs = runs_of(build.craft)
    by_mark = {lead.mark: lead for lead in build.craft.leads}
    run_of = {key: run for run in runs for mark in run.marks for key in by_mark[mark].ends}
    found: dict[Thing, list[Mark]] = {}
    for number, finding in numbered_findings(build.verdict):
        kind = ACCEPTED if finding.accepted is not None else finding.severity.value
        if kind != Severity.NOTE:
            for thing in _about(finding, runs, run_of):
                found.setdefault(thing, []).append(Mark(kind, str(number), f"{kind} {number}", f"#finding-{number}"))
    return {thing: tuple(marks) for thing, marks in found.items()}


def _about(finding: Finding, runs: tuple[Run, ...], run_of: Mapping[tuple[str, str], Run]) -> list[Thing]:
    if finding.link is not None:
        of_link = [(Shown.CABLE, run.label) for run in runs if set(finding.link) <= set(run.ends)]
        if of_link:
            return of_link
    things: list[Thing] = []
    for where in finding.where:
        run = run_of.get((where.termination or "", where.contact or ""))
        if run is not None:
            things.append((Shown.CABLE, run.label))
        elif where.termination is not None:
            things.append((Shown.PLUG, where.termination))
        elif where.board is not None:
            things.append((Shown.BOARD, where.board))
    return list(dict.fromkeys(things))


def _linked(marks: tuple[Mark, ...], files: Mapping[str, str]) -> tuple[Mark, ...]:
    page = files.get("findings")
    return tuple(Mark(mark.kind, mark.number, mark.words, f"{page}{mark.link}" if page else "") for mark in marks)


def _shown(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """As many as there is room for; the last says how many more there are."""
    if len(marks) <= _MOST_MARKS:
        return marks
    rest = marks[_MOST_MARKS - 1 :]
    words = f"and {', '.join(mark.words for mark in rest)}"
    return (*marks[: _MOST_MARKS - 1], Mark("more", f"+{len(rest)}", words, rest[0].link))


DOCUMENT = Document(
    id="craft-picture",
    title="Picture of the craft",
    purpose="What goes where at a glance: boards, plugs and cables, with the errors and warnings at each",
    row="cable",
    columns=COLUMNS,
    rows=picture_table,
    written_by={"html": write_picture},
)
