"""The comparison of two crafts: crafts, not text; moved symbols, other references and other net names are no change."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct, field

from tabside.compare.changes.change import Change
from tabside.compare.changes.findings import Retest
from tabside.compare.changes.new_labels import NewLabels, labels_again
from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.fates.leads import LeadFates
from tabside.compare.matched.matching import BY_FIT
from tabside.compare.matched.rebuild import OfRebuild, Rebuild
from tabside.compare.reuse.other_boards import Exchanged
from tabside.compare.work.bench import Work
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.parts.thing import Need
from tabside.documents.build import CraftBuild
from tabside.model.findings import Outcome, Severity, Verdict
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement
from tabside.words.contacts import counted

_BY_LIKE_BOARD = "by what is on its board and meets it, as the board has another name: check it"
_HOW_WORDS = {
    BY_FIT: "by the best fit, as no name and no reference says so: check it",
    "uuid": "the same symbol of the drawing",
}


class Comparison(OfRebuild, Struct, frozen=True):
    """All that differs between two builds, the old one first."""

    rebuild: Rebuild
    changes: tuple[Change, ...]
    leads: LeadFates
    cables: tuple[CableFate, ...]
    retest: Retest
    verdict: Verdict  # of the new build
    exchanged: Exchanged
    recounted: tuple[tuple[str, str, str], ...] = ()  # old reference, contact then and now, of ends that are alike
    todo: Work = field(default_factory=Work)
    build: CraftBuild | None = None  # of the new drawing

    @property
    def work(self) -> tuple[CableWork, ...]:
        """On each cable, in the order of work."""
        return self.todo.cables

    @property
    def measure(self) -> tuple[Measurement, ...]:
        """All that the work can have spoiled."""
        return self.todo.measure

    @property
    def step_of(self) -> Mapping[str, int]:
        """Row of the continuity sheet -> its step."""
        return self.todo.step_of

    @property
    def purchases(self) -> tuple[Need, ...]:
        """What the new build needs more, and what becomes free."""
        return self.todo.needs

    @property
    def cleared(self) -> bool:
        """Whether the new drawing may be built."""
        return self.verdict.outcome is Outcome.CLEAR

    @property
    def same(self) -> bool:
        """Whether both drawings are one and the same build."""
        return not self.changes

    @property
    def labels(self) -> tuple[NewLabels, ...]:
        """To be printed again."""
        return tuple(labels_again(self.rebuild, self.cables))

    def kept(self) -> Iterator[str]:
        """Cables that stay as they are."""
        for fate in self.cables:
            if fate.what != KEEP or fate.new is None or self.todo.on_again & set(fate.new.leads):
                continue
            yield f"{fate.name}: {' - '.join(self.new.name(end) for end in fate.new.ends)}"  # it may be single wires

    def wires_of(self, fate: CableFate) -> list[tuple[str, str]]:
        """Old and new number of each wire that is used again."""
        marks = ((self.old.leads[before].mark, self.new.leads[after].mark) for before, after in fate.wires)
        return sorted(marks, key=lambda pair: natural(pair[1]))

    def how_matched(self) -> Iterator[str]:
        """Matches that names alone do not tell, in words."""
        for old, new in self.matching.pairs.items():
            how = self.matching.how[old]
            other = self.old.name(old) != self.new.name(new)
            renamed = self.old.board(old) != self.new.board(new)
            if how == "board" and renamed:
                yield f"{self.old.name(old)} is {self.new.name(new)}, {_BY_LIKE_BOARD}"
            elif how == BY_FIT or (how == "uuid" and other):
                yield f"{self.old.name(old)} is {self.new.name(new)}, {_HOW_WORDS[how]}"


def cleared_words(comparison: Comparison) -> str:
    """What stands in the way of building the new drawing; "" when nothing does."""
    verdict = comparison.verdict
    match verdict.outcome:
        case Outcome.NOT_CLEARED:
            errors = counted(verdict.count(Severity.ERROR), "error")
            return f"NOT CLEARED TO BUILD: the new drawing has {errors}. Fix it before you make any cable."
        case Outcome.NOT_DECIDED:
            return (
                f"NOT DECIDED: {counted(verdict.undecided, 'wire')} of the new drawing may bring power where it does "
                "harm. Settle it before you make any cable."
            )
    return ""
