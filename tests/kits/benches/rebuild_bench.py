"""A bench that follows `tabside compare --json` to the letter: plugs in connectors, wires in cavities and at joints.

It starts with the old build as a thing and knows nothing of how the steps were chosen.  A cable that is made whole is
taken as drawn: `tests/make` carries those sheets out.  Brute force, no source outside.
"""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from benches.shared import PLUG_ENDS, place_of, termination_of
from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom, how_leads_are_made
from tabside.analysis.joined.part_plugs import packs
from tabside.analysis.judgement import Judgement
from tabside.make.needs.allowances import allowance_mm
from tabside.make.needs.gauges import with_gauges
from tabside.model.craft import Craft
from tabside.prove.measurement import Measurement

OF_OLD = " of the old drawing"
WITHOUT_WIRES = ("take out", "put in", "label", "test")
CALLED = re.compile(r"; below this plug is called (\S.*)$")


@dataclass
class Wire:
    tag: str
    facts: tuple[int | None, str | None, float | None] | None  # None: new wire, as drawn
    number: str = ""  # on it now


@dataclass
class Plug:
    cavities: dict[str, Wire] = field(default_factory=dict)
    emptied: dict[str, Wire] | None = None  # the old housing, while contacts go over
    connector: str | None = None  # in which it is
    called: str = ""  # by the steps, while it is in none


