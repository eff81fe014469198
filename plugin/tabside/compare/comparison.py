"""The comparison of two crafts: crafts, not text; moved symbols, other references and other net names are no change."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from tabside.analysis.current.part_ratings import rating_words
from tabside.analysis.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.compare.alike_contacts import recounted, with_alike_contacts
from tabside.compare.anchors import anchors_of
from tabside.compare.change import ADDED, CHANGED, REMOVED, SUBJECTS, Change
from tabside.compare.craft_files import change_of_craft_file, missing_craft_file, with_craft_file
from tabside.compare.fates.boards import with_other_boards
from tabside.compare.fates.cable_fate import KEEP, CableFate, works_on_wires
from tabside.compare.fates.cables import changes_of_cables, fates_of_cables
from tabside.compare.fates.leads import LeadFates, changes_of_leads, fates_of_leads
from tabside.compare.fates.new_labels import NewLabels, labels_again
from tabside.compare.fates.packs import with_packs_exchanged
from tabside.compare.fates.what_part import Told, is_another, told_by_value
from tabside.compare.fates.wires import Ends
from tabside.compare.matching import BY_FIT, Matching, best_match, same_wiring
from tabside.compare.other_boards import Exchanged
from tabside.compare.part_changes import changes_of_parts
from tabside.compare.side import Side, is_loose
from tabside.compare.stated import (
    changes_of_acceptances,
    changes_of_craft_files,
    changes_of_facts,
    changes_of_findings,
    changes_of_settings,
)
from tabside.compare.work.bench import Work, work_between
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.parts import Need
from tabside.documents.build import CraftBuild, craft_build
from tabside.facts import families
from tabside.facts.footprints import match_footprint
from tabside.model.craft import Craft, Kind, Termination
from tabside.model.findings import Finding, Outcome, Severity, Verdict
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement
from tabside.rules import check_judgement
from tabside.wiring.terminations.part_kinds import FUSES
from tabside.words.contacts import counted

_NO_PLUG = "The steps of its cables take it out."
_PADS_FREE = "Nothing is on these pads any more: the steps take off what was there."
_ANOTHER_FUSE = (
    "Another fuse: meter it in the hand (it beeps); it goes into the holder when the old one is out, at first power. "
    "One that is soldered in: one wire at a time off the old one, taped at once, then onto the same contact of the "
    "new one, and covered; on a pack's wires each of these is LIVE."
)
_ANOTHER_PART = (
    "Another part: with no power on the craft one wire at a time comes off the old one and goes to the same contact of "
    "the new one; then the joints are covered."
)
_BY_STEPS = (
    "Another part: its wires come off the old one, and go to the same contacts of the new one: the steps say when."
)
_BY_LIKE_BOARD = "by what is on its board and meets it, since that has another name: see that it is so"
_HOW_WORDS = {
    BY_FIT: "by fit, since no name and no reference tells it: see that it is so",
    "uuid": "the same symbol of the drawing",
}


class Retest(Struct, frozen=True):
    """What must be measured again, and what the checks say now that they did not say before."""

    leads: tuple[Ends, ...]  # new leads that are new or touched
    new: tuple[Finding, ...]  # findings that are not notes
    gone: tuple[Finding, ...]
    still: tuple[Finding, ...]

    def of_one_build(self) -> Retest:
        """Of two drawings of one build: a finding of like plugs may name another one of them."""
        return replace(self, new=(), gone=(), still=(*self.still, *self.new))


class Comparison(Struct, frozen=True):
    """All that differs between two builds, the old one first."""

    old: Side
    new: Side
    matching: Matching
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
        return tuple(labels_again(self.old, self.new, self.matching, self.cables))

    def kept(self) -> Iterator[str]:
        """Cables that stay as they are."""
        for fate in self.cables:
            if fate.what != KEEP or fate.new is None or self.todo.on_again & set(fate.new.leads):
                continue
            yield f"{fate.name}: {' - '.join(self.new.name(end) for end in fate.new.ends)}"  # it may be single wires

    def wires_of(self, fate: CableFate) -> list[tuple[str, str]]:
        """Old and new number of each wire that is used again."""
        marks = ((self.old.leads[a].mark, self.new.leads[b].mark) for a, b in fate.wires)
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


def cleared_words(comparison: Comparison) -> str:
    """What stands in the way of building the new drawing; "" when nothing does."""
    verdict = comparison.verdict
    match verdict.outcome:
        case Outcome.NOT_CLEARED:
            errors = counted(verdict.count(Severity.ERROR), "error")
            return f"NOT CLEARED TO BUILD: the new drawing has {errors}. Fix it before you make any cable."
        case Outcome.NOT_DECIDED:
            return (
                f"NOT DECIDED: of {counted(verdict.undecided, 'wire')} of the new drawing nobody knows whether power "
                "comes where it should not be. Settle it before you make any cable."
            )
    return ""


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
    boards = _boards(old, new, matching)
    works, missing = works_on_wires(cables), missing_craft_file(old, new)
    told = with_craft_file(old, new, matching, leads, works, missing)
    changes = [
        *change_of_craft_file(old, new, leads, missing),
        *_board_changes(old, new, boards, _with_sheets(exchanged)),
        *_termination_changes(old, new, matching, boards),
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
    retest = _retest(matching, leads, verdicts, accepted=missing is None)
    chosen = any(matching.ends(before) != after for before, after in leads.kept)  # findings follow what was chosen
    if not changes and (chosen or _counted(retest.new) == _counted(retest.gone)):
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


def _boards(old: Side, new: Side, matching: Matching) -> Mapping[str, str | None]:
    """Old board -> the new board that most of its terminations are on; None when it has gone."""
    votes: dict[str, Counter[str]] = {}
    for reference, termination in old.terminations.items():
        if is_loose(termination):
            continue
        counter = votes.setdefault(termination.board, Counter())
        if reference in matching.pairs:
            counter[new.terminations[matching.pairs[reference]].board] += 1
    return {
        board: min(counter, key=lambda name: (-counter[name], natural(name))) if counter else None
        for board, counter in votes.items()
    }


def _with_sheets(exchanged: Exchanged) -> frozenset[str]:
    """Boards that sheets of the order of work take out, by the names that they had."""
    return frozenset(other.was for other in exchanged.boards) | exchanged.parts | exchanged.packs


def _board_changes(
    old: Side, new: Side, boards: Mapping[str, str | None], with_sheets: Collection[str]
) -> Iterator[Change]:
    """Of boards that the drawing names; those named after a reference only are told as terminations."""
    for board in sorted(old.boards, key=natural):
        now = boards.get(board)
        if now is None:
            plugs = any(t.board == board and t.takes_plug for t in old.terminations.values())
            bench = "Unplug it; its cables are listed below." if plugs else _NO_PLUG
            yield Change(REMOVED, "board", board, board, None, bench)
        elif now != board and now in new.boards:
            bench = f"Fit {now} in place of {board}: find contact 1 on it, and do what is listed below before power."
            bench = bench if board in with_sheets else _by_name_alone(board, now)
            yield Change(CHANGED, "board", now, board, now, bench, now)
    came = new.boards - {now for now in boards.values() if now is not None}
    for board in sorted(came, key=natural):
        yield Change(ADDED, "board", board, None, board, "Fit it: find contact 1 on each of its connectors.")


def _by_name_alone(board: str, now: str) -> str:
    """Of one whose connectors are the same: whether it is another one, the drawing does not say."""
    return (
        f"See which it is. If the same board only has another name now, leave it in. If {now} is another board, what "
        "is listed below does not put it in: all power out and packs off first (one without a plug: fuse out, plus "
        f"off before minus, each end taped at once); then every plug and wire off {board}, and onto {now} by the "
        "names printed there, a pack's last of all; then the whole continuity sheet of the new drawing, before power."
    )


def _termination_changes(
    old: Side, new: Side, matching: Matching, boards: Mapping[str, str | None]
) -> Iterator[Change]:
    for reference, now in matching.pairs.items():
        before, after = old.terminations[reference], new.terminations[now]
        said = _differences(before, after)
        moved_board = not is_loose(after) and boards.get(before.board) != after.board
        if said or moved_board:
            yield Change(
                CHANGED,
                "termination",
                new.name(now),
                "; ".join(b for _, b, _ in said) or old.name(reference),
                "; ".join(a for _, _, a in said) or new.name(now),
                _termination_bench({what for what, _, _ in said}, before, after),
                after.board if before.board != after.board else "",
                place=after.board,
            )
    for reference, termination in old.terminations.items():
        if reference not in matching.pairs:
            stays = termination.kind is Kind.PAD and boards.get(termination.board) is not None
            bench = "Unplug it." if termination.takes_plug else _PADS_FREE if stays else _NO_PLUG
            name, place = old.name(reference), termination.board
            yield Change(REMOVED, "termination", name, _describe(termination), None, bench, place=place)
    known = set(matching.pairs.values())
    for reference, termination in new.terminations.items():
        if reference not in known:
            bench = "Find contact 1 on it before anything is plugged in."
            bench = "Find its pads by the names printed there." if termination.kind is Kind.PAD else bench
            bench = "The steps of its cables say how it is fitted." if is_loose(termination) else bench
            name, place = new.name(reference), termination.board
            yield Change(ADDED, "termination", name, None, _describe(termination), bench, place=place)


def _differences(before: Termination, after: Termination) -> list[tuple[str, str, str]]:
    """What differs, before, after."""
    found = []
    for what, one, other in (
        ("kind", before.kind.value, after.kind.value),
        ("family", _family_words(before), _family_words(after)),
        ("ways", str(before.ways or "not known"), str(after.ways or "not known")),
        *(_of_parts(before, after) if is_loose(after) else ()),
    ):
        if one != other:
            found.append((what, f"{what} {one}", f"{what} {other}"))
    if _other_footprint(before.footprint, after.footprint):
        found.append(("footprint", f"footprint {before.footprint}", f"footprint {after.footprint}"))
    if _signals(before) != _signals(after):
        found.append(("signals", f"signals {_signals(before)}", f"signals {_signals(after)}"))
    return found


def _of_parts(before: Termination, after: Termination) -> Iterator[tuple[str, str, str]]:
    """What is told of a fuse, a switch or a splice: its Value, else what it is made for."""
    if told_by_value(before, after) is not Told.SAME:
        yield ("value", before.value, after.value)
    else:
        ratings = [rating_words(part.fields, part.value) or "not stated" for part in (before, after)]
        yield ("rating", ratings[0], ratings[1])


def _other_footprint(before: str, after: str) -> bool:
    """Whether the board carries another part there, by what footprints say of it; the library's name says nothing."""
    names = [footprint.rpartition(":")[2] for footprint in (before, after)]
    if "" in names or names[0] == names[1]:
        return False
    told = [match_footprint(name) for name in (before, after)]
    if None in told:
        return True
    return len({(match.family, match.ways, match.rows, match.entry, match.contact_1) for match in told if match}) > 1


