"""What the hands do with each cable, step by step as in a plan, and what is measured afterwards."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind, MadeLead
from tabside.compare.cable_changes import KEEP, MAKE, RETIRE, CableFate, contact_pairs
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.compare.wires import Ends, shorter_by
from tabside.documents.build import Build
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import soldered
from tabside.make.needs.live_leads import live_leads
from tabside.make.options.repin import Hand, in_order
from tabside.make.sheets.cable_plan import Action, CablePlan, Step
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.step_list import SPARE, StepFacts, StepList
from tabside.model.craft import Cable, ContactKey
from tabside.prove.measurement import Measurement
from tabside.words.signals import signal_words

_OLD = "old "  # before the reference of a termination that the new cable does not meet
_BEGINS_READY = (Method.PLUG_IN, Method.RE_PIN, Method.RE_HOUSE)


class CableWork(NamedTuple):
    """One cable's steps, and the rows of the continuity sheet that they can have spoiled."""

    fate: CableFate
    steps: tuple[Step, ...]
    measure: tuple[Measurement, ...]


def work_on_cables(
    old: Side, new: Side, matching: Matching, fates: tuple[CableFate, ...], build: Build
) -> tuple[CableWork, ...]:
    """Of each cable, in the order of `fates`; `build` is that of the new drawing."""
    bench = _Bench(old, new, matching, build)
    return tuple(CableWork(fate, *bench.work(fate)) for fate in fates)


class _Bench:
    """Both builds, as the steps need them."""

    def __init__(self, old: Side, new: Side, matching: Matching, build: Build) -> None:
        self.old, self.new, self.matching, self.build = old, new, matching, build
        self.views, self.old_views = Views(build.craft), Views(old.craft)
        self.made: dict[Ends, MadeLead] = {frozenset(made.lead.ends): made for made in build.leads}
        self.plans = {plan.mark: plan for plan in build.plan.cables if plan.mark is not None}
        self.facts = StepFacts(
            {made.lead.mark: made.lead.colour for made in build.leads},
            lambda _lead, key: signal_words(build.craft, key) if key[0] in build.craft.terminations else "",
            frozenset(live_leads(build.craft, build.leads)),
        )

    def work(self, fate: CableFate) -> tuple[tuple[Step, ...], tuple[Measurement, ...]]:
        if fate.new is None:
            return (self._put_away(fate.old) if fate.what == RETIRE and fate.old else ()), ()
        if fate.what == KEEP:
            return (), ()
        rows = self.build.proof.rows_of(fate.new.leads)
        plan = self.plans.get(fate.new.mark)
        if fate.what == MAKE or not fate.wires:
            away = self._put_away(fate.old) if fate.old else ()
            steps = (*away, *(plan.steps if plan else ()))
            return tuple(replace(step, number=n) for n, step in enumerate(steps, 1)), rows
        return tuple(self._changed(fate, fate.new, plan, rows)), rows

    def _put_away(self, cable: Cable) -> tuple[Step, ...]:
        """The old cable leaves the craft."""
        ends = {reference: self.old_views.end(reference, ()) for reference in cable.ends}
        steps = StepList(ends, StepFacts())
        for reference in cable.ends:
            words = f"unplug or unsolder the old cable at {self.old.name(reference)}"
            _plug_step(steps, Action.TAKE_OUT, reference, words)
        return tuple(steps.steps)

    def _changed(
        self, fate: CableFate, cable: Cable, plan: CablePlan | None, rows: tuple[Measurement, ...]
    ) -> Iterator[Step]:
        places = dict(fate.places)
        leads = tuple(self.made[ends] for ends in self.made if self.made[ends].lead.mark in cable.leads)
        ends = {reference: self.views.end(reference, leads) for reference in cable.ends}
        ends |= {
            f"{_OLD}{reference}": replace(self.old_views.end(reference, ()), has_plug=False, ways=None)
            for reference in (fate.old.ends if fate.old else ())
        }
        steps = StepList(ends, self.facts)
        names = {before: self.made[after].lead.mark for before, after in fate.wires}
        names |= {before: f"{SPARE}{self.old.leads[before].mark}" for before in fate.gone}
        for before, name in names.items():
            for key in before:
                _fill(steps, (places.get(key[0], ""), key[1]), name)
        moved = {ref: to for ref, to in places.items() if self._elsewhere(ref, to)}
        for ref in moved:
            _plug_step(steps, Action.TAKE_OUT, f"{_OLD}{ref}", f"unplug the cable from {self.old.name(ref)}")
        for before in fate.gone:
            for key in sorted(before):
                self._out(steps, places, key, names[before])
        self._move(steps, fate, names, places)
        for before, after in fate.wires:
            if shorter_by(self.old, before, self.new, after):
                self._shorten(steps, self.made[after])
        for after in fate.made:
            self._make(steps, self.made[after], plan)
        for to in moved.values():
            _plug_step(steps, Action.PUT_IN, to, f"plug the cable into {self.new.name(to)}")
        steps.test(cable.ends[0], "test the cable: the rows that are listed for it", rows)
        yield from (replace(step, number=n) for n, step in enumerate(steps.steps, 1))

    def _elsewhere(self, reference: str, now: str) -> bool:
        before, after = self.old.board(reference), self.new.board(now)
        other_board = (
            bool(before and after)
            and before != after
            and any(self.old.board(each) == after for each in self.old.terminations)
        )
        return self.matching.pairs.get(reference) != now or other_board

    def _move(self, steps: StepList, fate: CableFate, names: Mapping[Ends, str], places: Mapping[str, str]) -> None:
        """Joints off first, then contacts plug by plug, then joints on."""
        goes: dict[str, dict[int, tuple[str, str]]] = {}
        joints: list[tuple[ContactKey, ContactKey, int]] = []
        for n, (before, after) in enumerate(fate.wires):
            for here, there in contact_pairs(fate, before, after):
                if places.get(here[0]) == there[0]:
                    goes.setdefault(there[0], {})[n] = (here[1], there[1])
                elif here != there:
                    joints.append((here, there, n))
        marks = [names[before] for before, _ in fate.wires]
        loose = [reference for reference in goes if not self.new.terminations[reference].takes_plug]
        for reference in loose:
            for n, (source, target) in goes.pop(reference).items():
                if source != target:
                    joints.append(((reference, source), (reference, target), n))
        back = {to: ref for ref, to in places.items()}
        for here, _, n in joints:
            at = here if here[0] in back else (places.get(here[0], f"{_OLD}{here[0]}"), here[1])
            steps.work(Action.TAKE_OUT, at, marks[n], f"unsolder it, contact {here[1]}")
        for reference, pairs in goes.items():
            _in_plug(steps, reference, pairs, marks)
        for _, there, n in joints:
            steps.work(Action.SOLDER, there, marks[n], f"solder it, contact {there[1]}")

    def _out(self, steps: StepList, places: Mapping[str, str], key: ContactKey, name: str) -> None:
        """One end of a wire that leaves the cable."""
        now = places.get(key[0])
        if now is not None and self.new.terminations[now].takes_plug and _in_row(steps, (now, key[1])):
            steps.leave_out(now, int(key[1]), name)
            return
        at = (now if now is not None else f"{_OLD}{key[0]}", key[1])
        steps.work(Action.LEAVE_OUT, at, name, f"take it off contact {key[1]} of {self.old.name(key[0])}, for good")

    def _shorten(self, steps: StepList, made: MadeLead) -> None:
        """At a soldered end when there is one, else at a plug whose contacts are crimped; else it is stowed."""
        ends = [end for end in made.ends if soldered(end)] or [e for e in made.ends if e.kind is EndKind.CONTACT]
        if not ends:
            return
        end, mark = ends[-1], made.lead.mark
        joint = soldered(end)
        if joint or not _in_row(steps, end.key):
            steps.work(Action.TAKE_OUT, end.key, mark, "unsolder it" if joint else "take it out")
        else:
            steps.take_out(end.key[0], int(end.key[1]), mark, parks=False)
        steps.cut(end.key, mark, f"shorten it at this end to {made.lead.length_mm:g} mm")
        self._finish(steps, made, end.key)

    def _make(self, steps: StepList, made: MadeLead, plan: CablePlan | None) -> None:
        """As the plan makes this wire; where the plan begins with a ready-made cable, from new wire."""
        mark = made.lead.mark
        planned = plan is not None and plan.method not in _BEGINS_READY and not plan.stopped
        own = [step for step in plan.steps if step.lead == mark] if plan is not None and planned else []
        if own:
            for step in own:
                if step.action is Action.PUT_IN and step.cavity:
                    steps.put_in((step.end.split("/")[-1], step.cavity), mark)
                else:
                    steps.steps.append(step)
            return
        length = "the length of its path" if made.lead.length_mm is None else f"{made.lead.length_mm:g} mm"
        gauge = "" if made.lead.gauge_awg is None else f" of {made.lead.gauge_awg} AWG"
        steps.cut(made.lead.a, mark, f"cut it{gauge} to {length}, and what its ends need")
        for end in made.ends:
            self._finish(steps, made, end.key)

    def _finish(self, steps: StepList, made: MadeLead, key: ContactKey) -> None:
        """One end of a wire that is cut: a contact crimped and put in, or a joint."""
        end = next(each for each in made.ends if each.key == key)
        mark = made.lead.mark
        if end.kind is EndKind.CONTACT:
            steps.work(Action.CRIMP, key, mark, "strip it and crimp a contact")
            steps.put_in(key, mark)
        else:
            steps.work(Action.SOLDER, key, mark, f"strip it and fix it at contact {key[1]}: {end.words}")


