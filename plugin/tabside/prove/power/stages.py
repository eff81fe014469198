"""First power as it is written: stages with their rows, and the words that come back."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from functools import cached_property

from tabside.facts import families
from tabside.model.craft import Cable, Contact, ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.bench.switching import feeds_boards, switch_words
from tabside.prove.bench.world import World
from tabside.prove.power.places import Places
from tabside.prove.power.rows import FEEL, OUT, OUT_AGAIN, STOP, PowerRow, VoltsThere
from tabside.prove.power.supplies import Supplies
from tabside.words.contacts import listed, plural
from tabside.words.part_joints import is_turned, part_joints
from tabside.words.parts import part_name

Pair = tuple[Contact, Contact]  # what feeds, what is fed


class Stages:
    """The rows so far, and the craft as it stands: what is plugged in, switched on, lit."""

    def __init__(self, world: World) -> None:
        self.world = world
        self.craft = world.craft
        self.supplies = Supplies(world)
        self.rows: list[PowerRow] = []
        self.mating: dict[tuple[str, int | None], None] = {}
        self.number = 0
        self.title = ""  # of the stage that is written
        self.plugged: set[str] = set()  # leads of cables that are in
        self.places = Places(self.supplies, self.plugged)
        self.limiter = self.places.limiter
        self.from_words = ""  # " from left pack": of several, what gives power in this stage
        self.on: list[str] = []  # switches that boards hang on, once they have been tried
        self.tried: list[str] = []  # others that have been on, and are off until the end
        self.lit: dict[str, None] = {}  # lamps and the like that are on whenever there is power
        self.rails: dict[str, str] = {}  # where it is seen that nothing is left: at full length, and in short
        self.charged: set[str] = set()  # parts across wires that have had their first power
        self.told: list[str] = []  # those that have been told at full length

    def out(self) -> str:
        """Where it is seen that nothing is left: at full length the first time, later by the place of the red probe."""
        short = list(self.rails.values())
        if not short:
            return OUT
        if self.told == short:
            return f"{OUT_AGAIN} {'; and at '.join(short)}"
        self.told = short
        return f"{OUT} ({'; '.join(self.rails)})"

    @property
    def limited(self) -> str:
        return self.with_switches(f"Limited power{self.from_words} on")

    @property
    def still(self) -> str:
        return f"Limited power{self.from_words} still on"

    def with_switches(self, on: str, more: Iterable[str] = ()) -> str:
        """What is on, and the switches that are on with it."""
        switches = list(dict.fromkeys([*self.on, *more]))
        return f"{on}, {self.shown(switches)} on" if switches else on

    def shown(self, switches: Iterable[str]) -> str:
        return listed([switch_words(self.craft.terminations[reference]) for reference in switches], 12)

    def stays_on(self, switch: str) -> bool:
        """Whether boards hang on it; else it is off again once it has been tried."""
        return feeds_boards(self.world, self.craft.terminations[switch])

    def felt(self, members: Sequence[str]) -> str:
        """What is seen and felt of boards that get power; of parts across their wires, too."""
        return f"{listed(list(members), 12)}: {FEEL}{self.turned(members)}" if members else FEEL

    def live_plugs(self, members: Collection[str]) -> str:
        """Plugs that lie loose on cables soldered to these boards, while their own turn has not come."""
        loose = [
            cable.mark
            for cable in self.craft.cables
            if not self.plugged.intersection(cable.leads)
            and self.is_plugged(cable)
            and any(self._feeds(key, members) for mark in cable.leads for key in self.world.made[mark].lead.ends)
        ]
        are = "plug of {} is live from here: let it" if len(loose) == 1 else "plugs of {} are live from here: let them"
        return f"; the loose {are.format(marks_words(loose))} touch nothing" if loose else ""

    def _feeds(self, key: ContactKey, members: Collection[str]) -> bool:
        """Whether it is a supply's pad of one of these boards."""
        termination = self.craft.terminations[key[0]]
        is_pad = termination.kind is Kind.PAD and termination.board in members
        return is_pad and self.craft.contact(key).role.is_supply

    def turned(self, members: Collection[str]) -> str:
        """Capacitors and the like that lie across wires of these boards, at their first power."""
        found = []
        for reference, boards in self._polarised:
            if reference not in self.charged and boards.intersection(members):
                self.charged.add(reference)
                found.append(part_name(reference))
        return f"; keep your face away from {listed(found, 12)}: reversed it can burst" if found else ""

    @cached_property
    def _polarised(self) -> list[tuple[str, set[str]]]:
        """Parts across wires that have a right way round, in natural order, and the boards that they are on."""
        found = []
        for part in sorted(self.craft.parts, key=lambda part: natural(part.reference)):
            joints = part_joints(part, self.craft) if not part.dnp else []
            if any(is_turned(part, pin, contact) for pin, contact in joints):
                found.append((part.reference, {self.supplies.board(contact) for _, contact in joints}))
        return found

    def members(self, units: Iterable[str], but: Iterable[str] = ()) -> list[str]:
        """Boards that get power together, unit by unit."""
        ordered = sorted(units, key=natural)
        return [board for unit in ordered for board in self.supplies.members(unit) if board not in but]

    def limiter_with(self, members: Iterable[str] = ()) -> str:
        """What it does while lamps and the like are on."""
        loads = [*self.lit, *(board for board in members if self.is_load(board) and board not in self.lit)]
        return self.limiter.loaded(loads)

    def is_load(self, board: str) -> bool:
        return board in self.world.plain_loads & self.supplies.fed

    def light(self, members: Iterable[str]) -> None:
        """From here on these have power, whenever there is any."""
        self.lit |= dict.fromkeys(filter(self.is_load, members))

    def is_plugged(self, cable: Cable) -> bool:
        """Whether it can be unplugged, and is no pack's own."""
        own = any(mark in self._with_pack or self.is_pack_lead(mark) for mark in cable.leads)
        return self.supplies.pluggable(cable.leads) and not own

    @cached_property
    def _with_pack(self) -> frozenset[str]:
        """Leads over which a pack feeds its boards."""
        return frozenset(mark for joints in self.supplies.from_packs for joint in joints for mark in joint.leads)

    def coax(self) -> list[Cable]:
        return [cable for cable in self.craft.cables if any(self._is_coax(reference) for reference in cable.ends)]

    def _is_coax(self, reference: str) -> bool:
        family = self.craft.terminations[reference].family
        return family is not None and families.family(family).kind == "coax"

    def boards_of(self, cable: Cable) -> set[str]:
        return {self.craft.terminations[reference].board for reference in cable.ends}

    def is_pack_lead(self, mark: str) -> bool:
        return any(self.world.is_pack(key[0]) for key in self.world.made[mark].lead.ends)

    def stage(self, title: str) -> None:
        """The next one begins."""
        self.number += 1
        self.title = f"Stage {self.number}: {title}"

    def power(self, do: str, members: Sequence[str]) -> None:
        """A row with which these boards get power."""
        self.light(members)
        self.add(f"{do}{self.live_plugs(members)}", "", self.felt(members), self.limiter_with())

    def dead(self, do: str, expect: str) -> None:
        """A row while nothing gives power."""
        self.rows.append(PowerRow(self.title, do, "", expect, "", ""))

    def add(self, do: str, where: str, expect: str, limiter: str, volts: VoltsThere | None = None) -> None:
        otherwise = STOP if expect else ""
        self.rows.append(PowerRow(self.title, do, where, expect, limiter, otherwise, volts))


def marks_words(cables: Sequence[str]) -> str:
    return f"{plural(len(cables), 'cable')} {listed(list(cables), len(cables))}"
