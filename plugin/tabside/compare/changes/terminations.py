"""Connectors, pads and parts between wires: what came, what went, and what is another one in its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tabside.analysis.current.part_ratings import rating_words
from tabside.analysis.joined.joints import letters_of
from tabside.compare.changes.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.what_part import Told, is_another, told_by_value
from tabside.compare.side import is_loose
from tabside.facts import families
from tabside.facts.footprints import match_footprint
from tabside.model.craft import Kind, Termination
from tabside.wiring.terminations.part_kinds import BREAKERS, FUSES
from tabside.words.parts import kind_words

NO_PLUG = "The steps of its cables take it out."
_PADS_FREE = "Nothing is on these pads any more: the steps take off what was there."
_ANOTHER_FUSE = (
    "Another fuse: meter it in the hand (it beeps); it goes into the holder when the old one is out, at first power. "
    "One that is soldered in: one wire at a time off the old one, taped at once, then onto the same contact of the "
    "new one, and covered; on a pack's wires each of these is LIVE."
)
_ANOTHER_BREAKER = (
    "Another breaker: meter it in the hand (it beeps when it is on). One wire at a time off the old one, taped at "
    "once, then onto the same contact of the new one, and covered; on a pack's wires each of these is LIVE, and the "
    "pack's plus is off first and on last, through a smoke stopper."
)
_ANOTHER_PART = (
    "Another part: with no power on the craft one wire at a time comes off the old one and goes to the same contact of "
    "the new one; then the joints are covered."
)
_BY_STEPS = (
    "Another part: its wires come off the old one, and go to the same contacts of the new one: the steps say when."
)


def changes_of_terminations(rebuild: Rebuild, boards: Mapping[str, str | None]) -> Iterator[Change]:
    old, new, matching = rebuild
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
            bench = "Unplug it." if termination.takes_plug else _PADS_FREE if stays else NO_PLUG
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
        ("kind", kind_words(before.kind), kind_words(after.kind)),
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
        letters = letters_of(after.reference)
        if letters in FUSES:
            return _ANOTHER_BREAKER if letters in BREAKERS else _ANOTHER_FUSE
        return _BY_STEPS if is_another(before, after) else _ANOTHER_PART
    return "Check it against the part you have."


def _signals(termination: Termination) -> str:
    return ", ".join(f"{contact.number} {contact.label or '?'}" for contact in termination.contacts)


def _describe(termination: Termination) -> str:
    named = termination.family or termination.family_text or termination.kind is Kind.RECEPTACLE
    family = _family_words(termination) if named else ""
    ways = f"{termination.ways}-way" if termination.ways else ""
    return ", ".join(text for text in (kind_words(termination.kind), family, ways) if text)