def _in_plug(steps: StepList, reference: str, pairs: Mapping[int, tuple[str, str]], marks: list[str]) -> None:
    """Contacts from cavity to cavity of one plug; a cavity is empty when it is needed."""
    moving = {n: pair for n, pair in pairs.items() if pair[0] != pair[1]}
    if not moving:
        return
    plain = all(_in_row(steps, (reference, number)) for pair in pairs.values() for number in pair)
    single = all(len({pair[side] for pair in pairs.values()}) == len(pairs) for side in (0, 1))
    if plain and single:
        moves = in_order({n: (int(source), int(target)) for n, (source, target) in pairs.items()}, 0)
        for k, move in enumerate(moves):
            if move.hand is Hand.PUT_IN:
                steps.put_in((reference, str(move.cavity)), marks[move.lead])
            else:
                later = next(each for each in moves[k + 1 :] if each.hand is Hand.PUT_IN)
                steps.take_out(reference, move.cavity, marks[move.lead], parks=later.lead != move.lead)
        return
    for n, (source, _) in moving.items():
        steps.work(Action.TAKE_OUT, (reference, source), marks[n], f"take it out of cavity {source}, and tape it aside")
    for n, (_, target) in moving.items():
        steps.put_in((reference, target), marks[n])


def _in_row(steps: StepList, key: ContactKey) -> bool:
    return key[1].isascii() and key[1].isdecimal() and 1 <= int(key[1]) <= len(steps.row(key[0]))


def _fill(steps: StepList, key: ContactKey, name: str) -> None:
    if _in_row(steps, key):
        steps.fill(key[0], int(key[1]), name)


def _plug_step(steps: StepList, action: Action, reference: str, words: str) -> None:
    """The whole plug, no cavity of it."""
    steps.label(reference, words)
    steps.steps[-1] = replace(steps.steps[-1], action=action)