class RebuildBench:
    """The old build, in words of the new drawing where it has them."""

    def __init__(self, old: Craft, new: Craft, answer: Mapping[str, Any]) -> None:
        self.old, self.new, self.answer = old, new, answer
        pairs = {was: now for was, now, _ in answer["matching"] if was and now}
        self.names = {ref: self._connector(ref, pairs.get(ref)) for ref in old.terminations}
        self.wires: list[Wire] = []
        self.plugs: list[Plug] = []
        self.joints: list[tuple[str, str, Wire]] = []
        self.own: list[tuple[str, str, Wire]] = []  # where a part's own wire begins
        self.waits: set[str] = set()  # plugs that stay unplugged until first power
        self.on_packs: set[str] = set()  # connectors of cables that meet a pack
        self.aside: set[str] = set()  # connectors whose plug is out for a test
        self.swapped: list[str] = []  # boards that others took the place of
        self._build()

    def _connector(self, ref: str, now: str | None) -> str:
        """A symbol that stands on another board than before is another connector."""
        if now is None:
            return f"old {ref}"
        before, after = self.old.terminations[ref], self.new.terminations[now]
        stated = before.board_stated and after.board_stated and before.kind.value not in ("splice", "in-line")
        were, are = ({t.board for t in side.terminations.values() if t.board_stated} for side in (self.old, self.new))
        another = before.board != after.board and (after.board in were or before.board in are)
        return f"old {ref}" if stated and another else now

    def _build(self) -> None:
        live = packs(self.old)
        for cable in self.old.cables:  # away before the work begins
            if any(
                each.kind.value == "captive" and each.board in live
                for each in map(self.old.terminations.get, cable.ends)
            ):
                self.on_packs |= {self.names[ref] for ref in cable.ends}
        in_connector: dict[str, Plug] = {}
        recounted = {(ref, was): now for ref, was, now in self.answer.get("recounted", ())}  # ends that are alike
        for made in how_leads_are_made(self.old):
            lead = made.lead
            wire = Wire(lead.mark, (lead.gauge_awg, lead.colour, lead.length_mm), lead.mark)
            self.wires.append(wire)
            for end in made.ends:
                name, number = self.names[end.key[0]], recounted.get(end.key, end.key[1])
                if end.kind in PLUG_ENDS:
                    if name not in in_connector:
                        in_connector[name] = Plug(connector=name)
                        self.plugs.append(in_connector[name])
                    in_connector[name].cavities[number] = wire
                elif end.kind is EndKind.OWN:
                    self.own.append((name, number, wire))
                else:
                    self.joints.append((name, number, wire))

    @cached_property
    def made_of_new(self) -> Sequence[MadeLead]:
        """With the gauge that the plan finds, where none is stated: an end of thick wire takes more of it."""
        return how_leads_are_made(with_gauges(Judgement(self.new)))

    # --- the hands -----------------------------------------------------------------------------------------------

    def give_new_numbers(self) -> None:
        """One by one: no two wires ever carry one number."""
        carries = {wire.number: wire for wire in self.wires}
        cables = {cable.mark for cable in self.old.cables}
        for was, now in self.answer["numbers"]:
            of = cables if was in cables else carries
            assert was in of and now not in of, f"{was} becomes {now} while there is one"
            if of is cables:
                cables = cables - {was} | ({now} if now else set())
            else:
                carries[now] = carries.pop(was)
                carries[now].number = now
        self._none_carries_what_is_made(carries, cables)

    def _becomes(self, mark: str | None) -> str | None:
        """What the tag of a cable says when all numbers are given: in a ring one is set aside first."""
        for was, now in self.answer["numbers"]:
            mark = now if mark == was else mark
        return mark

    def _none_carries_what_is_made(self, wires: Mapping[str, Wire], cables: set[str]) -> None:
        """What is made gets a number that is free, and what the steps call spare is marked so."""
        for cable in self.answer["cables"]:
            goes_on = {now for _, now in cable["wires"]}
            by_hand = {step["lead"]: step["old_lead"] for step in cable["steps"] if step["old_lead"]}
            for mark in set(cable["new_leads"]) - goes_on if cable["do"] != "keep" else ():
                wire = wires.get(mark)
                own = any(each is wire for _, _, each in self.own)  # the part keeps it, and its end is made anew
                assert wire is None or own or by_hand.get(mark) == wire.tag, f"two wires are {mark}"
            if cable["new"] and not cable["wires"]:
                assert self._becomes(cable["old"]) == cable["new"] or cable["new"] not in cables, (
                    f"two cables are {cable['new']}"
                )
            for step in cable["steps"]:
                for mark in re.findall(r"spare (W\d+)", step["words"]):
                    assert f"spare {mark}" in wires, f"not marked so: {step['words']}"

    def carry_out(self) -> None:
        self.give_new_numbers()
        for cable in self.answer["cables"]:
            _Cable(self, cable).carry_out()
        assert self.aside == {each["termination"] for each in self.answer["plug_in"]}, f"{self.aside} stay out"

    def built(self) -> dict[frozenset[tuple[str, str]], Wire]:
        """Wires that are on at both ends, by where their ends are."""
        ends: dict[int, set[tuple[str, str]]] = {}
        by_id = {}
        for plug in self.plugs:
            for number, wire in plug.cavities.items():
                if plug.connector is not None:
                    ends.setdefault(id(wire), set()).add((plug.connector, number))
                    by_id[id(wire)] = wire
        for name, number, wire in (*self.joints, *self.own):
            ends.setdefault(id(wire), set()).add((name, number))
            by_id[id(wire)] = wire
        return {frozenset(at): by_id[key] for key, at in ends.items() if len(at) > 1}


