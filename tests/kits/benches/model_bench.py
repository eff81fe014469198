"""A craft on a bench: wires, plugs, solder and boards as things, and a person who follows the sheet to the letter.

It knows nothing of how the rows were chosen: it gets them as the JSON that is exported, makes one mistake at a time
with its own hands, and reads what the meter shows.  Boards are unkind: whatever nobody promises about their inside is
drawn by dice, windings conduct, capacitors have been waited for.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations, pairwise
from typing import Any

from benches.shared import PLUG_ENDS
from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.model.craft import Craft, Kind, Termination
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass

Node = tuple[str, ...]
SOLDERED = {EndKind.PAD, EndKind.SPLICE, EndKind.INLINE}


@dataclass(frozen=True)
class Hardware:
    """What hands have made."""

    wires: Mapping[str, tuple[Node, Node]]  # mark -> where its two ends are
    whiskers: tuple[tuple[Node, Node], ...] = ()  # bridges
    soldered: Mapping[Node, Node] = field(default_factory=dict)  # bare end -> the pad, where it is not the drawn one
    seated: Mapping[str, tuple[str, int]] = field(default_factory=dict)  # plug -> (connector, ways if turned, else 0)
    counted_backwards: Mapping[str, int] = field(default_factory=dict)  # plug -> ways


@dataclass(frozen=True)
class Deed:
    """One mistake: what it is called, where, and what lies on the bench after it."""

    kind: str
    at: frozenset[tuple[str, str]]  # (termination, contact); contact "" is the plug as a whole
    hardware: Hardware
    leads: frozenset[str] = frozenset()  # of solder swapped: several may share a pad


class ModelBench:
    def __init__(self, craft: Craft, leads: Sequence[MadeLead]) -> None:
        self.craft = craft
        self.made = {each.lead.mark: each for each in leads}
        self.right = Hardware(
            {mark: (self._site(mark, 0), self._site(mark, 1)) for mark in self.made},
        )

    def _site(self, mark: str, side: int) -> Node:
        end = self.made[mark].ends[side]
        if end.kind in PLUG_ENDS:
            return ("cavity", *end.key)
        if end.kind in SOLDERED:
            return ("bare", *end.key, mark)
        return ("pin", *end.key)

    # --- reading -------------------------------------------------------------------------------------------------

    def passes(self, row: Mapping[str, Any], hardware: Hardware, dice: random.Random, *, kind_boards: bool) -> bool:
        """Whether a person ticks the row.  `kind_boards`: signals of boards do not conduct like wires."""
        if row["kind"] == "look" or row["when"] == "meter":
            return True
        groups = self.groups(row, hardware, dice, kind_boards)
        start = self.touched(row["from"], row, hardware)
        if row["kind"] == "volts":
            return (
                self.poles(groups, start) == "+"
                and self.poles(groups, self.touched(row["joined"][0], row, hardware)) == "-"
            )
        beeps = [groups.together(start, self.touched(end, row, hardware)) for end in row["joined"]]
        quiet = [groups.together(start, self.touched(end, row, hardware)) for end in row["open"]]
        return all(beeps) and not any(quiet)

    def touched(self, end: Mapping[str, Any], row: Mapping[str, Any], hardware: Hardware) -> Node:
        number = "" if end["contact"] is None else str(end["contact"])
        if end["at"] == "known ground":
            return ("ground", end["board"])
        if end["at"] == "bare end":
            return ("bare", end["termination"], number, end["lead"])
        if end["lead"] is None or end["termination"] in row["plugged"]:
            return ("pin", end["termination"], number)
        ways = hardware.counted_backwards.get(end["termination"])
        return ("cavity", end["termination"], number if ways is None else str(ways + 1 - int(number)))

    def poles(self, groups: Groups[Node], node: Node) -> str:
        found = set()
        for termination in self.craft.terminations.values():
            if termination.kind is Kind.CAPTIVE and any(contact.gives for contact in termination.contacts):
                for contact in termination.contacts:
                    if groups.together(node, ("pin", *contact.key)):
                        found.add("-" if contact.role.is_ground else "+")
        return "".join(sorted(found))

    def groups(
        self, row: Mapping[str, Any], hardware: Hardware, dice: random.Random, kind_boards: bool
    ) -> Groups[Node]:
        groups: Groups[Node] = Groups()
        plugged = set(row["plugged"])
        for a, b in (*hardware.wires.values(), *hardware.whiskers):
            groups.join(a, b)
        for wire in hardware.wires.values():
            for site in wire:
                if site[0] == "cavity" and site[1] in plugged:
                    groups.join(site, self._seat(site, hardware))
                elif site[0] == "bare" and site[1] in plugged:
                    groups.join(site, hardware.soldered.get(site, ("pin", site[1], site[2])))
        self._parts(groups, row)
        self._boards(
            groups, dice, kind_boards or row["kind"] == "volts", str(row["words"]) if row["when"] == "craft" else ""
        )
        return groups

    def _seat(self, cavity: Node, hardware: Hardware) -> Node:
        connector, turned = hardware.seated.get(cavity[1], (cavity[1], 0))
        return ("pin", connector, str(turned + 1 - int(cavity[2])) if turned else cavity[2])

    def _parts(self, groups: Groups[Node], row: Mapping[str, Any]) -> None:
        for part in self.craft.terminations.values():
            if part.kind is Kind.INLINE:
                letters = part.reference.rstrip("0123456789")
                is_off = letters in ("SW", "S") and row["when"] == "craft" and not self._is_on(part, row)
                if letters in ("D", "R") or is_off:
                    continue
                groups.join(("pin", *part.contacts[0].key), ("pin", *part.contacts[1].key))

    def _is_on(self, switch: Termination, row: Mapping[str, Any]) -> bool:
        """As the row's words say."""
        said = re.search(r"switched on: ([^;)]*)", str(row["words"]))
        return said is not None and switch.reference in re.split(r",\s*", said.group(1))

    def _boards(self, groups: Groups[Node], dice: random.Random, kind_boards: bool, taken_off: str) -> None:
        """Inside each board: grounds are one; what is not promised is drawn by dice."""
        boards: dict[str, list[Any]] = {}
        for termination in self.craft.terminations.values():
            if termination.kind in (Kind.RECEPTACLE, Kind.PAD):
                boards.setdefault(termination.board, []).extend(termination.contacts)
            elif termination.kind is Kind.CAPTIVE and dice.random() < 0.5 and not kind_boards:
                for a, b in combinations(termination.contacts, 2):
                    groups.join(("pin", *a.key), ("pin", *b.key))
        for board, contacts in boards.items():
            grounds = [each for each in contacts if each.role.is_ground]
            for each in grounds:
                isolated = "yes" in [
                    v for k, v in self.craft.terminations[each.termination].fields.items() if k.lower() == "isolated"
                ]
                if not isolated or dice.random() < 0.5:
                    groups.join(("ground", board), ("pin", *each.key))
            rails: dict[int, list[Any]] = {}
            for each in contacts:
                if each.role.is_supply:
                    rails.setdefault(each.net_id, []).append(each)
            for rail in rails.values():
                if kind_boards or dice.random() < 0.5:
                    for a, b in combinations(rail, 2):
                        groups.join(("pin", *a.key), ("pin", *b.key))
            if kind_boards:
                continue
            loose = [each for each in contacts if not each.role.is_supply and not each.role.is_ground]
            for each in loose:  # a signal may be tied to ground, or to another signal, by a few ohms
                if dice.random() < 0.3:
                    groups.join(("ground", board), ("pin", *each.key))
                elif dice.random() < 0.3 and len(loose) > 1:
                    groups.join(("pin", *dice.choice(loose).key), ("pin", *each.key))
            places = {each.termination for each in contacts}
            only_takes = len(places) == 1 and {each.role.cls for each in contacts} <= {
                RoleClass.SUPPLY,
                RoleClass.GROUND,
            }
            if only_takes and not any(each.gives for each in contacts) and dice.random() < 0.5:
                if f"{board} may conduct" in taken_off or f"{board}, " in taken_off or f"{board} and " in taken_off:
                    continue
                for each in contacts:  # a lamp, a fan
                    groups.join(("ground", board), ("pin", *each.key))

    # --- mistakes ------------------------------------------------------------------------------------------------

    def deeds(self) -> Iterator[Deed]:
        """All mistakes of the kinds listed in the product's description that do harm."""
        for deed in self._all_deeds():
            if self._does_harm(deed):
                yield deed

    def _all_deeds(self) -> Iterator[Deed]:
        for reference, cavities in self._housings().items():
            yield from self._at_a_housing(reference, cavities)
        for reference, cavities in self._own_plugs().items():
            ways = self._ways(reference, cavities)
            turned = replace(self.right, seated={reference: (reference, ways)})
            yield Deed("own plug turned", frozenset({(reference, "")}), turned)
        for mark, made in self.made.items():
            if made.wire_from.value != "captive part":
                wires = {key: value for key, value in self.right.wires.items() if key != mark}
                yield Deed("wire left out", frozenset(made.lead.ends), replace(self.right, wires=wires))
        yield from self._at_pads()
        yield from self._wrong_connectors()
        yield from self._wrong_labels()

    def _housings(self) -> dict[str, dict[str, str]]:
        """Plugs that are made here: reference -> cavity -> wire."""
        found: dict[str, dict[str, str]] = {}
        for mark, made in self.made.items():
            for end in made.ends:
                inline = self.craft.terminations[end.key[0]].kind is Kind.INLINE
                if end.kind in PLUG_ENDS - {EndKind.MADE, EndKind.MATED} and not inline:
                    found.setdefault(end.key[0], {})[end.key[1]] = mark
        return found

    def _own_plugs(self) -> dict[str, dict[str, str]]:
        found: dict[str, dict[str, str]] = {}
        for mark, made in self.made.items():
            for end in made.ends:
                if end.kind is EndKind.MATED:
                    found.setdefault(end.key[0], {})[end.key[1]] = mark
        return found

    def _ways(self, reference: str, cavities: Mapping[str, str]) -> int:
        return max(self.craft.terminations[reference].ways or 0, *map(int, cavities))

    def _moved(self, moves: Mapping[tuple[str, str], str], reference: str) -> dict[str, tuple[Node, Node]]:
        """Wires with ends of this plug put into other cavities: {(wire, old cavity): new cavity}."""
        wires = dict(self.right.wires)
        for (mark, old), new in moves.items():
            wires[mark] = tuple(  # type: ignore[assignment]
                ("cavity", reference, new) if site == ("cavity", reference, old) else site for site in wires[mark]
            )
        return wires

    def _at_a_housing(self, reference: str, cavities: Mapping[str, str]) -> Iterator[Deed]:
        ways = self._ways(reference, cavities)
        for a, b in combinations(cavities, 2):
            wires = self._moved({(cavities[a], a): b, (cavities[b], b): a}, reference)
            yield Deed(
                "swapped contacts", frozenset({(reference, a), (reference, b)}), replace(self.right, wires=wires)
            )
        for number, mark in cavities.items():
            for beside in (str(int(number) - 1), str(int(number) + 1)):
                if 1 <= int(beside) <= ways and beside not in cavities:
                    wires = self._moved({(mark, number): beside}, reference)
                    at = frozenset({(reference, number), (reference, beside)})
                    yield Deed("off by one", at, replace(self.right, wires=wires))
            after = str(int(number) + 1)
            if after in cavities:
                whisker = (("cavity", reference, number), ("cavity", reference, after))
                at = frozenset({(reference, number), (reference, after)})
                yield Deed("bridge", at, replace(self.right, whiskers=(whisker,)))
        wires = self._moved({(mark, n): str(ways + 1 - int(n)) for n, mark in cavities.items()}, reference)
        mirrored = replace(self.right, wires=wires, counted_backwards={reference: ways})
        yield Deed("mirrored plug", frozenset({(reference, "")}), mirrored)

    def _at_pads(self) -> Iterator[Deed]:
        ends: dict[str, list[tuple[str, str]]] = {}
        for mark, made in self.made.items():
            for end in made.ends:
                if end.kind is EndKind.PAD:
                    ends.setdefault(end.key[0], []).append((end.key[1], mark))
        for reference, soldered in ends.items():
            for (a, one), (b, other) in combinations(soldered, 2):
                if a == b:
                    continue
                first, second = ("bare", reference, a, one), ("bare", reference, b, other)
                swapped = {first: ("pin", reference, b), second: ("pin", reference, a)}
                roles = [self.craft.contact((reference, number)).role for number in (a, b)]
                supply = all(role.is_supply or role.is_ground for role in roles)
                colours = [self.made[mark].lead.colour for mark in (one, other)]
                if supply or None in colours or colours[0] == colours[1]:
                    kind = "crossed supply" if supply else "swapped at solder"
                    at = frozenset({(reference, a), (reference, b)})
                    yield Deed(kind, at, replace(self.right, soldered=swapped), frozenset({one, other}))
            numbers = {number for number, _ in soldered}
            contacts = [contact.number for contact in self.craft.terminations[reference].contacts]
            for a, b in pairwise(contacts):
                if a in numbers and b in numbers:
                    whisker = (("pin", reference, a), ("pin", reference, b))
                    at = frozenset({(reference, a), (reference, b)})
                    yield Deed("pad bridge", at, replace(self.right, whiskers=(whisker,)))

    def _wrong_connectors(self) -> Iterator[Deed]:
        for reference in (*self._housings(), *self._own_plugs()):
            own = self.craft.terminations[reference]
            for other in self.craft.terminations.values():
                alike = other.kind is own.kind is Kind.RECEPTACLE and other.family == own.family is not None
                if alike and other.ways == own.ways and other.reference != reference and self._names_differ(own, other):
                    seats = {reference: (other.reference, 0)}
                    if any({reference, other.reference} <= set(cable.ends) for cable in self.craft.cables):
                        seats[other.reference] = (reference, 0)  # the cable turned about
                    seated = replace(self.right, seated=seats)
                    yield Deed("wrong connector", frozenset({(reference, ""), (other.reference, "")}), seated)

    def _names_differ(self, one: Termination, other: Termination) -> bool:
        """Ports of one pinout are for the firmware to tell apart."""
        names = [{each.number: each.label for each in end.contacts} for end in (one, other)]
        return names[0] != names[1]

    def _wrong_labels(self) -> Iterator[Deed]:
        """Cables with a plug at each of two ends, the same plugs: each has the label of the other."""
        cables = []
        for cable in self.craft.cables:
            ends = [self.craft.terminations[each] for each in cable.ends]
            housings = self._housings()
            if len(ends) == 2 and all(end.reference in housings and end.family for end in ends):
                ends.sort(key=lambda end: (end.family or "", end.ways or 0))
                cables.append((cable, ends))
        for (one, near), (other, far) in combinations(cables, 2):
            shapes = [[(end.family, end.ways) for end in ends] for ends in (near, far)]
            if shapes[0] == shapes[1]:
                to = {a.reference: b.reference for a, b in zip((*near, *far), (*far, *near), strict=True)}
                wires = dict(self.right.wires)
                for mark in (*one.leads, *other.leads):
                    wires[mark] = tuple(("cavity", to[site[1]], site[2]) for site in wires[mark])  # type: ignore[assignment]
                at = frozenset((reference, "") for reference in to)
                yield Deed("label on the wrong cable", at, replace(self.right, wires=wires))

    def _does_harm(self, deed: Deed) -> bool:
        """Whether wires, all plugged in and soldered, join other things of the boards than drawn."""
        return self._joined(deed.hardware) != self._joined(self.right)

    def _joined(self, hardware: Hardware) -> Counter[frozenset[str]]:
        """How many wires run between which things of boards: one ground, one rail, one part's phases are one thing."""
        groups: Counter[frozenset[str]] = Counter()
        for wire in hardware.wires.values():
            groups[frozenset(self._thing(self._at_last(site, hardware)) for site in wire)] += 1
        for a, b in hardware.whiskers:
            things = [self._things_on(self._at_last(site, hardware), hardware) for site in (a, b)]
            if self._net(a) != self._net(b):
                groups[frozenset(things[0] | things[1])] += 100
        return groups

    def _net(self, site: Node) -> int:
        return self.craft.contact((site[1], site[2])).net_id

    def _things_on(self, pin: Node, hardware: Hardware) -> frozenset[str]:
        return frozenset({self._thing(pin)})

    def _at_last(self, site: Node, hardware: Hardware) -> Node:
        if site[0] == "cavity":
            return self._seat(site, hardware)
        if site[0] == "bare":
            return hardware.soldered.get(site, ("pin", site[1], site[2]))
        return site

    def _thing(self, pin: Node) -> str:
        termination = self.craft.terminations[pin[1]]
        contact = next((each for each in termination.contacts if each.number == pin[2]), None)
        if contact is None:
            return f"nothing {pin}"
        if termination.kind is Kind.INLINE and not termination.reference.startswith("D"):
            return f"{termination.reference}"
        if contact.role.cls in (RoleClass.GROUND, RoleClass.SUPPLY):
            return f"{termination.board} {contact.net}"
        if contact.role.cls is RoleClass.PHASE:
            return f"{pin[1]} phase"
        return f"{pin[1]}:{pin[2]}"


def key_of(mistake: Mapping[str, Any]) -> tuple[str, frozenset[tuple[str, str]], frozenset[str]]:
    """What a mistake of the export and a deed of the bench have in common; leads where several share a pad."""
    at = frozenset((at["termination"], "" if at["contact"] is None else str(at["contact"])) for at in mistake["at"])
    shared = mistake["kind"] in ("swapped at solder", "crossed supply")
    return mistake["kind"], at, frozenset(mistake["leads"]) if shared else frozenset()
