"""The findings page: what is wrong with a drawing, link by link, in one file that needs no other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tabside.documents.build import CraftBuild
from tabside.documents.dated import STATE_FILE
from tabside.documents.document import Document, Page
from tabside.documents.explanation import Explanation, explanations
from tabside.documents.rows import Column, Row
from tabside.model.findings import Finding, Severity
from tabside.words.cautions import CAUTIONS
from tabside.words.contacts import link_name, termination_name
from tabside.words.verdict import judged_line, last_line, not_judged_lines
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.pages.findings_groups import Group, groups_of

if TYPE_CHECKING:
    from tabside.model.craft import Craft

COLUMNS = (
    Column("severity", "error: built as drawn it would damage something or not work"),
    Column("rule", "name of the rule"),
    Column("link", "the two connectors that it is about"),
    Column("message", "what is wrong"),
    Column("fix", "what to do"),
    Column("at", "contacts that it names"),
    Column("accepted", "the reason, when the craft file accepts it"),
)


def findings_table(build: CraftBuild) -> Iterator[Row]:
    """One row for each finding, the most harmful first."""
    return (_row(build.craft, finding) for finding in build.verdict.findings)


def _row(craft: Craft, finding: Finding) -> Row:
    return {
        "severity": finding.severity.value,
        "rule": finding.rule,
        "link": link_name(craft, finding.link) if finding.link else "",
        "message": finding.message,
        "fix": finding.fix,
        "at": ", ".join(_places(craft, finding)),
        "accepted": finding.accepted or "",
    }


def _places(craft: Craft, finding: Finding) -> list[str]:
    named = [(where.termination, where.contact) for where in finding.where if where.termination in craft.terminations]
    return list(
        dict.fromkeys(
            f"{termination_name(craft, reference)}{'' if number is None else f':{number}'}"
            for reference, number in named
            if reference is not None
        )
    )


def write_findings(page: Page, build: CraftBuild) -> bytes:
    """Findings by link with both plugs drawn; filters where the browser runs scripts, all of it where it does not."""
    groups = groups_of(build.craft, build.verdict)
    shown = sorted((finding for group in groups for finding in group.findings), key=lambda one: one.number)
    counts = {kind: sum(1 for finding in shown if finding.kind == kind) for kind in (*Severity, "accepted")}
    return rendered(
        "craft/findings.html.j2",
        styles=("tables/page.css", "craft/findings.css"),
        script="craft/findings.js",
        title=page.document.title,
        about=clean_about(page.about),
        lines=[clean(line) for line in about_lines(page.about, here=True)],
        drawing_hash=page.about.drawing_hash,
        open_in_kicad=build.may_be_unsaved,
        changed_in_kicad=build.is_unsaved,
        dated=build.dated,
        picture=STATE_FILE,
        judged=judged_line(build.verdict.judged),
        next_step=last_line(build.verdict),
        not_judged=[clean(line) for line in not_judged_lines(build.verdict)],
        cautions=CAUTIONS,
        groups=[group for group in groups if not group.quiet],
        quiet=[group for group in groups if group.quiet],
        urgent=[finding for finding in shown if finding.kind in (Severity.ERROR, Severity.WARNING)],
        counts={kind: number for kind, number in counts.items() if number},
        total=len(shown),
        boards=_boards(groups),
        meanings=_meanings([finding.rule for finding in shown]),
    )


def _boards(groups: list[Group]) -> list[str]:
    return sorted({board for group in groups for finding in group.findings for board in finding.boards})


def _meanings(rules: list[str]) -> dict[str, list[Explanation]]:
    """What each rule on the page means, by name."""
    every = sorted(explanations(), key=lambda explanation: explanation.severity.rank)
    found = {rule: [explanation for explanation in every if rule in explanation.rules] for rule in sorted(set(rules))}
    return {rule: meaning for rule, meaning in found.items() if meaning}


DOCUMENT = Document(
    id="findings",
    title="Findings",
    purpose="What is wrong with the drawing, and how to fix it; read it first",
    row="finding",
    columns=COLUMNS,
    rows=findings_table,
    written_by={"html": write_findings},
)