class _Cable:
    """One cable of the answer."""

    def __init__(self, bench: RebuildBench, cable: Mapping[str, Any]) -> None:
        self.bench, self.cable = bench, cable
        self.plugs: dict[str, Plug] = {}  # as the steps call them
        marks = set(cable["new_leads"])
        self.ends = {key[0] for lead in bench.new.leads if lead.mark in marks for key in lead.ends}
        old_marks = set(cable["old_leads"])
        self.wires = [wire for wire in bench.wires if wire.tag in old_marks]
        self.tags = {f"spare {wire.tag}": wire for wire in self.wires} | {wire.tag: wire for wire in self.wires}
        mine = {id(wire) for wire in self.wires}
        self.cut_mm: dict[str, float] = {}
        for plug in bench.plugs:
            if plug.connector is None and any(id(wire) in mine for wire in plug.cavities.values()):
                self.plugs[plug.called] = plug

    def carry_out(self) -> None:
        steps = self.cable["steps"]
        whole = self.cable["new"] or self.cable["new_leads"]
        made_whole = whole and not self.cable["wires"]
        for step in steps:
            if made_whole and not (step["cavity"] is None and step["action"] in WITHOUT_WIRES):
                spare = step["action"] == "leave out" and re.search(r"spare W", step["words"])  # no wire of the stock
                if spare or (step["action"] == "take out" and step["old_lead"]):  # or one of another sheet
                    self.off(step)
                continue
            self.follow(step, made_whole=bool(made_whole))
        if made_whole:
            self.made_as_drawn()

    def follow(self, step: Mapping[str, Any], *, made_whole: bool) -> None:
        action, words = step["action"], step["words"]
        if step["swap"] == "out":
            self.board_out(step)
        if action == "label":
            stowed = re.match(r"(\S+) is longer than the ([\d.]+) mm", words)
            if stowed:
                wire = next(each for each in self.wires if each.number == stowed[1])
                wire.facts = (wire.facts[0], wire.facts[1], float(stowed[2]))
            if "stays UNPLUGGED" in words:
                self.unplugged_for_now(step, made_whole=made_whole)
        elif action == "test":
            self.test(step)
        elif action in ("take out", "leave out") and step["cavity"] is None:
            self.unplug(step)
        elif action in ("take out", "leave out"):
            self.off(step)
        elif action == "put in" and step["cavity"] is None:
            self.plug_in(step, made_whole=made_whole)
        elif action == "put in" or (
            action == "solder" and ("into the plug" in words or "loose mating connector" in words)
        ):
            self.put_in(step)
        elif action == "solder":
            self.bench.joints.append((place_of(step), str(step["cavity"]), self.wire(step)))
        elif action == "cut" and "shorten it" in words:
            wire = self.wire(step)
            length = float(re.search(r"to ([\d.]+) mm", words)[1])
            wire.facts = (wire.facts[0], wire.facts[1], length - self.in_the_ends(step, words))

    def board_out(self, step: Mapping[str, Any]) -> None:
        """Nothing holds it: a pack's own plug is out before the work."""
        bench, at = self.bench, place_of(step)
        was = next(bench.old.terminations[ref].board for ref, name in bench.names.items() if name == at)
        places = {bench.names[ref] for ref, each in bench.old.terminations.items() if each.board == was}
        plugs = {plug.connector for plug in bench.plugs} & places - bench.on_packs
        joints = {name for name, _, _ in bench.joints} & places
        own = {at for wire in bench.wires for at in self._others_on(wire, places)}
        assert not plugs | joints | own, f"{plugs | joints | own} hold the board: {step['words']}"
        bench.swapped.append(self.cable["board"])

    def _others_on(self, wire: Wire, places: Collection[str]) -> set[str]:
        """Where else a part's own wire of these places ends that is joined to another part's own."""
        at = {name for name, _, each in self.bench.own if each is wire}
        return at - set(places) if at & set(places) else set()

    def in_the_ends(self, step: Mapping[str, Any], words: str) -> float:
        """What of the piece is in its ends: as the cut list has it, but for a contact that stays on."""
        made = next(each for each in self.bench.made_of_new if each.lead.mark == step["lead"])
        other = next((end for end in made.ends if end.key[0] != termination_of(step)), made.ends[0])
        assert ("leaves the part" in words) is (other.kind is EndKind.OWN), words
        stays = other.family if "stays on" in words else None
        mm = allowance_mm(made, stays, self.bench.new.settings.cutting)
        return mm + (math.ceil(made.lead.length_mm + mm) - (made.lead.length_mm + mm))  # by the ruler

    def wire(self, step: Mapping[str, Any]) -> Wire:
        """By the tag; one that is new begins here."""
        tag = step["lead"] or step["words"].split(" take ")[-1].split(" out")[0]
        if step["lead"] is None:
            found = re.search(r"spare (\w+)", step["words"])
            return next(wire for wire in self.bench.wires if wire.tag == found[1])
        if step["old_lead"] is not None:
            return next(wire for wire in self.bench.wires if wire.tag == step["old_lead"])  # of another cable, too
        if f"new {tag}" not in self.tags:
            self.tags[f"new {tag}"] = Wire(tag, None)
            self.add_own_end(self.tags[f"new {tag}"])
        return self.tags[f"new {tag}"]

    def add_own_end(self, wire: Wire) -> None:
        made = next(each for each in how_leads_are_made(self.bench.new) if each.lead.mark == wire.tag)
        for end in made.ends:
            if end.kind is EndKind.OWN:
                self.bench.own.append((end.key[0], end.key[1], wire))

    def test(self, step: Mapping[str, Any]) -> None:
        """A board from whose ground is measured has no plug of another cable in it."""
        plugged = {each.connector for each in self.bench.plugs if each.connector}
        for each in step["unplug"]:
            assert each["termination"] in plugged - self.bench.aside, f"no plug there: {each['words']}"
            self.bench.aside.add(each["termination"])
        rows = [row for row in self.cable["measure"] if row["id"] in step["rows"]]
        alone = (row for row in rows if row["when"] != "craft")  # a look for a short is made with all plugged in
        boards = {row["from"]["board"] for row in alone if row["from"]["at"] == "known ground"}
        left = plugged - self.bench.aside - self.ends - self.bench.on_packs - self.bench.waits
        terminations = self.bench.new.terminations
        there = [name for name in left if name in terminations and terminations[name].board in boards]
        assert not there, f"{there} is plugged in while {boards} is to be alone"
        for each in step["plug_in"]:
            self.bench.aside.remove(each["termination"])

    def unplug(self, step: Mapping[str, Any]) -> None:
        at = place_of(step)
        self.bench.aside.discard(at)
        plug = next((each for each in self.bench.plugs if each.connector == at), None)
        assert plug is not None, f"nothing is plugged in at {at}: {step['words']}"
        plug.connector = None
        called = CALLED.search(step["words"])
        plug.called = _plug_name(called[1]) if called else at
        self.plugs[plug.called] = plug

    def off(self, step: Mapping[str, Any]) -> None:
        at, number, wire = place_of(step), str(step["cavity"]), self.wire(step)
        loose = (plug for plug in self.bench.plugs if plug.connector is None and plug.called == at)
        plug = self.plugs.get(at) or next(loose, None)  # of another sheet, where a pack's own wire leaves it first
        if plug is not None:
            if step["housing"] and plug.emptied is None:
                plug.emptied, plug.cavities = plug.cavities, {}
            row = plug.emptied if step["housing"] == "old" and plug.emptied is not None else plug.cavities
            if row.get(number) is wire:
                del row[number]
                return
        if self.part(at, number, wire):
            return
        joint = (at, number, wire)
        found = [each for each in self.bench.joints if each[:2] == joint[:2] and each[2] is wire]
        assert found, f"{wire.tag} is not at {at} {number}: {step['words']}"
        self.bench.joints.remove(found[0])

    def part(self, at: str, number: str, wire: Wire) -> bool:
        """Two parts' own wires off each other, if still joined: the number stays on the one not named."""
        mine = [each for each in self.bench.own if each[2] is wire]
        here = [each for each in mine if each[:2] == (at, number)]
        if len(mine) == 1 or not here:
            return False
        self.bench.own.remove(here[0])
        return True

    def put_in(self, step: Mapping[str, Any]) -> None:
        at, number, wire = place_of(step), str(step["cavity"]), self.wire(step)
        if at not in self.plugs:
            self.plugs[at] = Plug()
            self.bench.plugs.append(self.plugs[at])
        row = self.plugs[at].cavities
        assert number not in row, f"cavity {number} of {at} is full: {step['words']}"
        row[number] = wire

    def plug_in(self, step: Mapping[str, Any], *, made_whole: bool) -> None:
        at = place_of(step)
        assert not any(each.connector == at for each in self.bench.plugs), f"{at} is full: {step['words']}"
        if made_whole:
            return
        assert at in self.plugs, f"no plug is called {at}: {step['words']}"
        assert not self.plugs[at].emptied, f"wires are left in the old housing at {at}"
        self.plugs[at].connector = at

    def unplugged_for_now(self, step: Mapping[str, Any], *, made_whole: bool) -> None:
        at = place_of(step)
        self.bench.waits.add(at)
        if at in self.plugs and not made_whole:
            self.plugs[at].connector = at  # to be compared with the drawing

    def made_as_drawn(self) -> None:
        marks = set(self.cable["new_leads"])
        plugs: dict[str, Plug] = {}
        for made in how_leads_are_made(self.bench.new):
            if made.lead.mark not in marks:
                continue
            wire = Wire(made.lead.mark, None)
            for end in made.ends:
                if end.kind in PLUG_ENDS:
                    plugs.setdefault(end.key[0], Plug(connector=end.key[0])).cavities[end.key[1]] = wire
                else:
                    kind = self.bench.own if end.kind is EndKind.OWN else self.bench.joints
                    kind.append((end.key[0], end.key[1], wire))
        for ref, plug in plugs.items():
            assert not any(each.connector == ref for each in self.bench.plugs), f"{ref} is full when its cable is made"
            self.bench.plugs.append(plug)


