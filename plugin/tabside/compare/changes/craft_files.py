"""A craft file that one side lacks, or that says nothing of the build: told once, and no change is made of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import StrEnum

from tabside.compare.changes.change import ADDED, REMOVED, Change
from tabside.compare.fates.leads import LeadFates, WireWork
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends, another_plug
from tabside.compare.side import LeadFacts, Side
from tabside.model.craft import CraftSettings
from tabside.words.contacts import counted, listed

NAME = "craft file"
_FILL_IN = "fill it in"
_BESIDE = "put the file beside it (`<drawing>.craft.toml`; commit it, too, where a revision is compared)"


class Missing(StrEnum):
    OLD = "old"
    NEW = "new"


def missing_craft_file(rebuild: Rebuild) -> Missing | None:
    """The side without a craft file, or with an empty one, where the other one states something."""
    old, new = rebuild.old, rebuild.new
    was, now = old.craft.settings, new.craft.settings
    for missing, one, other in ((Missing.OLD, was, now), (Missing.NEW, now, was)):
        if (one == CraftSettings() or one.file_hash) and not _says(one) and other.file_hash and _says(other):
            return missing
    return None


def _says(settings: CraftSettings) -> bool:
    """Whether it says something of the build itself; its name, the stock and what things cost do not."""
    found = (settings.battery, settings.gauge_awg, settings.lengths_mm, settings.at_mm, settings.accept)
    more = (settings.protections, settings.board_files, settings.limits != CraftSettings().limits)
    return any((*found, *more))


def change_of_craft_file(rebuild: Rebuild, leads: LeadFates, missing: Missing | None) -> Iterator[Change]:
    """What is not known on the side that lacks it."""
    old, new = rebuild.old, rebuild.new
    if missing is None:
        return
    stated = listed(list(_stated(old, new, leads, missing)), 12)
    unknown = f"Not known of it, and called no change: {stated}."
    empty = bool((old if missing is Missing.OLD else new).craft.settings.file_hash)
    cure = _FILL_IN if empty else _BESIDE
    lacks = f"The {missing} drawing" + ("'s craft file says nothing of the build." if empty else " has no craft file.")
    if missing is Missing.NEW:
        bench = f"{lacks} {unknown} If that is an oversight, {cure} and compare again."
        yield Change(REMOVED, "fact", NAME, stated, None, bench)
        return
    bench = f"{lacks} {unknown} See once that what is built is so; or {cure} and compare again."
    yield Change(ADDED, "fact", NAME, None, stated, bench)


def craft_file_words(changes: Iterable[Change]) -> str:
    """The line at the top; "" where both sides have one, or none."""
    return next((change.bench for change in changes if change.subject == "fact" and change.name == NAME), "")


def with_craft_file(
    rebuild: Rebuild, leads: LeadFates, works: dict[Ends, WireWork], missing: Missing | None
) -> LeadFates:
    """The leads without those of which only less is known."""
    old, new, matching = rebuild
    if missing is None:
        return leads

    def is_told(before: Ends, after: Ends) -> bool:
        work = works[after]
        if work.is_made or work.moves or work.over:
            return True
        if any(another_plug(old, ref, new, matching.pairs[ref]) for ref, _ in before if ref in matching.pairs):
            return True
        return any(None not in pair for pair in _different(old.facts(before), new.facts(after)))

    return leads._replace(altered=tuple(pair for pair in leads.altered if is_told(*pair)))


def _different(was: LeadFacts, now: LeadFacts) -> list[tuple[object, object]]:
    return [(a, b) for a, b in zip(was, now, strict=True) if a != b]


def _stated(old: Side, new: Side, leads: LeadFates, missing: Missing) -> Iterator[str]:
    side = new if missing is Missing.OLD else old
    settings = side.craft.settings
    if settings.battery is not None:
        yield f"the pack ({settings.battery_text or settings.battery})"
    pairs = (*leads.kept, *leads.altered, *leads.moved)
    facts = [(old.facts(before), new.facts(after)) for before, after in pairs]
    for what, name in (("gauge", "gauge_awg"), ("length", "length_mm")):
        values = [(getattr(was, name), getattr(now, name)) for was, now in facts]
        one_sided = [(was, now) for was, now in values if (was is None) is not (now is None)]
        if one_sided:
            yield f"the {what} of {counted(len(one_sided), 'wire')}"
    if settings.accept:
        yield f"{counted(len(settings.accept), 'accepted finding')}"
    if settings.protections:
        yield f"{counted(len(settings.protections), 'protection')}"
    if settings.board_files:
        yield "the board files"
    if settings.limits != CraftSettings().limits:
        yield "the limits that numbers are held against"
    if settings.at_mm:
        yield "where the boards lie"
