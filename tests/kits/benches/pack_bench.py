"""A bench with packs: it walks the order of work of a comparison step by step and knows at each what is joined.

Wires, joints, tape, fuses and switches are followed as things; what is live follows from them alone.  Judged is: no
hand and no ohmmeter on a powered craft or at a pack's plus, one bare live end at a time, no end worked on under its
tape, fuses out before a pack's wires are touched, each row at a place that is there by then, and a pack joined to a
board only after its short rows and its volts, through a smoke stopper.

Brute force; common practice, no source outside.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from msgspec.structs import replace

from benches.shared import IN_A_PLUG, joint_of, place_of
from tabside.analysis.joined.lead_ends import EndKind, how_leads_are_made
from tabside.analysis.joined.part_plugs import packs
from tabside.compare.comparison import Comparison
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
from tabside.model.groups import Groups
from tabside.prove.measurement import At, End, Measurement, RowKind, Test, When

Node = tuple[str, ...]
LIFTED = ", its tape lifted for this and pressed back"
OFF = ("take out", "leave out")
HANDS = (*OFF, "put in", "cut", "strip", "crimp", "solder")


@dataclass
class Wire:
    """One that a pack may reach; `own`: the pack's terminal where it begins."""

    own: Node | None = None
    joints: set[tuple[str, str]] = field(default_factory=set)
    loose: dict[tuple[str, str], str] = field(default_factory=dict)  # the end for this joint -> "bare" or "taped"
    fixed: list[Node] = field(default_factory=list)  # a load's own wire begins there


