"""How two crafts are compared: crafts, not text; moved symbols, other references and other net names are no change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from tabside.analysis.judgement import Judgement
from tabside.compare.changes.boards import boards_now, changes_of_boards
from tabside.compare.changes.cables import changes_of_cables
from tabside.compare.changes.change import CHANGED, SUBJECTS
from tabside.compare.changes.craft_file_keys import changes_of_acceptances, changes_of_craft_files
from tabside.compare.changes.craft_files import change_of_craft_file, missing_craft_file, with_craft_file
from tabside.compare.changes.findings import changes_of_findings, counted_findings, retest_of
from tabside.compare.changes.leads import changes_of_leads
from tabside.compare.changes.parts_across import changes_of_parts
from tabside.compare.changes.ports import changes_of_settings
from tabside.compare.changes.stated import changes_of_facts
from tabside.compare.changes.terminations import changes_of_terminations
from tabside.compare.comparison import Comparison
from tabside.compare.fates.boards import with_other_boards
from tabside.compare.fates.cable_fate import KEEP, works_on_wires
from tabside.compare.fates.cables import fates_of_cables
from tabside.compare.fates.leads import fates_of_leads
from tabside.compare.fates.packs import with_packs_exchanged
from tabside.compare.matched.alike_contacts import recounted, with_alike_contacts
from tabside.compare.matched.anchors import anchors_of
from tabside.compare.matched.matching import Matching, best_match, same_wiring
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
    judged = Judgement(old), Judgement(new)
    sides = Side(judged[0]), Side(judged[1])
    verdicts = check_judgement(judged[0]), check_judgement(judged[1])
    found = _best(*sides, verdicts)
    alike = None if found.same else with_alike_contacts(*sides, found.matching)
    if alike is not None:
        judgement = Judgement(alike)
        sides, verdicts = (Side(judgement), sides[1]), (check_judgement(judgement), verdicts[1])
        found = _best(*sides, verdicts)
    counts = () if alike is None else recounted(old, alike)
    build = craft_build(new, verdicts[1], judgement=judged[1])
    if found.same:  # a cable may be drawn between other contacts of equal choice
        stay = tuple(fate._replace(what=KEEP, said="") for fate in found.cables if fate.new is not None)
        return replace(found, build=build, cables=stay, todo=Work(tuple(map(CableWork, stay))), recounted=counts)
    todo = work_between(*sides, found.matching, found.cables, build, found.exchanged)
    told = replace(todo, first=(*_recount(sides[1], found.matching, counts, todo), *todo.first))
    return replace(found, build=build, todo=told, recounted=counts)


def _recount(new: Side, matching: Matching, counts: Iterable[tuple[str, str, str]], todo: Work) -> Iterator[str]:
    """Where hands are on a fuse or a switch whose ends have each other's number now."""
    steps = (step for work in todo.cables for step in work.steps)
    worked = {step.termination for step in steps if step.cavity is not None and not step.of_old}
    for reference in dict.fromkeys(reference for reference, _, _ in counts):
        now = matching.pairs[reference]
        if now in worked and new.terminations[now].kind is Kind.INLINE:
            said = [f"what was {was} is {to}" for ref, was, to in counts if ref == reference]
            words = "the new drawing counts its ends the other way"
            yield f"{new.name(now)}: {words}, {' and '.join(said)}: pen-mark them so"


def _best(old: Side, new: Side, verdicts: tuple[Verdict, Verdict]) -> Comparison:
    """Under the matching that tells the least as changed, names and uuids held."""
    anchors = anchors_of(old, new, other_shapes=True)
    same = same_wiring(old, new, *anchors)
    if same is not None:
        return _compared(old, new, same, verdicts)
    first = _compared(old, new, best_match(old, new, *anchors), verdicts)
    if not _looks_renumbered(first):
        return first
    anchors = anchors_of(old, new, other_shapes=False)
    same = same_wiring(old, new, *anchors)
    second = _compared(old, new, same or best_match(old, new, *anchors), verdicts)
    return min((first, second), key=lambda comparison: len(comparison.changes))


def _looks_renumbered(found: Comparison) -> bool:
    """Whether so much moved that references may have been given anew."""
    by_reference = {
        found.new.name(found.matching.pairs[a]) for a, how in found.matching.how.items() if how == "reference"
    }
    changed = (change.name for change in found.changes if change.subject == "termination" and change.kind == CHANGED)
    return any(name in by_reference for name in changed)


def _compared(old: Side, new: Side, matching: Matching, verdicts: tuple[Verdict, Verdict]) -> Comparison:
    exchanged = Exchanged(old, new, matching)
    found = fates_of_cables(old, new, matching, fates_of_leads(old, new, matching, exchanged.swapped))
    cables, leads = with_packs_exchanged(old, new, matching, found, exchanged.own_wires)
    boards = boards_now(old, new, matching)
    works, missing = works_on_wires(cables), missing_craft_file(old, new)
    told = with_craft_file(old, new, matching, leads, works, missing)
    changes = [
        *change_of_craft_file(old, new, leads, missing),
        *changes_of_boards(old, new, boards, exchanged),
        *changes_of_terminations(old, new, matching, boards),
        *changes_of_leads(old, new, told, works, {wire for cable in cables for wire in cable.gone}),
        *changes_of_cables(old, new, cables),
        *changes_of_parts(old, new, matching),
        *changes_of_facts(old, new, matching),
        *changes_of_settings(old, new, matching),
    ]
    if missing is None:
        changes += [
            *changes_of_craft_files(old, new, matching),
            *changes_of_acceptances(old, new, matching, verdicts[1].findings),
        ]
    if not any(change.subject != "cable" for change in changes):
        changes = []  # cables are made of leads: without a change in those they are the same
    order = {subject: n for n, subject in enumerate(SUBJECTS)}
    retest = retest_of(matching, leads, verdicts, accepted=missing is None)
    chosen = any(matching.ends(before) != after for before, after in leads.kept)  # findings follow what was chosen
    if not changes and (chosen or counted_findings(retest.new) == counted_findings(retest.gone)):
        retest = retest.of_one_build()
    changes += changes_of_findings(retest.new, retest.gone)
    there = with_other_boards(old, new, matching, cables, exchanged.swapped)
    return Comparison(
        old,
        new,
        matching,
        tuple(sorted(changes, key=lambda change: order[change.subject])),
        leads,
        there,
        retest,
        verdicts[1],
        exchanged,
    )
