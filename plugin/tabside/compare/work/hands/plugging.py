"""Whole plugs: out of their connectors before the work, in again after it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.places import ALREADY, called
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.compare.work.plugs import OLD
from tabside.make.sheets.cable_plan import Action
from tabside.model.craft import Cable

_LIVE_PLUG = "{words} stays UNPLUGGED until first power"
_LABEL_THERE = ": hold the label on the plug against the name printed there"


def unplug(sheet: WorkSheet, goes: Mapping[str, str], stay: Collection[str] = ()) -> None:
    """Each plug of the old cable that nobody has unplugged yet.

    `goes`: where each of them goes, "" for nowhere; `stay`: new connectors whose plug stays in.
    """
    builds, fate, steps = sheet.builds, sheet.fate, sheet.steps
    for ref in fate.old.ends if fate.old else ():
        if goes.get(ref) in stay:
            continue
        already = ALREADY if builds.plugs.is_aside(ref) else ""
        if builds.plugs.unplug(fate, ref):
            then = called(builds, fate, ref, goes.get(ref, ""))
            at = f"{OLD}{ref}"
            from_where = f"{steps.shown(at)}{_on_old_board(builds, ref)}"
            steps.whole_plug(Action.TAKE_OUT, at, f"unplug the cable from {from_where}{already}{then}")


def _on_old_board(builds: BothBuilds, reference: str) -> str:
    """A board of another name comes in its place: steps call the old one's connectors by the new one's."""
    now = builds.matching.pairs.get(reference)
    was, name = builds.old.board(reference), builds.new.board(now) if now is not None else ""
    return f", on the old board {was}" if was and name and was != name else ""


def unplug_to_measure(sheet: WorkSheet, references: Iterable[str]) -> None:
    """Plugs of a cable that stays as it is."""
    builds = sheet.builds
    for ref in references:
        already = ALREADY if ref in builds.plugs.laid_aside() else ""
        builds.plugs.take_out(ref)
        words = f"unplug the cable from {builds.new.name(ref)} to measure it{already}"
        sheet.steps.whole_plug(Action.TAKE_OUT, ref, words)


def clear(sheet: WorkSheet, references: Iterable[str]) -> None:
    """Connectors in which the plug of another old cable still is."""
    builds = sheet.builds
    for ref in references:
        already = ALREADY if ref in builds.plugs.laid_aside() else ""
        other = builds.plugs.in_the_way(sheet.fate, ref)
        if other is not None:
            old_fate, was, goes = other
            then = called(builds, old_fate, was, goes)
            words = f"unplug the other cable, {old_fate.label}, from {builds.new.name(ref)}{already}"
            sheet.steps.whole_plug(Action.TAKE_OUT, ref, f"{words}, its turn comes later{then}")


def plug_in(sheet: WorkSheet, references: Iterable[str]) -> None:
    """Plugs of the new cable; one with which power comes waits."""
    builds, fate = sheet.builds, sheet.fate
    for ref in references:
        name = builds.new.name(ref)
        if fate.new is not None and _waits_for_power(builds, fate.new, ref):
            sheet.steps.label(ref, _LIVE_PLUG.format(words=f"the plug for {name}"))
        else:
            builds.plugs.plug_in(ref, fate.name)
            look = "" if ref not in (fate.replugged or ()) else f"{_LABEL_THERE}{builds.plugs.which_way(ref)}"
            sheet.steps.whole_plug(Action.PUT_IN, ref, f"plug the cable into {name}{look}")


def _waits_for_power(builds: BothBuilds, cable: Cable, reference: str) -> bool:
    """Whether power comes with the plug there: of a piece that a pack's own plug goes into that one alone.

    A pack that is soldered to the same wires brings it at each of their plugs.
    """
    mates = {end.key[0] for mark in cable.leads for end in builds.made[mark].ends if end.kind is EndKind.MATE}
    live = {ref for ref in mates if builds.new.terminations[ref].board in builds.packs}
    on_pack = any(reference in circuit.places for circuit in builds.hot.circuits)
    return on_pack or (reference in live if live else builds.meets_pack(cable))
