"""Why a cable cannot be done as it is drawn."""

from __future__ import annotations

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.fates.cable_fate import CableFate, ends_moved, own_unfit_words
from tabside.compare.reuse.wires import Ends, is_another_part
from tabside.compare.work.hands.both_builds import BothBuilds


def why_stopped(builds: BothBuilds, fate: CableFate) -> str:
    """Why it cannot be done, or "": a pack's own plug is never re-pinned, and not every wire can be made."""
    if fate.unfit:
        return " ".join(own_unfit_words(mark, why) for mark, why in fate.unfit)
    return _live_plug_repinned(builds, fate) or own_plug_gone(builds, fate) or _cannot_be_made(builds, fate)


def _live_plug_repinned(builds: BothBuilds, fate: CableFate) -> str:
    places = dict(fate.places)
    for before, after in fate.wires:
        own = [end for end in builds.made[builds.new.leads[after].mark].ends if end.kind is EndKind.OWN]
        live = own and builds.new.terminations[own[0].key[0]].board in builds.packs
        moved = ends_moved(places, before, after)
        if live and any(builds.new.terminations[to].takes_plug for _, (to, _) in moved):
            name = builds.new.name(own[0].key[0])
            return (
                f"the plug of {name} is live: never re-pin it. Change the drawing, or the board connector it goes into"
            )
    return ""


def own_plug_gone(builds: BothBuilds, fate: CableFate) -> str:
    """Why a part's own plug cannot go in as it is drawn, or ""."""
    for wire in fate.made:
        if builds.new.is_in_own_plug(wire) and (fate.wires or _was_cut(builds, fate, wire)):
            name = " - ".join(builds.new.contact_name(key) for key in sorted(wire))
            return (
                f"the part's own plug is not what is drawn now at {name}: its wire was cut, or sits in another "
                "cavity; put the plug right or change the drawing, then test all of the cable"
            )
    return ""


def _was_cut(builds: BothBuilds, fate: CableFate, wire: Ends) -> bool:
    """Whether the wire of this plug went elsewhere before, so that the plug that the part came with is off."""
    old = builds.old
    return any(
        old.is_own(before)
        and not old.is_in_own_plug(before)
        and not is_another_part(old, before, builds.new, wire)
        and {builds.matching.key(key) for key in old.own_ends(before)} <= wire
        for before in fate.gone
    )


def _cannot_be_made(builds: BothBuilds, fate: CableFate) -> str:
    """What the plan says of the first wire that it cannot make."""
    made = (builds.new.leads[wire].mark for wire in fate.made)
    return next((builds.wires.stopped[mark] for mark in made if mark in builds.wires.stopped), "")