def _family_words(termination: Termination) -> str:
    return families.family(termination.family).title if termination.family else termination.family_text or "not known"


def _termination_bench(differs: set[str], before: Termination, after: Termination) -> str:
    plug = before.takes_plug or after.takes_plug
    if "kind" in differs or (plug and differs & {"family", "ways"}):
        return "What goes in here has changed: see its cable."
    if "signals" in differs and "ways" not in differs:
        return (
            "The pin order has changed: hold it against the names printed on the board or in its manual, and test the "
            "cable again. Where they differ from the new drawing: no power; correct the drawing and compare again."
        )
    if after.kind is Kind.INLINE and differs <= {"value", "rating"}:
        if letters_of(after.reference) in FUSES:
            return _ANOTHER_FUSE
        return _BY_STEPS if is_another(before, after) else _ANOTHER_PART
    return "Check it against the part you have."


def _signals(termination: Termination) -> str:
    return ", ".join(f"{contact.number} {contact.label or '?'}" for contact in termination.contacts)


def _describe(termination: Termination) -> str:
    family = _family_words(termination)
    family = "" if termination.kind is not Kind.RECEPTACLE and family == "not known" else family
    ways = f"{termination.ways} ways" if termination.ways else ""
    return ", ".join(text for text in (termination.kind.value, family, ways) if text)


