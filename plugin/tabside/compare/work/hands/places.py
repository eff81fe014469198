"""What the places are called at which hands work: ends of the new cable, and places of the old one that they leave."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from tabside.compare.fates.cable_fate import CableFate
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.plugs import OLD
from tabside.make.sheets.cable_plan import CableEnd
from tabside.model.craft import Cable, ContactKey

FREED = "freed "  # before the old reference of a plug that goes nowhere
ALREADY = " (it is out already, for a test)"


def ends_of(builds: BothBuilds, cable: Cable) -> dict[str, CableEnd]:
    """Of the cable as it becomes, by reference."""
    leads = tuple(builds.made[mark] for mark in cable.leads)
    return {ref: builds.views.end(ref, leads) for ref in cable.ends}


def old_ends(builds: BothBuilds, references: Iterable[str]) -> dict[str, CableEnd]:
    """Places of the old drawing; each key begins with `OLD`."""
    return {f"{OLD}{ref}": _place_there(builds, ref) for ref in references}


def _place_there(builds: BothBuilds, reference: str) -> CableEnd:
    """A place of the old drawing, by its name in the new one where it has one."""
    now = builds.plugs.seat(reference)
    end = builds.old_views.end(reference, builds.old.made_at(reference))
    if now not in builds.new.terminations:
        return replace(end, of_old=True)
    leads = tuple(builds.made[mark] for mark in builds.new.marks_at(now))
    return _as_seen(end, builds.views.end(now, leads))


def first_ends(builds: BothBuilds, fate: CableFate, ends: Mapping[str, CableEnd]) -> dict[str, CableEnd]:
    """Places that the new cable does not meet, and plugs that begin in another housing."""
    references = fate.old.ends if fate.old else ()
    goes = dict(fate.places)
    places = old_ends(builds, references)
    places |= freed_ends(builds, [ref for ref in references if ref not in goes and is_freed(builds, ref)])
    for ref in fate.rehoused:
        was = builds.old_views.end(ref, builds.old.made_at(ref))
        places[goes[ref]] = _as_seen(was, ends[goes[ref]])
    return places


def freed_ends(builds: BothBuilds, references: Iterable[str]) -> dict[str, CableEnd]:
    """Plugs that go nowhere; each key begins with `FREED`."""
    return {f"{FREED}{ref}": _freed_end(builds, ref) for ref in references}


def _freed_end(builds: BothBuilds, reference: str) -> CableEnd:
    return replace(builds.old_views.end(reference, builds.old.made_at(reference)), of_old=True)


def is_freed(builds: BothBuilds, reference: str) -> bool:
    """Of a plug that goes nowhere: whether its name may be that of a new one as well."""
    return reference in builds.old_plugs and builds.plugs.seat(reference) in builds.new.terminations


def at_old_contact(builds: BothBuilds, places: Mapping[str, str], key: ContactKey) -> ContactKey:
    """How the steps call a contact of the old drawing; `places`: as they call its plug, where they do."""
    return (places.get(key[0]) or f"{FREED if is_freed(builds, key[0]) else OLD}{key[0]}", key[1])


def called(builds: BothBuilds, fate: CableFate, reference: str, now: str) -> str:
    """How the steps call a plug of this cable from now on, where that is not the connector it was in."""
    if now and builds.plugs.seat(reference) != now:
        return f"; below this plug is called {builds.new.name(now)}"
    if not now and is_freed(builds, reference) and (fate.wires or builds.goes_on(reference)):
        return f"; below this plug is called {_freed_end(builds, reference).shown}"
    return ""


def _as_seen(was: CableEnd, now: CableEnd) -> CableEnd:
    """An old plug in a connector of the new drawing: of a plug of the same family that says how it lies."""
    if not now.has_plug or now.family != was.family:
        return replace(was, board=now.board, termination=now.termination)
    return replace(now, ways=was.ways)
