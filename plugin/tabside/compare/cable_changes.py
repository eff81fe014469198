"""What becomes of each cable: kept, re-pinned, used on another link, retired, or made new."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from tabside.compare.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.lead_changes import Ends, LeadFates
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.make.options.repin import Hand, Repin, plan_repin
from tabside.model.craft import Cable, ContactKey, Kind
from tabside.model.natural import natural

Pairs = tuple[tuple[int, int], ...]


class CableFate(NamedTuple):
    """One cable of the old or the new build, and what is done with it."""

    what: str  # "keep", "shorten", "re-pin", "re-use", "re-make", "retire", "make"
    old: Cable | None
    new: Cable | None
    words: str
    repin: Repin | None = None


def fates_of_cables(old: Side, new: Side, matching: Matching, leads: LeadFates) -> tuple[CableFate, ...]:
    """Each cable of both builds once; old cables that no link keeps are offered to the links that need one."""
    altered = dict(leads.altered)
    ends_old = {cable.mark: _ends(old, cable) for cable in old.craft.cables}
    ends_new = {cable.mark: _ends(new, cable) for cable in new.craft.cables}
    stays = dict((*leads.kept, *leads.altered))
    mapped = {mark: {stays.get(e, matching.ends(e) or e) for e in ends} for mark, ends in ends_old.items()}
    free_new = {cable.mark: cable for cable in new.craft.cables}
    fates: list[CableFate] = []
    spare: list[Cable] = []
    for cable in old.craft.cables:
        shared = [(len(mapped[cable.mark] & ends_new[mark]), mark) for mark in free_new]
        same_plugs = [mark for mark in free_new if _plugs(matching, cable) == frozenset(free_new[mark].ends)]
        best = max(shared, default=(0, ""), key=lambda found: found[0])
        mark = best[1] if best[0] else (same_plugs[0] if same_plugs else None)
        if mark is None:
            spare.append(cable)
            continue
        same = mapped[cable.mark] == ends_new[mark]
        fate = _fate(old, new, matching, cable, free_new.pop(mark), same)
        if fate.what == "keep":
            fate = _of_other_wire(
                old, new, fate, {ends: altered[ends] for ends in ends_old[cable.mark] if ends in altered}
            )
        fates.append(fate)
    fates += _used_elsewhere(old, new, spare, free_new)
    fates += [CableFate("retire", cable, None, "Put it into stock, tagged with its order.") for cable in spare]
    fates += [CableFate("make", None, cable, "Make it: `tabside plan` says how.") for cable in free_new.values()]
    return tuple(sorted(fates, key=lambda fate: natural((fate.new or fate.old or _NONE).mark)))


def changes_of_cables(old: Side, new: Side, fates: tuple[CableFate, ...]) -> Iterator[Change]:
    for fate in fates:
        before = None if fate.old is None else _words(old, fate.old)
        after = None if fate.new is None else _words(new, fate.new)
        match fate.what:
            case "keep":
                continue
            case "retire":
                yield Change(REMOVED, "cable", before or "", before, None, fate.words)
            case "make":
                yield Change(ADDED, "cable", after or "", None, after, fate.words)
            case _:
                yield Change(CHANGED, "cable", after or "", before, after, fate.words)


def repin_words(side: Side, cable: Cable, repin: Repin) -> str:
    """The moves in order, short enough for one line of a table."""
    first, second = _two_plugs(side, cable) or ("", "")
    names = (side.name(first), side.name(second))
    verbs = {Hand.TAKE_OUT: "out of", Hand.PUT_IN: "into", Hand.LEAVE_OUT: "for good out of"}
    moves = ", ".join(f"{verbs[move.hand]} {names[move.plug]}:{move.cavity}" for move in repin.moves)
    return f"Re-pin, {repin.moved} contact{'' if repin.moved == 1 else 's'} to move: {moves}. Then measure all of it."


def _fate(old: Side, new: Side, matching: Matching, was: Cable, now: Cable, same: bool) -> CableFate:
    changed_plug = [
        new.name(to)
        for reference, to in matching.pairs.items()
        if reference in was.ends and to in now.ends and _is_another(old, reference, new, to)
    ]
    if changed_plug:
        return CableFate("re-make", was, now, f"The plug at {', '.join(changed_plug)} has changed: make a new cable.")
    if same:
        return CableFate("keep", was, now, "Keep it.")
    there, drawn = _pairs(old, was), _pairs(new, now)
    two_old, two_new = _two_plugs(old, was), _two_plugs(new, now)
    if there is not None and drawn is not None and two_old and two_new:
        if tuple(matching.pairs.get(reference) for reference in two_old) == two_new[::-1]:
            there = tuple((b, a) for a, b in there)
        repin = plan_repin(there, drawn)
        if repin is not None and _may_repin(old, was):
            return CableFate("re-pin", was, now, repin_words(new, now, repin), repin)
    return CableFate("re-make", was, now, "Change the leads that are listed here; measure all of it.")


def _of_other_wire(old: Side, new: Side, fate: CableFate, altered: Mapping[Ends, Ends]) -> CableFate:
    """A cable whose order stays, with leads of another length or gauge."""
    if not altered:
        return fate
    spare = [_shorter_by(old, new, before, after) for before, after in altered.items()]
    known = [by for by in spare if by is not None and by >= 0]
    if len(known) == len(spare):
        words = f"Shorten it by {max(known):g} mm, or stow that much; its order stays."
        return fate._replace(what="shorten", words=words)
    return fate._replace(what="re-make", words="Some of its leads are too short or of another wire: make those again.")


def _shorter_by(old: Side, new: Side, before: Ends, after: Ends) -> float | None:
    """By how much a lead is longer than it needs to be; None when it is of another wire, or a length is not known."""
    was, now = old.facts(before), new.facts(after)
    if was.gauge_awg != now.gauge_awg or was.length_mm is None or now.length_mm is None:
        return None
    return was.length_mm - now.length_mm


def _used_elsewhere(old: Side, new: Side, spare: list[Cable], free_new: dict[str, Cable]) -> list[CableFate]:
    """Old cables that fit links of the new build, with the fewest moves over all of them."""
    options: list[tuple[Cable, str, Repin]] = []
    for cable in spare:
        for mark, wanted in free_new.items():
            repin = _fits(old, new, cable, wanted)
            if repin is not None:
                options.append((cable, mark, repin))
    if not options:
        return []
    marks = sorted({mark for _, mark, _ in options}, key=natural)
    by_place = {(cable.mark, mark): repin for cable, mark, repin in options}
    worth = [
        [1000.0 - by_place[cable.mark, mark].moved if (cable.mark, mark) in by_place else 0.0 for mark in marks]
        for cable in spare
    ]
    fates = []
    taken = [(row, column) for row, column in best_pairs(worth) if worth[row][column]]
    for row, column in taken:
        cable, wanted = spare[row], free_new.pop(marks[column])
        repin = by_place[cable.mark, wanted.mark]
        words = f"Use the old cable of {' and '.join(old.name(end) for end in cable.ends)} here. "
        words += repin_words(new, wanted, repin) if repin.moves else "It fits as it is; measure all of it."
        fates.append(CableFate("re-use", cable, wanted, words, repin))
    for row, _ in sorted(taken, reverse=True):
        del spare[row]
    return fates


def _fits(old: Side, new: Side, cable: Cable, wanted: Cable) -> Repin | None:
    """How an old cable becomes a new one: same plugs, long enough, and its contacts can be moved."""
    two_old, two_new = _two_plugs(old, cable), _two_plugs(new, wanted)
    there, drawn = _pairs(old, cable), _pairs(new, wanted)
    if not two_old or not two_new or there is None or drawn is None or not _may_repin(old, cable):
        return None
    has, needs = _length(old, cable), _length(new, wanted)
    if has is None or needs is None or has < needs:
        return None
    plugs_old = [_plug(old, reference) for reference in two_old]
    plugs_new = [_plug(new, reference) for reference in two_new]
    plans = [plan_repin(there, drawn)] if plugs_old == plugs_new else []
    if plugs_old == plugs_new[::-1]:
        plans.append(plan_repin(tuple((b, a) for a, b in there), drawn))
    known = [plan for plan in plans if plan is not None]
    return min(known, key=lambda plan: plan.moved) if known else None


def _ends(side: Side, cable: Cable) -> set[Ends]:
    marks = set(cable.leads)
    return {ends for ends, lead in side.leads.items() if lead.mark in marks}


def _plugs(matching: Matching, cable: Cable) -> frozenset[str]:
    return frozenset(matching.pairs.get(reference, "") for reference in cable.ends)


def _plug(side: Side, reference: str) -> tuple[str | None, int | None, Kind]:
    termination = side.terminations[reference]
    return (termination.family, termination.ways, termination.kind)


def _is_another(old: Side, reference: str, new: Side, to: str) -> bool:
    """Whether the plug that goes in there is another one."""
    return _plug(old, reference) != _plug(new, to)


def _two_plugs(side: Side, cable: Cable) -> tuple[str, str] | None:
    """Both ends when the cable runs between two receptacles and nowhere else."""
    if len(cable.ends) != 2 or any(side.terminations[end].kind is not Kind.RECEPTACLE for end in cable.ends):
        return None
    return (cable.ends[0], cable.ends[1])


def _pairs(side: Side, cable: Cable) -> Pairs | None:
    """Cavity of the first plug and of the second for each lead; None when the cable is not of that kind."""
    two = _two_plugs(side, cable)
    if two is None:
        return None
    found = []
    for ends in _ends(side, cable):
        by_end: dict[str, ContactKey] = {key[0]: key for key in ends}
        numbers = [by_end[reference][1] for reference in two if reference in by_end]
        if len(numbers) != 2 or not all(number.isascii() and number.isdecimal() for number in numbers):
            return None
        found.append((int(numbers[0]), int(numbers[1])))
    return tuple(sorted(found))


def _may_repin(side: Side, cable: Cable) -> bool:
    """Whether contacts of both plugs come out of their housings."""
    from tabside.analysis.lead_ends import EndKind, plug_kind

    return all(plug_kind(side.terminations[end].family) is EndKind.CONTACT for end in cable.ends)


def _length(side: Side, cable: Cable) -> float | None:
    lengths = [side.facts(ends).length_mm for ends in _ends(side, cable)]
    known = [length for length in lengths if length is not None]
    return min(known) if known and len(known) == len(lengths) else None


def _words(side: Side, cable: Cable) -> str:
    count = len(cable.leads)
    return f"{' - '.join(side.name(end) for end in cable.ends)}, {count} lead{'' if count == 1 else 's'}"


_NONE = Cable("", (), ())
