"""One cable's sheet while it is written: the one state that all that hands do is handed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate
from tabside.compare.reuse.wires import Ends
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.places import at_old_contact, ends_of, first_ends
from tabside.compare.work.numbers import own_again
from tabside.compare.work.packs.at_live_wires import place_words
from tabside.compare.work.packs.live_order import Standing, in_live_order
from tabside.make.sheets.cable_plan import Action, CableEnd
from tabside.make.sheets.step_list import StepFacts, StepList
from tabside.model.craft import Cable, ContactKey
from tabside.words.signals import signal_words
from tabside.words.spare_wires import spare_name


class WorkSheet(NamedTuple):
    """The steps so far, and how they call what is there."""

    builds: BothBuilds
    fate: CableFate
    steps: StepList
    ends: Mapping[str, CableEnd] = MappingProxyType({})  # of the cable as it becomes
    places: Mapping[str, str] = MappingProxyType({})  # old reference -> how steps call the plug that was there
    names: Mapping[Ends, str] = MappingProxyType({})  # wire that is there -> how steps call it

    def at(self, key: ContactKey) -> ContactKey:
        """How the steps call a contact of the old drawing."""
        return at_old_contact(self.builds, self.places, key)

    def cup_words(self, at: ContactKey) -> str:
        """ "cup 2 of the plug for power/J2"; `at`: as the steps call it."""
        return f"cup {at[1]} of the plug for {self.steps.shown(at[0])}"

    def old_mark(self, wire: Ends) -> str:
        """Its number in the old drawing."""
        return self.builds.old.leads[wire].mark

    def put_in_live_order(
        self,
        old_numbers: Mapping[str, str] = MappingProxyType({}),
        rows: Mapping[str, Sequence[str | None]] = MappingProxyType({}),
    ) -> None:
        """What is done at wires that a pack reaches comes last, wire by wire.

        `old_numbers`: how steps call an old wire -> its old number; `rows`: what sat in each plug at first.
        """
        builds, hot, steps = self.builds, self.builds.hot, self.steps
        standing = Standing(builds.own_at, fuse=builds.fuse_is_in)
        steps.steps = in_live_order(hot, steps.steps, old_numbers, rows, standing)
        for step in steps.steps:
            if step.action is Action.SOLDER and step.lead in hot.own and step.cavity:
                builds.own_at[step.lead] = place_words(step)
        builds.fuse_is_in = builds.fuse_is_in and not any(hot.is_live(step, old_numbers) for step in steps.steps)


def sheet_of_changed(builds: BothBuilds, fate: CableFate, cable: Cable) -> WorkSheet:
    """The sheet of a cable of which wires are used again, before the first step."""
    ends = ends_of(builds, cable)
    steps = StepList(ends | first_ends(builds, fate, ends), _facts(builds, fate))
    for wire in (*fate.gone, *fate.lends):
        steps.spare(builds.old.leads[wire].mark)
    return WorkSheet(builds, fate, steps, ends, dict(fate.places), _names(builds, fate))


def _facts(builds: BothBuilds, fate: CableFate) -> StepFacts:
    craft = builds.build.craft
    at = {(lead.mark, key[0]): key for lead in craft.leads for key in lead.ends}
    old, new = builds.old, builds.new
    colours = {mark: made.lead.colour for mark, made in builds.made.items()}
    for before, after in fate.wires:
        colours[new.leads[after].mark] = old.facts(before).colour or new.facts(after).colour
    colours |= {spare_name(old.leads[wire].mark): old.facts(wire).colour for wire in fate.gone}

    def signal(lead: str, key: ContactKey) -> str:
        """What the wire will carry there, in whichever cavity it sits now."""
        here = at.get((lead, key[0]))
        return signal_words(craft, here) if here is not None else ""

    return StepFacts(colours, signal, builds.live)


def _names(builds: BothBuilds, fate: CableFate) -> dict[Ends, str]:
    """How steps call each wire that is there: by its number in the new drawing."""
    old, new = builds.old, builds.new
    names = {before: new.leads[after].mark for before, after in fate.wires}
    names |= {wire: spare_name(old.leads[wire].mark) for wire in fate.gone}
    for wire in fate.lends:
        names[wire] = builds.becomes.get(wire) or spare_name(old.leads[wire].mark)
    return names | own_again(builds.rebuild, fate)