def _retest(
    matching: Matching,
    leads: LeadFates,
    verdicts: tuple[Verdict, Verdict],
    *,
    accepted: bool,
) -> Retest:
    """A finding whose acceptance is withdrawn counts again, and is new; one that is accepted now stands, so marked.

    `accepted`: whether acceptances are known on both sides.
    """

    def key(finding: Finding, *, is_old: bool) -> tuple[object, ...]:
        places = {(at.termination or "", at.contact or "") for at in finding.where}
        if is_old:
            places = {(matching.pairs.get(termination, termination), contact) for termination, contact in places}
        return (finding.rule, finding.severity, frozenset(places))

    loud = [[f for f in verdict.findings if f.severity is not Severity.NOTE] for verdict in verdicts]
    before = {key(finding, is_old=True) for finding in loud[0]}
    counted_before = {key(finding, is_old=True) for finding in loud[0] if finding.accepted is None}
    now = {key(finding, is_old=False) for finding in loud[1]}

    def stood(finding: Finding) -> bool:
        """Whether it was there before, and counted if it counts now."""
        known = before if finding.accepted is not None or not accepted else counted_before
        return key(finding, is_old=False) in known

    return Retest(
        leads.touched,
        tuple(finding for finding in loud[1] if not stood(finding)),
        tuple(finding for finding in loud[0] if key(finding, is_old=True) not in now),
        tuple(finding for finding in loud[1] if stood(finding)),
    )


def _counted(findings: tuple[Finding, ...]) -> Counter[tuple[object, ...]]:
    return Counter((finding.rule, finding.severity, finding.accepted) for finding in findings)
