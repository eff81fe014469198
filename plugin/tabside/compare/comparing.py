"""How two crafts are compared: crafts, not text; moved symbols, other references and other net names are no change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.judgement import Judgement
from tabside.compare.changes.boards import boards_now, changes_of_boards
from tabside.compare.changes.cables import changes_of_cables
from tabside.compare.changes.change import CHANGED, SUBJECTS, Change
from tabside.compare.changes.craft_file_keys import changes_of_acceptances, changes_of_craft_files
from tabside.compare.changes.craft_files import Missing, change_of_craft_file, missing_craft_file, with_craft_file
from tabside.compare.changes.findings import changes_of_findings, counted_findings, retest_of
from tabside.compare.changes.leads import changes_of_leads
from tabside.compare.changes.parts_across import changes_of_parts
from tabside.compare.changes.ports import changes_of_settings
from tabside.compare.changes.stated import changes_of_facts
from tabside.compare.changes.terminations import changes_of_terminations
from tabside.compare.comparison import Comparison
from tabside.compare.fates.boards import with_other_boards
from tabside.compare.fates.cable_fate import KEEP, CableFate, works_on_wires
from tabside.compare.fates.cables import fates_of_cables
from tabside.compare.fates.leads import LeadFates, fates_of_leads
from tabside.compare.fates.packs import with_packs_exchanged
from tabside.compare.matched.alike_contacts import recounted, with_alike_contacts
from tabside.compare.matched.anchors import anchors_of
from tabside.compare.matched.matching import best_match, same_wiring
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import Exchanged
from tabside.compare.side import Side
from tabside.compare.work.bench import Work, work_between
from tabside.compare.work.cable_work import CableWork
from tabside.documents.build import craft_build
from tabside.model.craft import Craft, Kind
from tabside.model.findings import Verdict
from tabside.rules import check_judgement


def compare_crafts(old: Craft, new: Craft) -> Comparison:
    """What changed from one craft to the other."""
    was, now = _judged(old), _judged(new)
    found = _best(was, now)
    alike = None if found.same else with_alike_contacts(found.rebuild)
    if alike is not None:
        found = _best(_judged(alike), now)
    counts = () if alike is None else recounted(old, alike)
    build = craft_build(new, now.verdict, judgement=now.side.judgement)
    if found.same:  # a cable may be drawn between other contacts of equal choice
        stay = tuple(fate._replace(what=KEEP, said="") for fate in found.cables if fate.new is not None)
        return replace(found, build=build, cables=stay, todo=Work(tuple(map(CableWork, stay))), recounted=counts)
    todo = work_between(found.rebuild, found.cables, build, found.exchanged)
    told = replace(todo, first=(*_recount(found.rebuild, counts, todo), *todo.first))
    return replace(found, build=build, todo=told, recounted=counts)


class _Judged(NamedTuple):
    """One side, and what the checks say of it."""

    side: Side
    verdict: Verdict


def _judged(craft: Craft) -> _Judged:
    judgement = Judgement(craft)
    return _Judged(Side(judgement), check_judgement(judgement))


def _recount(rebuild: Rebuild, counts: Iterable[tuple[str, str, str]], todo: Work) -> Iterator[str]:
    """Where hands are on a fuse or a switch whose ends have each other's number now."""
    new, matching = rebuild.new, rebuild.matching
    steps = (step for work in todo.cables for step in work.steps)
    worked = {step.termination for step in steps if step.cavity is not None and not step.of_old}
    for reference in dict.fromkeys(reference for reference, _, _ in counts):
        now = matching.pairs[reference]
        if now in worked and new.terminations[now].kind is Kind.INLINE:
            said = [f"what was {was} is {to}" for ref, was, to in counts if ref == reference]
            words = "the new drawing counts its ends the other way"
            yield f"{new.name(now)}: {words}, {' and '.join(said)}: pen-mark them so"


def _best(was: _Judged, now: _Judged) -> Comparison:
    """Under the matching that tells the least as changed, names and uuids held."""
    sides, verdicts = (was.side, now.side), (was.verdict, now.verdict)
    anchors = anchors_of(*sides, other_shapes=True)
    same = same_wiring(*sides, *anchors)
    if same is not None:
        return _compared(Rebuild(*sides, same), verdicts)
    first = _compared(Rebuild(*sides, best_match(*sides, *anchors)), verdicts)
    if not _looks_renumbered(first):
        return first
    anchors = anchors_of(*sides, other_shapes=False)
    matching = same_wiring(*sides, *anchors) or best_match(*sides, *anchors)
    second = _compared(Rebuild(*sides, matching), verdicts)
    return min((first, second), key=lambda comparison: len(comparison.changes))


def _looks_renumbered(found: Comparison) -> bool:
    """Whether so much moved that references may have been given anew."""
    by_reference = {
        found.new.name(found.matching.pairs[a]) for a, how in found.matching.how.items() if how == "reference"
    }
    changed = (change.name for change in found.changes if change.subject == "termination" and change.kind == CHANGED)
    return any(name in by_reference for name in changed)


def _compared(rebuild: Rebuild, verdicts: tuple[Verdict, Verdict]) -> Comparison:
    """First what becomes of all that is there, then what of it is told as a change."""
    exchanged = Exchanged(rebuild)
    found = fates_of_cables(rebuild, fates_of_leads(rebuild, exchanged.swapped))
    cables, leads = with_packs_exchanged(rebuild, found, exchanged.own_wires)
    missing = missing_craft_file(rebuild)
    changes = list(_changes_of_builds(rebuild, cables, leads, exchanged, missing))
    if missing is None:
        changes += changes_of_craft_files(rebuild)
        changes += changes_of_acceptances(rebuild, verdicts[1].findings)
    if not any(change.subject != "cable" for change in changes):
        changes = []  # cables are made of leads: without a change in those they are the same
    retest = retest_of(rebuild.matching, leads, verdicts, accepted=missing is None)
    if not changes and (_is_chosen(rebuild, leads) or counted_findings(retest.new) == counted_findings(retest.gone)):
        retest = retest.of_one_build()
    changes += changes_of_findings(retest.new, retest.gone)
    return Comparison(
        rebuild=rebuild,
        changes=tuple(sorted(changes, key=lambda change: SUBJECTS.index(change.subject))),
        leads=leads,
        cables=with_other_boards(rebuild, cables, exchanged.swapped),
        retest=retest,
        verdict=verdicts[1],
        exchanged=exchanged,
    )


def _changes_of_builds(
    rebuild: Rebuild, cables: tuple[CableFate, ...], leads: LeadFates, exchanged: Exchanged, missing: Missing | None
) -> Iterator[Change]:
    """What the drawings say; without what the craft file alone says."""
    boards = boards_now(rebuild)
    works = works_on_wires(cables)
    told = with_craft_file(rebuild, leads, works, missing)
    yield from change_of_craft_file(rebuild, leads, missing)
    yield from changes_of_boards(rebuild, boards, exchanged)
    yield from changes_of_terminations(rebuild, boards)
    yield from changes_of_leads(rebuild, told, works, {wire for cable in cables for wire in cable.gone})
    yield from changes_of_cables(rebuild, cables)
    yield from changes_of_parts(rebuild)
    yield from changes_of_facts(rebuild)
    yield from changes_of_settings(rebuild)


def _is_chosen(rebuild: Rebuild, leads: LeadFates) -> bool:
    """Whether wires stay that the drawings leave to choice: findings follow what was chosen."""
    return any(rebuild.matching.ends(before) != after for before, after in leads.kept)