def _plug_name(words: str) -> str:
    name = words.split("/")[-1]
    return f"old {name.removesuffix(OF_OLD)}" if name.endswith(OF_OLD) else name


def wrongs(old: Craft, new: Craft, answer: Mapping[str, Any], sheet: Iterable[Measurement]) -> list[str]:
    """What is not as the new drawing wants it after the steps, a line each; `sheet`: the new continuity sheet."""
    if any(cable["stopped"] for cable in answer["cables"]):
        return []  # what cannot be made is left as it was
    bench = RebuildBench(old, new, answer)
    try:
        bench.carry_out()
    except (AssertionError, KeyError, StopIteration) as error:
        return [f"cannot be carried out: {type(error).__name__}: {error}"]
    built = bench.built()
    drawn = {frozenset(lead.ends): lead for lead in new.leads}
    own = {each.lead.mark for each in how_leads_are_made(new) if EndKind.MATED in {end.kind for end in each.ends}}
    own_before = {each.lead.mark for each in how_leads_are_made(old) if each.wire_from is WireFrom.CAPTIVE}
    joined = {each.lead.mark for each in how_leads_are_made(old) if {end.kind for end in each.ends} == {EndKind.OWN}}
    said, missing = [], set(drawn) - set(built)
    for ends in set(built) - set(drawn):
        other = next((each for each in missing if _left_to_choice(new, drawn[each], ends)), None)
        missing -= {other}
        stays = built[ends].tag in own_before - joined  # in the part's own plug
        said += [] if other or stays else [f"left over: {sorted(ends)}"]
    said += [f"missing: {drawn[ends].mark} {sorted(ends)}" for ends in missing if drawn[ends].mark not in own]
    for ends in set(built) & set(drawn):
        wire, lead = built[ends], drawn[ends]
        if wire.facts is not None and wire.tag not in own_before:
            for was, now in zip(wire.facts[:2], (lead.gauge_awg, lead.colour), strict=True):
                if None not in (was, now) and was != now:
                    said.append(f"{lead.mark} is {was}, {now} is drawn")
            length = wire.facts[2]
            if None not in (length, lead.length_mm) and abs(length - lead.length_mm) > 0.11:
                said.append(f"{lead.mark} is {length} mm long, {lead.length_mm} mm is drawn")
    return said + unmeasured(answer, {mark for row in sheet for mark in row.leads})


def _left_to_choice(new: Craft, lead: Any, ends: frozenset[tuple[str, str]]) -> bool:
    """Whether the drawing leaves open which contacts of the net the wire joins, and this one does as well."""
    nets = {contact.key: contact.net_id for each in new.terminations.values() for contact in each.contacts}
    return lead.how in ("beside", "joined", "chosen") and {nets.get(key) for key in ends} == {lead.net_id}


def unmeasured(answer: Mapping[str, Any], on_sheet: set[str]) -> list[str]:
    """Wires that steps touch and no listed row measures, though the sheet has rows for them."""
    rows = [row for cable in answer["cables"] for row in cable["measure"]]
    measured = {mark for row in rows for mark in row["leads"]}
    volts = any(row["kind"] == "volts" for row in rows)
    steps = [step for cable in answer["cables"] for step in cable["steps"] if step["lead"] and step["cavity"]]
    touched = {step["lead"] for step in steps if not (step["live"] and volts)}  # a pack's own wires: by their volts
    return [f"{mark} is touched and not measured" for mark in sorted((touched & on_sheet) - measured)]
