"""What every page carries, so that a sheet found on the bench tells what it belongs to and whether it may be built."""

from __future__ import annotations

from msgspec import Struct

from tabside import __version__
from tabside.documents.build import CraftBuild
from tabside.facts import tables
from tabside.model.findings import Finding, Severity, Where
from tabside.words.contacts import counted
from tabside.words.verdict import no_errors, stop_words

UNSAVED = "KiCad held changes of this drawing that were not saved: they are not in this page"


class About(Struct, frozen=True):
    """The craft, what the page was made from, and what stands against building from it."""

    craft: str
    revision: str
    drawing_hash: str  # short, of drawing and craft file
    tabside_version: str
    tables_version: str
    errors: int  # not accepted
    warnings: int  # not accepted
    leads: int
    not_judged: int
    accepted: tuple[str, ...]  # one line for each accepted finding, with its reason
    undecided: int = 0  # wires of power that nothing decides
    unsaved: bool = False  # KiCad holds changes that are not in the files

    @property
    def not_cleared(self) -> str:
        """The words that stand on top of a page while nobody may build from it; "" when it is cleared."""
        return stop_words(self.errors, self.undecided)

    @property
    def title_verdict(self) -> str:
        """With which the title of a page begins, so that an old tab is seen to be old."""
        return self.not_cleared or no_errors(self.warnings)

    @property
    def craft_line(self) -> str:
        return f"{self.craft}, revision {self.revision or 'not stated'}"

    @property
    def made_from_line(self) -> str:
        return f"Drawing {self.drawing_hash}, Tabside {self.tabside_version}, tables {self.tables_version}"

    @property
    def judged_line(self) -> str:
        judged = self.leads - self.not_judged
        return (
            f"{counted(self.errors, 'error')}, {counted(self.warnings, 'warning')}; checked {judged} of "
            f"{counted(self.leads, 'wire')}"
        )

    def lines(self) -> tuple[str, ...]:
        """The most urgent line first."""
        return (
            *((self.not_cleared,) if self.not_cleared else ()),
            self.craft_line,
            *((UNSAVED,) if self.unsaved else ()),
            *self.lines_below,
        )

    @property
    def lines_below(self) -> tuple[str, ...]:
        """Of what the page was made, and what was found."""
        return (self.made_from_line, self.judged_line, *(f"Accepted: {line}" for line in self.accepted))


def about_build(build: CraftBuild) -> About:
    """What each page of this build carries."""
    craft, verdict = build.craft, build.verdict
    return About(
        craft=craft.name,
        revision=craft.revision,
        drawing_hash=craft.drawing_hash,
        tabside_version=__version__,
        tables_version=tables.tables_version(),
        errors=build.errors,
        warnings=verdict.count(Severity.WARNING),
        leads=verdict.judged.leads + verdict.judged.not_judged,
        not_judged=verdict.judged.not_judged,
        accepted=tuple(_accepted(finding) for finding in verdict.findings if finding.accepted is not None),
        undecided=verdict.undecided,
        unsaved=build.is_unsaved,
    )


def _accepted(finding: Finding) -> str:
    places = ", ".join(dict.fromkeys(text for where in finding.where if (text := _place(where))))
    return f"{finding.rule} ({finding.severity}){f' at {places}' if places else ''}, because: {finding.accepted}"


def _place(where: Where) -> str:
    if where.termination is None:
        return where.board or where.net or ""
    board = f"{where.board}/" if where.board else ""
    return f"{board}{where.termination}{f':{where.contact}' if where.contact is not None else ''}"
