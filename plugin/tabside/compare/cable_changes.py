"""What becomes of each cable: kept, plugged in elsewhere, re-pinned, used on another link, retired, or made new.

The list of leads and the list of cables are one plan: which old wire becomes which new one is decided here, cable by
cable, and both lists say it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from tabside.compare.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.lead_changes import LeadFates, moves_between, with_moved
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.compare.wires import Ends, another_plug, shorter_by, to_see, why_not
from tabside.highs import best_pairs
from tabside.model.craft import Cable, ContactKey
from tabside.model.natural import natural

KEEP, SHORTEN, MOVE_PLUG, RE_PIN, RE_USE, RE_MAKE = "keep", "shorten", "move plug", "re-pin", "re-use", "re-make"
MAKE, RETIRE = "make", "retire"
_LEAST_SHARE = 0.5  # of the wires of a link that an old cable from elsewhere must bring; common practice, no source


class CableFate(NamedTuple):
    """One cable of the old or the new build, and what is done with it."""

    what: str  # "keep", "shorten", "move plug", "re-pin", "re-use", "re-make", "retire", "make"
    old: Cable | None
    new: Cable | None
    words: str
    wires: tuple[tuple[Ends, Ends], ...] = ()  # old and new ends of each wire that is used again
    made: tuple[Ends, ...] = ()  # new wires, by their new ends
    gone: tuple[Ends, ...] = ()  # old wires that leave it
    places: tuple[tuple[str, str], ...] = ()  # old termination and the new one that its plug or joint goes to
    moved: int | None = None  # contacts and joints that go to another place; None where nothing is moved in it


class Cables(NamedTuple):
    """The plan for all cables, and the leads as it uses them."""

    fates: tuple[CableFate, ...]
    leads: LeadFates


def fates_of_cables(old: Side, new: Side, matching: Matching, leads: LeadFates) -> Cables:
    """Each cable of both builds once; old cables that no link keeps are offered to the links that need one."""
    stays = dict((*leads.kept, *leads.altered))
    owner = {ends: cable.mark for cable in new.craft.cables for ends in _ends(new, cable)}
    pairs = _paired(old, new, matching, stays, owner)
    fates: list[CableFate] = []
    for cable in old.craft.cables:
        if cable.mark not in pairs:
            continue
        wanted, places = pairs[cable.mark]
        here, there = _ends(old, cable), _ends(new, wanted)
        moved = moves_between(
            old,
            new,
            places,
            [e for e in leads.removed if e in here],
            [e for e in leads.added if e in there],
        )
        leads = with_moved(leads, moved)
        fates.append(_fate(old, new, matching, leads, cable, wanted, places))
    in_cables = [{e for c in side.craft.cables for e in _ends(side, c)} for side in (old, new)]
    loose = moves_between(
        old,
        new,
        matching.pairs,
        [e for e in leads.removed if e not in in_cables[0]],
        [e for e in leads.added if e not in in_cables[1]],
    )
    leads = with_moved(leads, [pair for pair in loose if _one_end_stays(matching, *pair)])
    used = {wanted.mark for wanted, _ in pairs.values()}
    fates += [
        CableFate(RETIRE, cable, None, "Put it into stock, tagged with its order.", gone=tuple(_ends(old, cable)))
        for cable in old.craft.cables
        if cable.mark not in pairs
    ]
    fates += [
        CableFate(MAKE, None, cable, "Make it: `tabside plan` says how.", made=tuple(_ends(new, cable)))
        for cable in new.craft.cables
        if cable.mark not in used
    ]
    ordered = sorted(fates, key=lambda fate: natural((fate.new or fate.old or _NONE).mark))
    return Cables(tuple(ordered), leads)


def changes_of_cables(old: Side, new: Side, fates: Sequence[CableFate]) -> Iterator[Change]:
    """A change for each cable that does not stay as it is."""
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


def _paired(
    old: Side, new: Side, matching: Matching, stays: Mapping[Ends, Ends], owner: Mapping[Ends, str]
) -> dict[str, tuple[Cable, dict[str, str]]]:
    """Old cable -> the new one that it becomes, and where each of its plugs goes."""
    by_mark = {cable.mark: cable for cable in new.craft.cables}
    free = dict(by_mark)
    found: dict[str, tuple[Cable, dict[str, str]]] = {}
    shared = []
    for cable in old.craft.cables:
        votes = Counter(owner[stays[e]] for e in _ends(old, cable) if e in stays and stays[e] in owner)
        shared += [(-count, natural(cable.mark), cable, mark) for mark, count in votes.items()]
    for _, _, cable, mark in sorted(shared, key=lambda each: each[:2]):
        if cable.mark not in found and mark in free:
            found[cable.mark] = (free.pop(mark), _places(old, new, matching, cable, by_mark[mark]))
    rest = [cable for cable in old.craft.cables if cable.mark not in found]
    wanted = sorted(free.values(), key=lambda cable: natural(cable.mark))
    worth = [[_worth(old, new, matching, cable, other) for other in wanted] for cable in rest]
    for row, column in best_pairs(worth):
        if worth[row][column]:
            cable, other = rest[row], wanted[column]
            found[cable.mark] = (other, _places(old, new, matching, cable, other))
    return found


def _worth(old: Side, new: Side, matching: Matching, cable: Cable, wanted: Cable) -> float:
    """How well an old cable serves another link; 0 when it does not."""
    places = _places(old, new, matching, cable, wanted)
    stay = sum(matching.pairs.get(reference) == now for reference, now in places.items())
    if len(places) == len(cable.ends) == len(wanted.ends) == stay:
        return 2000.0  # between the same places
    if len(places) < min(len(cable.ends), len(wanted.ends)):
        return 0.0
    if any(another_plug(old, reference, new, now) for reference, now in places.items()):
        return 0.0
    if any(_unknown_plug(old, reference) or _unknown_plug(new, now) for reference, now in places.items()):
        return 0.0
    drawn = _ends(new, wanted)
    moved = moves_between(old, new, places, sorted(_ends(old, cable), key=sorted), sorted(drawn, key=sorted))
    if not moved or len(moved) < _LEAST_SHARE * len(drawn) or (stay == 0 and len(moved) < len(drawn)):
        return 0.0
    hands = sum(_hands(places, *pair) for pair in moved) + 3 * (len(drawn) - len(moved))
    near = sum(old.board(reference) == new.board(now) != "" for reference, now in places.items())
    return 1000.0 + 10.0 * stay + near - hands


def _unknown_plug(side: Side, reference: str) -> bool:
    termination = side.terminations[reference]
    return termination.takes_plug and (termination.family is None or termination.ways is None)


def _places(old: Side, new: Side, matching: Matching, cable: Cable, wanted: Cable) -> dict[str, str]:
    """Where each end of an old cable goes: where it is now, else to an end where such a plug is drawn."""
    found = {ref: matching.pairs[ref] for ref in cable.ends if matching.pairs.get(ref) in wanted.ends}
    rest_old = [ref for ref in cable.ends if ref not in found]
    rest_new = [ref for ref in wanted.ends if ref not in found.values()]
    options = [found]
    if rest_old and rest_new:
        options = [
            found | {a: b for a, b in zip(rest_old, order, strict=False) if not another_plug(old, a, new, b)}
            for order in (rest_new, rest_new[::-1])
        ]

    def fits(places: dict[str, str]) -> int:
        drawn = _ends(new, wanted)
        mapped = (frozenset((places.get(key[0], ""), key[1]) for key in ends) for ends in _ends(old, cable))
        return sum(ends in drawn for ends in mapped)

    return max(options, key=lambda each: (len(each), fits(each)))


def _fate(
    old: Side, new: Side, matching: Matching, leads: LeadFates, was: Cable, now: Cable, places: Mapping[str, str]
) -> CableFate:
    here, there = _ends(old, was), _ends(new, now)
    replaced = [ref for ref, to in places.items() if another_plug(old, ref, new, to)]
    known = (*leads.kept, *leads.altered, *leads.moved)
    wires = [
        (a, b)
        for a, b in known
        if a in here and b in there and not why_not(old, a, new, b) and not any(key[0] in replaced for key in a)
    ]
    kept = set(leads.kept)
    made = there - {b for _, b in wires}
    gone = here - {a for a, _ in wires}
    hands = sum(_hands(places, a, b) for a, b in wires if (a, b) not in kept)
    shorter = max((shorter_by(old, a, new, b) for a, b in wires), default=0.0)
    plugs = {ref: to for ref, to in places.items() if matching.pairs.get(ref) != to or _other_board(old, new, ref, to)}
    seen = sorted({each for a, b in wires for each in to_see(old, a, new, b)}, key=natural)
    stay = any(matching.pairs.get(ref) == to for ref, to in places.items())
    said = []
    if plugs and not stay:
        said.append(f"Use the old cable of {' and '.join(old.name(end) for end in was.ends)} here.")
    for ref, to in plugs.items():
        said.append(f"Unplug it from {old.name(ref)} and plug it into {new.name(to)}.")
    if replaced:
        names = ", ".join(new.name(places[ref]) for ref in replaced)
        said.append(f"The plug at {names} has changed: make its wires again.")
    if hands:
        said.append(f"Re-pin, {hands} contact{'' if hands == 1 else 's'} to move: the steps name each wire.")
    if made or gone:
        said.append(f"Wires to make: {len(made)}; wires to take out: {len(gone)}.")
        said += sorted({f"One there is {why}." for why in _reasons(old, new, leads, here, there)})
    if shorter:
        said.append(f"Shorten it by {shorter:.1f} mm, or stow that much.")
    if seen:
        said.append(f"Now stated: check that the wire you have is {', '.join(seen)}.")
    what = _what(made=bool(made or gone or replaced), plugs=bool(plugs), hands=hands, shorter=shorter, stay=stay)
    if what != KEEP:
        said.append("Measure all of it.")
    moved = hands if what in (RE_PIN, RE_USE, MOVE_PLUG) else None
    ordered = sorted(wires, key=lambda pair: sorted(pair[1]))
    return CableFate(
        what,
        was,
        now,
        " ".join(said) or "Keep it.",
        tuple(ordered),
        tuple(sorted(made, key=sorted)),
        tuple(sorted(gone, key=sorted)),
        tuple(places.items()),
        moved,
    )


def _what(*, made: bool, plugs: bool, hands: int, shorter: float, stay: bool) -> str:
    if not stay:
        return RE_USE
    if made:
        return RE_MAKE
    if hands:
        return RE_PIN
    if plugs:
        return MOVE_PLUG
    return SHORTEN if shorter else KEEP


def _reasons(old: Side, new: Side, leads: LeadFates, here: set[Ends], there: set[Ends]) -> Iterator[str]:
    for a, b in leads.altered:
        if a in here and b in there and (why := why_not(old, a, new, b)):
            yield why


def _hands(places: Mapping[str, str], before: Ends, after: Ends) -> int:
    """Ends of a wire that go to another cavity or joint, while its plugs go where they go."""
    return len({(places.get(key[0], ""), key[1]) for key in before} - after)


def _other_board(old: Side, new: Side, reference: str, now: str) -> bool:
    """Whether it is one symbol that the drawing has put on another board that was there before."""
    before, after = old.board(reference), new.board(now)
    return bool(before and after) and before != after and any(old.board(each) == after for each in old.terminations)


def _one_end_stays(matching: Matching, before: Ends, after: Ends) -> bool:
    return any(matching.key(key) in after for key in before)


def _ends(side: Side, cable: Cable) -> set[Ends]:
    marks = set(cable.leads)
    return {ends for ends, lead in side.leads.items() if lead.mark in marks}


def contact_pairs(fate: CableFate, before: Ends, after: Ends) -> list[tuple[ContactKey, ContactKey]]:
    """Which end of the old wire becomes which end of the new one: as few moves as can be."""
    places = dict(fate.places)
    a, b = sorted(before)
    ways = [list(zip((a, b), order, strict=True)) for order in (sorted(after), sorted(after)[::-1])]

    def stay(way: list[tuple[ContactKey, ContactKey]]) -> tuple[int, int]:
        exact = sum((places.get(x[0]), x[1]) == y for x, y in way)
        return (exact, sum(places.get(x[0]) == y[0] for x, y in way))

    return max(ways, key=stay)


def _words(side: Side, cable: Cable) -> str:
    count = len(cable.leads)
    return f"{' - '.join(side.name(end) for end in cable.ends)}, {count} lead{'' if count == 1 else 's'}"


_NONE = Cable("", (), ())