class PackBench:
    def __init__(self, found: Comparison) -> None:
        self.found, self.answer = found, comparison_json(found)
        self.old, self.new = found.old.craft, found.new.craft
        self.said: list[str] = []
        self.pairs = {was: now for was, now, _ in self.answer["matching"] if was and now}
        self.becomes = {pair[0]: pair[1] for cable in self.answer["cables"] for pair in cable["wires"]}
        self.old_made = {made.lead.mark: made for made in how_leads_are_made(self.old)}
        self.new_made = {made.lead.mark: made for made in how_leads_are_made(self.new)}
        self.old_packs, self.new_packs = packs(self.old), packs(self.new)
        self.exchanged = {ref for ref in self.pairs if self._is_exchanged(ref)}
        self.wires: dict[tuple[str, str], Wire] = {}
        self.out: set[str] = set()  # fuses out, switches off
        self.plugged: set[str] = set()  # plugs on a pack's wires that are in
        self.covered: set[tuple[str, str]] = set()  # joints that these steps made
        self.taped: set[tuple[str, str]] = set()  # places on boards and parts
        self.measured: set[str] = set()  # packs
        self.looked_for_short: set[str] = set()  # ids of rows
        self.has_power = False
        self.goes: set[str] = set()  # packs whose wires the sheet in hand takes off
        self.shared_power = False
        self._as_built()
        self.has_power = bool(self.powered())

    # --- what is there -----------------------------------------------------------------------------------------

    def _is_exchanged(self, ref: str) -> bool:
        before, after = self.old.terminations[ref], self.new.terminations[self.pairs[ref]]
        if before.board not in self.old_packs or after.board not in self.new_packs:
            return before.board in self.old_packs or after.board in self.new_packs
        said = [part.value for part in (before, after) if part.value and not part.value.startswith("Conn_")]
        value = len(set(said)) > 1
        gives = [[repr(g.volts) for c in each.contacts for g in c.gives if g.volts] for each in (before, after)]
        volts = [each or [repr(side.settings.battery)] for each, side in zip(gives, (self.old, self.new), strict=True)]
        return value or (volts[0] != volts[1] and ["None"] not in volts)

    def name(self, ref: str) -> str:
        """Of a termination of the old drawing."""
        now = self.pairs.get(ref)
        return f"old {ref}" if now is None or ref in self.exchanged else now

    def _terminal(self, ref: str, contact: str, *, old: bool) -> Node:
        return ("pack", self.name(ref) if old else ref, contact)

    def _as_built(self) -> None:
        for mark, made in self.old_made.items():
            wire = self.wires[("old", mark)] = Wire()
            for end in made.ends:
                ref, contact = end.key
                if end.kind is EndKind.OWN:
                    self._begins(wire, ref, contact, old=True)
                elif end.kind is EndKind.MATED:
                    continue  # plugged in by hand, and out before the work
                elif self._stays_in_plug(mark, ref, contact, end.kind):  # whatever pack's own plug goes into it
                    wire.joints.add((f"plug {self.pairs[ref]}", contact))
                elif end.kind is EndKind.MATE:
                    wire.joints.add((f"plug {self.name(ref)}", contact))
                else:
                    wire.joints.add((self._place(ref, end.kind), contact))

    def _stays_in_plug(self, mark: str, ref: str, contact: str, kind: EndKind) -> bool:
        """Of a wire that goes on: whether it ends in the same cavity or cup of the same plug in the new build."""
        now = self.new_made.get(self.becomes.get(mark, ""))
        in_plug = kind is EndKind.MATE or kind in IN_A_PLUG
        return in_plug and now is not None and (self.pairs.get(ref), contact) in {end.key for end in now.ends}

    def _begins(self, wire: Wire, ref: str, contact: str, *, old: bool) -> None:
        craft, live = (self.old, self.old_packs) if old else (self.new, self.new_packs)
        if craft.terminations[ref].board in live:
            wire.own = self._terminal(ref, contact, old=old)
        else:
            wire.fixed.append(("at", self.name(ref) if old else ref, contact))

    def _place(self, ref: str, kind: EndKind, *, old: bool = True) -> str:
        name = self.name(ref) if old else ref
        return f"plug {name}" if kind in IN_A_PLUG else name

    def wire_of(self, step: Mapping[str, Any]) -> Wire | None:
        mark = step["old_lead"]
        if mark is None and step["lead"] is None:
            found = re.search(r"spare (W\d+)", step["words"])
            mark = found[1] if found else None
        if mark is not None:
            return self.wires[("old", mark)]
        return self.by_number(step["lead"]) if step["lead"] else None

    def by_number(self, mark: str) -> Wire:
        """In the new drawing."""
        was = next((was for was, now in self.becomes.items() if now == mark), None)
        if was is not None:
            return self.wires[("old", was)]
        if ("new", mark) not in self.wires:
            made = self.new_made[mark]
            own = next((end for end in made.ends if end.kind is EndKind.OWN), None)
            terminal = self._terminal(*own.key, old=False) if own is not None else None
            same = next((wire for wire in self.wires.values() if wire.own is not None and wire.own == terminal), None)
            if same is None:
                same = Wire()
                for end in made.ends:
                    if end.kind is EndKind.OWN:
                        self._begins(same, *end.key, old=False)
                    else:
                        same.loose[(self._place(end.key[0], end.kind, old=False), end.key[1])] = "taped"
            self.wires[("new", mark)] = same
        return self.wires[("new", mark)]

    def all_wires(self) -> Iterator[Wire]:
        """Each once: one wire may have a number in both drawings."""
        yield from {id(wire): wire for wire in self.wires.values()}.values()

    # --- what is joined ----------------------------------------------------------------------------------------

    def nets(self) -> dict[Node, int]:
        """The number of the component of each node; packs do not join their terminals."""
        groups: Groups[Node] = Groups()
        for wire in self.all_wires():
            nodes = [self._node(*joint) for joint in wire.joints] + wire.fixed
            nodes += [wire.own] if wire.own is not None else []
            nodes.append(("wire", str(id(wire))))
            for node in nodes[1:]:
                groups.join(node, to=nodes[0])
        for craft, old in ((self.old, True), (self.new, False)):
            for ref, each in craft.terminations.items():
                name = self.name(ref) if old else ref
                stays = old and name in self.new.terminations  # of a board that stays the new drawing tells the pads
                grounds = [("at", name, c.number) for c in each.contacts if c.role.is_ground and not stays]
                if each.kind.value == "in-line" and name not in self.out and len(each.contacts) == 2:
                    first, second = (("at", name, c.number) for c in each.contacts)
                    groups.join(first, to=second)
                elif each.kind.value != "captive":
                    for node in grounds:
                        groups.join(node, to=("ground", each.board))
        for ref, each in self.new.terminations.items():
            if each.board in self.new_packs:  # its own plug, or the ends of its own leads, are there to be measured
                for contact in each.contacts:
                    groups.join(("pack", ref, contact.number), to=("pack", ref, contact.number))
        numbers: dict[Node, int] = {}
        return {node: numbers.setdefault(groups.root(node), len(numbers)) for node in groups.members}

    def _node(self, place: str, contact: str) -> Node:
        if place.startswith("plug ") and place.removeprefix("plug ") in self.plugged:
            place = place.removeprefix("plug ")
        splice = self.new.terminations.get(place) or self.old.terminations.get(place.removeprefix("old "))
        return ("at", place) if splice is not None and splice.kind.value == "splice" else ("at", place, contact)

    def terminals(self, nets: Mapping[Node, int]) -> dict[int, set[Node]]:
        found: dict[int, set[Node]] = {}
        for node, number in nets.items():
            if node[0] == "pack":
                found.setdefault(number, set()).add(node)
        return found

    def is_minus(self, terminal: Node) -> bool:
        ref = terminal[1].removeprefix("old ")
        craft = self.old if terminal[1].startswith("old ") else self.new
        return any(c.number == terminal[2] and c.role.is_ground for c in craft.terminations[ref].contacts)

    def loads(self) -> dict[str, set[Node]]:
        found: dict[str, set[Node]] = {}
        for craft, old in ((self.old, True), (self.new, False)):
            live = self.old_packs if old else self.new_packs
            for ref, each in craft.terminations.items():
                if each.kind.value not in ("in-line", "splice") and each.board not in live:
                    name = self.name(ref) if old else ref
                    found.setdefault(each.board, set()).update(("at", name, c.number) for c in each.contacts)
        return found

    def powered(self) -> set[str]:
        """Packs whose volts are at a board or a lamp."""
        nets = self.nets()
        terminals = self.terminals(nets)
        on: set[str] = set()
        for nodes in self.loads().values():
            there = {nets[node] for node in nodes if node in nets and nets[node] in terminals}
            for one in there:
                for other in there - {one}:
                    on |= self.between(one, other, terminals)
        return on

    def between(self, one: int, other: int, terminals: Mapping[int, set[Node]]) -> set[str]:
        """Packs through which one comes from the one net to the other, in series or in parallel."""
        found: set[str] = set()

        def go(net: int, by: tuple[str, ...], seen: tuple[int, ...]) -> None:
            if net == other:
                found.update(by)
                return
            for pack in {terminal[1] for terminal in terminals[net]} - set(by):
                for there, those in terminals.items():
                    if there not in seen and pack in {terminal[1] for terminal in those}:
                        go(there, (*by, pack), (*seen, there))

        go(one, (), (one,))
        return found

    def shorted(self) -> list[str]:
        return [
            f"{one[1]} is shorted"
            for found in self.terminals(self.nets()).values()
            for one in found
            for other in found
            if one[1] == other[1] and one[2] < other[2]
        ]

    def live_wires(self) -> Iterator[Wire]:
        """A pack's own, and what its plus reaches."""
        nets = self.nets()
        hot = {net for net, found in self.terminals(nets).items() if not all(map(self.is_minus, found))}
        for wire in self.all_wires():
            if wire.own is not None or nets.get(("wire", str(id(wire)))) in hot:
                yield wire

    # --- the walk ----------------------------------------------------------------------------------------------

    def walk(self) -> list[str]:
        if any(cable["stopped"] for cable in self.answer["cables"]):
            return []
        order = order_of_work(self.found)
        for line in self.answer["first"]:
            self.line(line)
        for row in self.found.measure:
            line = f"row {self.found.step_of.get(row.id, '-')}:"
            if row.when is When.PART and line in " ".join(order.meter) and self._has_wires(row.where.termination):
                self.row(row, "before the first sheet")
        rows = {row.id: row for work in self.found.work for row in work.measure}
        told: set[str] = set()
        self.words = [step["words"] for cable in self.answer["cables"] for step in cable["steps"]]
        for cable in self.answer["cables"]:
            self.shared_power = any("has had power from" in text for text in cable["cautions"])
            own = (self.wires[("old", mark)].own for mark in cable["old_leads"])
            self.goes = {terminal[1] for terminal in own if terminal is not None}
            for n, step in enumerate(cable["steps"]):
                self.step(step, cable["steps"][n + 1 :], rows)
                told |= set(step["rows"] or ())
        if order.parts and not any("first the parts across wires" in words for words in self.words):
            self.by_hand("parts across wires")
        for line in order.last:
            self.tape_off(line)
        listed = [row for row in self.found.measure if row.when is not When.METER and row.id not in told]
        for row in listed:
            if any(f"row {self.found.step_of.get(row.id, '-')}:" in line for line in order.last):
                self.row(row, "measure last")
        for line in self.answer["last"]:
            self.line(line)
        self.at_the_end()
        return self.said

    def wrong(self, what: str, where: str) -> None:
        self.said.append(f"{what}: {where[:150]}")

    def line(self, line: str) -> None:
        """Of `first` or `last`."""
        self.fuses(line)
        for mark, place, contact in re.findall(
            r"unsolder ((?:spare )?W\d+)(?: \(was W\d+\))? at ([^,]+) (\w+), tape its bare end", line
        ):
            wire, ref = self.by_number_or_old(mark, line), place.split("/")[-1]
            there = ((name, contact) for name in (ref, self.pairs.get(ref, ref), f"old {ref}"))
            joint = next((each for each in there if each in wire.joints), (f"old {ref}", contact))
            if joint not in wire.joints:
                self.wrong("nothing is there", line)
            wire.joints.discard(joint)
            wire.loose[joint] = "taped"
            self.after(line)
        self.tape_off(line)
        numbers = set(re.findall(r"rows? (\d+)", line))
        for row in self.found.build.proof.rows if self.found.build else ():
            if str(self.found.step_of.get(row.id)) in numbers:
                ground = "black on a known ground" in line and row.test is Test.SHORT
                if LIFTED in line and row.test is Test.SHORT:
                    row = replace(row, start=row.start + LIFTED)
                self.row(replace(row, where=End(At.GROUND, row.where.board)) if ground else row, line)
        if "measure volts now" in line and not numbers:
            self.measured |= {node[1] for found in self.terminals(self.nets()).values() for node in found}
        solder = re.search(r"(W\d+): .*solder it to (.+) (\w+)$", line)
        if solder:
            self.solder(self.by_number_or_old(solder[1], line), (solder[2].split("/")[-1], solder[3]), line)

    def by_number_or_old(self, mark: str, line: str) -> Wire:
        if mark.startswith("spare "):
            return self.wires[("old", mark.removeprefix("spare "))]
        was = re.search(rf"{mark} \(was (W\d+)\)", line)
        if was:
            return self.wires[("old", was[1])]
        if mark in self.becomes.values() or ("old", mark) not in self.wires:
            return self.by_number(mark)
        return self.wires[("old", mark)]

    def fuses(self, words: str) -> None:
        for match in re.finditer(r"(no fuse in|take the fuse out of|leave the fuse out of) ([\w, ]+)", words):
            self.out |= self._parts(match[2])
        for match in re.finditer(r"put the fuse (?:back )?into ([\w, ]+)", words):
            self.out -= self._parts(match[1])
            self.after(words)
        for match in re.finditer(r"(?:switch|leave) ([SWCB\d, ]+?) (?:of the old drawing )?(on|off)", words):
            names = self._parts(match[1])
            self.out = self.out - names if match[2] == "on" else self.out | names
            self.after(words)

    def _parts(self, text: str) -> set[str]:
        words = re.findall(r"[A-Z]+\d+", text)
        old = {self.name(ref) for ref in self.old.terminations if ref in words and self.name(ref) not in words}
        return old | {ref for ref in self.new.terminations if ref in words}

    def tape_off(self, words: str, goes_on: Callable[[tuple[str, str]], bool] = lambda _: False) -> None:
        """`goes_on`: whether another wire is soldered to this joint next, and all of it is covered again."""
        told = re.search(r"take the tape off (.*)", words)
        for each in re.split(r",? and |, ", told[1]) if told else []:
            end = re.match(r"the bare end of (W\d+)", each)
            if end:
                self.bare(self.by_number(end[1]))
            place = re.match(r"(\S.*) (\w+)$", each)
            if place and not end:
                joint = (place[1].split("/")[-1], place[2])
                own = any(wire.own is not None and joint in wire.joints for wire in self.wires.values())
                if own and joint in self.covered and not goes_on(joint):
                    self.wrong("a live joint is bared", words)
                self.taped.discard((place[1].split("/")[-1], place[2]))

    def bare(self, wire: Wire) -> None:
        if "taped" not in wire.loose.values():
            self.wrong("no tape there", "take the tape off")
        for end in wire.loose:
            wire.loose[end] = "bare"

    def step(self, step: Mapping[str, Any], after: list[Mapping[str, Any]], rows: Mapping[str, Measurement]) -> None:
        action, words = step["action"], step["words"]
        ref, contact = joint_of(step)
        place = place_of(step)
        wire = self.wire_of(step)
        self.fuses(words)
        fresh = step["lead"] and not step["old_lead"] and action in ("cut", "strip", "crimp")
        if step["live"] and fresh and wire is not None and not self._hangs_on_a_pack(wire):
            self.wrong("LIVE is said of what is dead", words)
        if "put the pack away" in words:
            self.pack_away(words)
        then = next(map(joint_of, after), None)
        self.tape_off(words, lambda joint: joint == then and after[0]["action"] in (*OFF, "solder"))
        if (action in HANDS and step["cavity"] is not None) or action in ("cut", "strip") or action == "solder":
            self.by_hand(words, wire)
        if action in OFF and step["cavity"] is not None and wire is not None:
            self.off(wire, (place, contact), words)
        elif action == "solder" and step["cavity"] is not None and wire is not None:
            self.solder(wire, self._joint(place, contact, wire, words), words)
        elif action in ("put in", "crimp") and step["cavity"] is not None and wire is not None and action == "put in":
            self.solder(wire, (f"plug {place}", contact), words)
        elif action == "insulate" and wire is not None:
            self.insulate(wire, place, contact, words)
        elif action in ("cut", "strip") and wire is not None:
            self.cut(wire, (place, contact))
        elif action == "put in" and step["cavity"] is None:
            self.plugged.add(place)
        elif action in OFF and step["cavity"] is None:
            self.plugged.discard(place)
            goes = not self._goes_on(place)  # no wire of the new build is in it: the new one's is another plug
            if goes or ("below this plug is called" in words and words.endswith("of the old drawing")):
                for each in self.wires.values():
                    each.joints = {(f"plug old {ref}" if at == f"plug {ref}" else at, n) for at, n in each.joints}
        by_words = re.search(r"measure volts now.*: red on the bare end of (W\d+), black on", words)
        if by_words:
            wire = self.by_number(by_words[1])
            if "bare" not in wire.loose.values():
                self.wrong("this end is not bare", words)
            self.measured |= {node[1] for found in self.terminals(self.nets()).values() for node in found}
        if step["swap"] == "out":
            self.board_out(ref, words)
        if action == "test":
            for each in step["rows"] or ():
                self.row(rows[each], words)
        self.after(words)

    def board_out(self, reference: str, words: str) -> None:
        """With the tape over its pads."""
        self.by_hand(words)
        now = self.pairs.get(reference, reference)
        board = (self.new.terminations.get(now) or self.old.terminations[reference]).board
        was = next((self.old.terminations[a].board for a, b in self.pairs.items() if b == now), board)
        places = {self.name(ref) for ref, each in self.old.terminations.items() if each.board == was}
        if any(at in places for wire in self.all_wires() for at, _ in wire.joints):
            self.wrong("something is soldered to a board that goes", words)
        for wire in self.live_wires():
            if "bare" in wire.loose.values():
                self.wrong("a live end is bare while a board goes", words)
        self.taped = {(at, contact) for at, contact in self.taped if at not in places}

    def _goes_on(self, place: str) -> bool:
        """Whether a wire that is in this plug stays in it: it is the plug of the new build."""
        ends = {mark: {end.key for end in made.ends} for mark, made in self.new_made.items()}
        there = [
            (mark, contact)
            for (kind, mark), wire in self.wires.items()
            for at, contact in wire.joints
            if kind == "old" and at == f"plug {place}"
        ]
        return any((place, contact) in ends.get(self.becomes.get(mark, ""), ()) for mark, contact in there)

    def _hangs_on_a_pack(self, wire: Wire) -> bool:
        """By either pole, or beside one at a fuse or switch that is out."""
        out, self.out = self.out, set()
        nets = self.nets()
        self.out = out
        return wire.own is not None or nets.get(("wire", str(id(wire)))) in self.terminals(nets)

    def cut(self, wire: Wire, at: tuple[str, str]) -> None:
        """An end is bare then; a part's own wire has one."""
        for joint in [each for each in wire.joints if each[0].startswith("plug ") and wire.own is not None]:
            wire.joints.discard(joint)  # with its plug
            wire.loose[joint] = "bare"
        if wire.own is not None and not wire.joints and not wire.loose:
            wire.loose[at] = "bare"
        mine = [
            (place, contact)
            for place, contact in wire.loose
            if (place.removeprefix("plug ").removeprefix("old "), contact) == (at[0].removeprefix("old "), at[1])
        ]
        for end in mine or (list(wire.loose) if wire.own is not None or len(wire.loose) == 1 else []):
            wire.loose[end] = "bare"

    def _joint(self, place: str, contact: str, wire: Wire, words: str) -> tuple[str, str]:
        if "plug for" in words or "half without bare pins" in words or "loose mating connector" in words:
            return (f"plug {place}", contact)
        return (place, contact)

    def by_hand(self, words: str, wire: Wire | None = None) -> None:
        comes_off = wire is not None and words.startswith("LIVE") and re.search(r"unsolder|take it off", words)
        if self.powered() and not self.shared_power and not comes_off:
            self.wrong("hands on a powered craft", words)
        if wire is None:
            return
        live = {id(each) for each in self.live_wires()}
        for each in self.live_wires():
            if each is not wire and "bare" in each.loose.values():
                self.wrong("another live wire is bare", words)
        if id(wire) in live:
            fuses = self._fuses_on(wire)
            if fuses - self.out:
                self.wrong(f"{', '.join(sorted(fuses - self.out))} is in", words)

    def _fuses_on(self, wire: Wire) -> set[str]:
        """Fuses and breakers that its pack feeds now."""
        nets = self.nets()
        net = nets[("wire", str(id(wire)))]
        at = {node[1] for node, number in nets.items() if number == net and node[0] == "at"}
        return {name for name in at if re.fullmatch(r"(old )?(F|FH|PF|CB)\d+", name)}

    def off(self, wire: Wire, joint: tuple[str, str], words: str) -> None:
        place = joint[0].removeprefix("old ")
        names = {place, f"old {place}"}  # a plug that goes nowhere is called by the old drawing, or not
        found = next(
            (each for each in wire.joints if each[0].removeprefix("plug ") in names and each[1] == joint[1]), None
        )
        if found is None:
            if "it is off already" not in words and id(wire) in {id(each) for each in self.live_wires()}:
                self.wrong("not there", words)
            return
        wire.joints.discard(found)
        wire.loose[found] = "bare"

    def solder(self, wire: Wire, joint: tuple[str, str], words: str) -> None:
        before = self.powered()
        end = joint if joint in wire.loose else next(iter(wire.loose), None)
        if end is not None:
            state = wire.loose.pop(end)
            if state == "taped" and wire.own is not None:
                self.wrong("soldered under the tape of its end", words)
        if (joint[0].removeprefix("plug "), joint[1]) in self.taped:
            self.wrong("soldered under the tape of the place", words)
        wire.joints.add(joint)
        if self.powered() - before:
            self.joined(words)

    def joined(self, words: str) -> None:
        """Power is on the craft from here."""
        short = [row for row in self.found.build.proof.rows if row.test is Test.SHORT] if self.found.build else []
        if any(row.id not in self.looked_for_short for row in short):
            self.wrong("power before the look for a short", words)
        if self.powered() - self.measured:
            self.wrong("power before the volts are measured", words)
        if "smoke stopper" not in words:
            self.wrong("power without a smoke stopper", words)

    def insulate(self, wire: Wire, place: str, contact: str, words: str) -> None:
        first = re.search(r"first tape over the end of (W\d+)", words)
        if first:
            other = self.by_number(first[1])
            other.loose = dict.fromkeys(other.loose, "taped")
            return
        if "nothing is bare on the pack's other wires" in words:
            for each in self.live_wires():
                each.loose = dict.fromkeys(each.loose, "taped")
            return
        self.covered |= {(place, contact)} & wire.joints
        ends = [end for end in wire.loose if end[0].removeprefix("plug ") == place and end[1] == contact]
        for end in ends or list(wire.loose) if "bare end" in words else ends:
            wire.loose[end] = "taped"
        if "over what is bare at" in words:
            self.taped.add((place, contact))

    def pack_away(self, words: str) -> None:
        for wire in self.wires.values():
            if wire.own is not None and wire.own[1].startswith("old ") and wire.own[1] in self.goes:
                if wire.joints and not all(place.startswith("plug ") for place, _ in wire.joints):
                    self.wrong("the pack is still on", words)
                wire.joints, wire.loose = set(), {}

    def after(self, words: str) -> None:
        for each in self.shorted():
            self.wrong(each, words)
        out, self.out = self.out, set()
        for each in self.shorted():  # though a fuse that is out, or a switch, keeps the current away
            self.wrong(f"both poles on one place: {each}", words)
        self.out = out
        power = bool(self.powered())
        if power and not self.has_power and "solder" not in words:
            self.joined(words)
        self.has_power = power
        bare = [wire for wire in self.live_wires() if "bare" in wire.loose.values()]
        if len(bare) > 1:
            self.wrong("two live wires are bare", words)

    # --- the meter ---------------------------------------------------------------------------------------------

    def row(self, row: Measurement, words: str) -> None:
        told = f"{words[:70]} | {row.words}"
        self.nothing_else_is_bare(row, told)
        if row.kind is RowKind.LOOK or row.when is When.METER:
            return
        if row.when is When.PART and self._is_new_part(row.where.termination):
            return  # in the hand, beside the old one
        places = [self.touched(end, told) for end in row.ends if end.at is not At.PROBE]
        nets = self.nets()
        terminals = self.terminals(nets)
        met = [{nets[node] for node in nodes if node in nets and nets[node] in terminals} for nodes in places]
        if row.kind is RowKind.BEEP:
            if self.powered():
                self.wrong("ohms on a powered craft", told)
            if any(not self.is_minus(each) for found in met for net in found for each in terminals[net]):
                self.wrong("ohms at a pack", told)
            if row.test is Test.SHORT:
                self.looked_for_short.add(row.id)
            if row.test is Test.PART and any(self._has_wires(end.termination) for end in row.ends):
                self.wrong("a part with wires on it", told)
        else:
            if len(met) != 2 or not all(met):
                self.wrong("no volts there", told)
                return
            between = {pack for a in met[0] for b in met[1] if a != b for pack in self.between(a, b, terminals)}
            if not between:
                self.wrong("no volts between these", told)
            self.measured |= between

    def nothing_else_is_bare(self, row: Measurement, told: str) -> None:
        """Hands and eyes are elsewhere: of a pack's own wires all ends are taped, but the one that is measured."""
        mine = {id(self.by_number(end.lead)) for end in row.ends if end.lead and row.kind is RowKind.VOLTS}
        for wire in self.all_wires():
            if wire.own is not None and "bare" in wire.loose.values() and id(wire) not in mine:
                self.wrong("a live end is bare meanwhile", told)

    def _is_new_part(self, ref: str) -> bool:
        was = next((was for was, now in self.pairs.items() if now == ref), None)
        return was is None or self.old.terminations[was].value != self.new.terminations[ref].value

    def _has_wires(self, ref: str) -> bool:
        """Of a part that is another one now the new one is in the hand."""
        if self._is_new_part(ref):
            return False
        return any(place == ref for wire in self.live_wires() for place, _ in wire.joints)

    def touched(self, end: Any, told: str) -> set[Node]:
        """Nodes that the probe touches; says what is not there."""
        if end.at is At.GROUND:
            return {("ground", end.board)}
        if end.at is At.BARE:
            wire = self.by_number(end.lead)
            live = id(wire) in {id(each) for each in self.live_wires()}
            joint = (end.termination, end.contact)
            if joint in wire.joints and "bare end" in told.split("; ")[0] and live:
                self.wrong("this end is not bare", told)
            if live and joint not in wire.joints and "bare" not in wire.loose.values():
                self.wrong("this end is taped", told)
            return {("wire", str(id(wire)))}
        joint = (end.termination, end.contact)
        if joint in self.taped:
            self.wrong("this place is taped", told)
        lifted = LIFTED in told
        if (
            not lifted
            and joint in self.covered
            and any(wire.own is not None and joint in wire.joints for wire in self.wires.values())
        ):
            self.wrong("a covered joint of a pack is under the probe", told)
        if self.new.terminations[end.termination].board in self.new_packs and "not on it" not in told:
            if self.new.terminations[end.termination].family is None and (
                "at the ends of the pack's own leads, before either is joined" not in told
                or any(wire.joints for wire in self.all_wires() if (wire.own or "  ")[1] == end.termination)
            ):
                self.wrong("this pack has no plug", told)
            return {("pack", end.termination, end.contact)}
        plug = ("at", f"plug {end.termination}", end.contact)
        if end.lead and any(each.kind is EndKind.MATED for each in self.new_made[end.lead].ends):
            return {("wire", str(id(self.by_number(end.lead))))}  # the part's own plug
        return (
            {plug}
            if end.lead is not None and "own plug, not plugged in" in told
            else {("at", end.termination, end.contact)} | ({plug} if end.lead else set())
        )

    def at_the_end(self) -> None:
        own = {
            made.lead.mark
            for made in self.new_made.values()
            for end in made.ends
            if end.kind is EndKind.OWN and self.new.terminations[end.key[0]].board in self.new_packs
        }
        for mark in sorted(own):
            wire = self.by_number(mark)
            if "bare" in wire.loose.values():
                self.wrong("bare at the end", mark)
            plug = any(each.kind in (EndKind.MATED, EndKind.MATE) for each in self.new_made[mark].ends)
            if not wire.joints and not plug and any(each["steps"] for each in self.answer["cables"]):
                self.wrong("not joined at the end", mark)


def perils(found: Comparison) -> list[str]:
    """A line for each."""
    return [] if found.same else PackBench(found).walk()
