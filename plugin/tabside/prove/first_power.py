"""Power for the first time, stage by stage: what is plugged in, what is measured before it, what the limiter must do.

What is soldered to a board, or is a part's own and cannot be unplugged, gets its power with that board.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property

from msgspec import Struct

from tabside.analysis.joints import Joint, joints_of, letters_of
from tabside.analysis.lead_ends import EndKind
from tabside.facts import families
from tabside.model.craft import Contact, Kind, Lead, Termination
from tabside.model.natural import natural
from tabside.model.roles import RoleClass, Volts
from tabside.prove.bench.world import PLUGS, SWITCHES, World
from tabside.wiring.terminations.part_kinds import FUSES
from tabside.words.contacts import listed, name_of, termination_name

PACK_OUT = "Pack out, USB out; wait until the rail is below 1 V"
DARK = "the limiter stays dark, or lights for a moment and goes out"
FEEL = "no smell, nothing warm to the finger after ten seconds"
STOP = "Pack out at once. Do not try again with the limiter taken out: find the fault first, with the last plug pulled"
_Place = tuple[Termination, Contact, Contact]  # where to measure, its contact, and what feeds it
_MARGIN = 0.05  # of a regulated rail whose board states no range: common practice, no source


class PowerRow(Struct, frozen=True):
    """One thing to do, and what must be seen."""

    stage: str
    do: str  # plug in, or pack on
    where: str  # red and black; "" where nothing is measured
    expect: str
    limiter: str  # what the limiter must do; "" while there is no power
    otherwise: str
    volts: tuple[float, float] | None = None


class FirstPower(Struct, frozen=True):
    rows: tuple[PowerRow, ...]
    mating_plugs: tuple[tuple[str, int | None], ...]  # family and ways of spare plugs with pigtails
    never_powered: tuple[str, ...]  # boards that no drawn supply reaches


def first_power(world: World) -> FirstPower:
    """All stages, from the drawing's packs and rails."""
    return _Stages(world).all()


class _Stages:
    def __init__(self, world: World) -> None:
        self._world = world
        self._craft = world.craft
        self._pack_volts = world.pack
        self._rows: list[PowerRow] = []
        self._mating: dict[tuple[str, int | None], None] = {}
        self._number = 0
        self._plugged: set[str] = set()  # leads of cables that are in
        self._switched: list[str] = []  # switches that are on from now on

    def all(self) -> FirstPower:
        powered = self._start()
        while True:
            cable = next(iter(self._next(powered)), None)
            if cable is None:
                break
            powered |= self._feed(cable, powered)
        self._rest()
        self._motors()
        self._last()
        takers = {board for joint in self._supplies for board in self._boards(joint)}
        never = tuple(sorted({board for board in takers if self._unit(board) not in powered}, key=natural))
        return FirstPower(tuple(self._rows), tuple(self._mating), never)

    # --- what hangs together --------------------------------------------------------------------------------------

    @cached_property
    def _supplies(self) -> list[Joint]:
        return [joint for joint in joints_of(self._craft) if joint.a.role.is_supply and joint.b.role.is_supply]

    @cached_property
    def _units(self) -> dict[str, str]:
        """Board -> the first of those that solder, or a part's own leads, hold together."""
        first = {each.board: each.board for each in self._craft.terminations.values()}
        for joint in joints_of(self._craft):
            if not self._pluggable(joint.leads) and not self._has_pack(joint):
                old, new = (first[board] for board in self._boards(joint))
                first = {board: new if unit == old else unit for board, unit in first.items()}
        return first

    def _unit(self, board: str) -> str:
        return self._units[board]

    def _boards(self, joint: Joint) -> tuple[str, str]:
        return (self._board(joint.a), self._board(joint.b))

    def _board(self, contact: Contact) -> str:
        return self._craft.terminations[contact.termination].board

    def _has_pack(self, joint: Joint) -> bool:
        return self._world.is_pack(joint.a.termination) or self._world.is_pack(joint.b.termination)

    def _pluggable(self, leads: Iterable[str]) -> bool:
        kinds = {end.kind for mark in leads for end in self._world.made[mark].ends}
        return bool(kinds & {*PLUGS, EndKind.MATED})

    def _members(self, unit: str) -> list[str]:
        boards = dict.fromkeys(each.board for each in self._craft.terminations.values())
        return [board for board in boards if self._unit(board) == unit and self._is_board(board)]

    def _is_board(self, board: str) -> bool:
        places = [each for each in self._craft.terminations.values() if each.board == board]
        return any(each.kind not in (Kind.SPLICE, Kind.INLINE) for each in places)

    # --- the pack -------------------------------------------------------------------------------------------------

    def _start(self) -> set[str]:
        self._antennas()
        for board in dict.fromkeys(self._usb_boards()):
            self._usb(board)
        fed = [joint for joint in self._supplies if self._has_pack(joint)]
        if fed:
            return self._pack_on(fed)
        givers = self._givers()
        if not givers:
            self._stage("what feeds this craft is not drawn")
            self._add("Find out which board takes power first, and through what; power it alone", "", FEEL, DARK)
        for board in givers:
            self._stage(f"{board} from a bench supply")
            self._power(f"{PACK_OUT}. Bench supply at what {board} takes, its limit low, on {board} alone", [board])
        return {self._unit(board) for board in givers}

    def _pack_on(self, fed: Sequence[Joint]) -> set[str]:
        boards: dict[str, None] = {}
        packs: dict[str, None] = {}
        for joint in fed:
            own, met = (joint.a, joint.b) if self._world.is_pack(joint.a.termination) else (joint.b, joint.a)
            packs[self._board(own)] = None
            boards[self._board(met)] = None
            self._plugged |= set(joint.leads)
        units = {self._unit(board) for board in boards}
        members = [board for unit in units for board in self._members(unit) if board not in packs]
        self._stage(f"{listed(list(packs))} through the limiter to {listed(members, 12)}")
        inside = {*units, *(self._unit(board) for board in packs)}
        behind = self._behind_switches(packs, inside)
        waiting = {board for boards in behind.values() for board in boards}
        cold = waiting >= set(boards)
        self._power(
            f"{PACK_OUT}. No other cable is in {listed(members, 12)}; every switch off. "
            f"{self._limiter(fed, listed(list(packs)))}. Pack on",
            [] if cold else [board for board in members if board not in waiting],
        )
        self._switch_on(behind)
        return inside

    def _behind_switches(self, sources: Iterable[str], units: set[str]) -> dict[str, list[str]]:
        """Each in-line switch among these boards -> those that it gives their supply, one after the other."""
        joints = [joint for joint in self._supplies if {self._unit(board) for board in self._boards(joint)} <= units]
        off = dict.fromkeys(switch for joint in joints for switch in self._switches_of(joint))
        hot, found = self._fed(set(sources), joints, set(off)), {}
        for switch in sorted(off, key=natural):
            del off[switch]
            more = self._fed(hot, joints, set(off))
            found[switch] = sorted(more - hot, key=natural)
            hot = more
        return found

    def _fed(self, sources: set[str], joints: Iterable[Joint], off: set[str]) -> set[str]:
        """Boards that these feed, with some switches off."""
        hot, closed = set(sources), [joint for joint in joints if not off & set(self._switches_of(joint))]
        while (
            more := {board for joint in closed if hot & set(self._boards(joint)) for board in self._boards(joint)} - hot
        ):
            hot |= more
        return hot

    def _switch_on(self, behind: Mapping[str, Sequence[str]]) -> None:
        """One after the other, through the limiter: else they get power for the first time without it."""
        for switch, boards in behind.items():
            self._power(f"The pack still on through the limiter: switch {switch} on", boards)
            self._switched.append(switch)

    def _limiter(self, fed: Sequence[Joint], packs: str) -> str:
        """Where it goes: between two plugs, in place of a fuse, or where the last joint of a soldered pack will be."""
        ticked = "on the continuity sheet are ticked"
        if any(self._pluggable(joint.leads) for joint in fed):
            return f"Limiter into the lead of {packs}, whose volts rows {ticked}"
        met = dict.fromkeys(key[0] for joint in fed for mark in joint.leads for key in self._craft_lead[mark].ends)
        fuses = [reference for reference in met if letters_of(reference) in FUSES]
        if fuses:
            return f"Limiter in place of the fuse in {listed(fuses)}; the volts rows of {packs} {ticked}"
        return (
            f"Limiter between the pad and the bare end of the plus lead of {packs}, before that joint is soldered; its "
            f"volts rows {ticked}"
        )

    @cached_property
    def _craft_lead(self) -> dict[str, Lead]:
        return {lead.mark: lead for lead in self._craft.leads}

    def _antennas(self) -> None:
        """Before anything that may transmit gets power."""
        coax = [cable for cable in self._craft.cables if any(self._is_coax(reference) for reference in cable.ends)]
        if coax:
            self._stage("antennas, before a transmitter gets power")
        for cable in coax:
            ends = listed([termination_name(self._craft, reference) for reference in cable.ends])
            self._add(f"Pack out, USB out. Cable {cable.mark} in, at both ends: {ends}", "", "seated at both ends", "")
            self._plugged |= set(cable.leads)

    def _is_coax(self, reference: str) -> bool:
        family = self._craft.terminations[reference].family
        return family is not None and families.family(family).kind == "coax"

    def _usb_boards(self) -> Iterator[str]:
        """Boards that say that USB feeds them: USB's lines and a supply that is taken at one place."""
        for termination in self._craft.terminations.values():
            lines = {contact.role.name for contact in termination.contacts}
            supplies = [contact for contact in termination.contacts if contact.role.is_supply]
            takes = any(contact.takes or contact.either for contact in supplies)
            if {"usb_dm", "usb_dp"} & lines and takes:
                yield termination.board

    def _usb(self, board: str) -> None:
        self._stage(f"{board} from USB alone")
        usb = f"Pack out, nothing else in {board}. USB in, from a supply or hub with a current limit"
        self._add(usb, "", f"{board} starts as its manual says; {FEEL}", "")

    def _givers(self) -> list[str]:
        """Boards that give a rail and are fed by none: where no pack is drawn."""
        gives = {self._board(each) for joint in self._supplies for each in (joint.a, joint.b) if each.gives}
        takes = {self._board(each) for joint in self._supplies for each in (joint.a, joint.b) if each.takes}
        return sorted(gives - takes or gives, key=natural)

    # --- cable by cable -------------------------------------------------------------------------------------------

    def _next(self, powered: set[str]) -> Iterator[list[Joint]]:
        """Supplies of one cable, or of one part's own plug, from what has power to what has none."""
        by_cable: dict[str, list[Joint]] = {}
        for joint in self._supplies:
            units = [self._unit(board) for board in self._boards(joint)]
            if (units[0] in powered) != (units[1] in powered):
                by_cable.setdefault(self._cable(joint), []).append(joint)
        for name in sorted(by_cable, key=natural):
            yield by_cable[name]

    def _cable(self, joint: Joint) -> str:
        marks = [self._world.made[mark].lead.cable for mark in joint.leads]
        return next((mark for mark in marks if mark), joint.leads[0])

    def _feed(self, joints: Sequence[Joint], powered: set[str]) -> set[str]:
        pairs = [self._from_power(joint, powered) for joint in joints]
        new = {self._unit(self._board(far)) for _, far in pairs}
        members = [board for unit in sorted(new, key=natural) for board in self._members(unit)]
        name = self._cable(joints[0])
        shown = f"cable {name}" if name.startswith("C") else f"wires {name}"
        self._stage(f"{shown} to {listed(members, 12)}")
        places = self._measuring_places(pairs)
        ready = f"{PACK_OUT}. {self._ready(shown, pairs, places)} Pack on through the limiter{self._on(joints)}"
        for expect, alike in self._alike(places).items():
            self._measure(ready, expect, alike)
            ready = "The same"
        on = self._on(joints)
        self._power(f"{PACK_OUT}. Spare plug out, {shown} in for good. Pack on through the limiter{on}", members)
        self._switched += [part for joint in joints for part in self._switches_of(joint)]
        self._plugged |= {mark for joint in joints for mark in joint.leads}
        return new

    def _from_power(self, joint: Joint, powered: set[str]) -> tuple[Contact, Contact]:
        near = self._unit(self._board(joint.a)) in powered
        return (joint.a, joint.b) if near else (joint.b, joint.a)

    def _measuring_places(self, pairs: Sequence[tuple[Contact, Contact]]) -> list[_Place]:
        """The last place that can be opened before the board without power: its cable plug, else the one before."""
        places = []
        for near, far in pairs:
            there, here = (self._craft.terminations[each.termination] for each in (far, near))
            at = (there, far) if there.kind is Kind.RECEPTACLE else (here, near)
            places.append((*at, near))
            if at[0].family is not None:
                self._mating[(at[0].family, at[0].ways)] = None
        return places

    def _ready(self, shown: str, pairs: Sequence[tuple[Contact, Contact]], places: Sequence[_Place]) -> str:
        """How the supply is opened where it is measured."""
        feeding = self._craft.terminations[pairs[0][0].termination]
        name, soldered = termination_name(self._craft, feeding.reference), feeding.kind is Kind.PAD
        if places[0][0].reference == feeding.reference:
            if soldered:
                return f"Measure at the pads of {name}, by their printed names; the other end of {shown} is open."
            return f"A spare mating plug with pigtails into {name}; {shown} stays out."
        ends = dict.fromkeys(termination.reference for termination, _, _ in places)
        loose = listed([termination_name(self._craft, reference) for reference in ends])
        begin = f"{shown[0].upper()}{shown[1:]} is soldered to {name}" if soldered else f"Plug {shown} into {name}"
        return f"{begin}; a spare mating connector with pigtails onto its end for {loose}, no board."

    def _alike(self, places: Sequence[_Place]) -> dict[str, list[_Place]]:
        """Places by what is expected there: doubled supplies are one row."""
        groups: dict[str, list[_Place]] = {}
        for place in places:
            _, contact, near = place
            groups.setdefault(self._volts_words(near, self._promised(near, contact)), []).append(place)
        return groups

    def _measure(self, ready: str, expect: str, places: Sequence[_Place]) -> None:
        place, contact, near = places[0]
        ground = next((each for each in place.contacts if each.role.is_ground), None)
        black = name_of(self._craft, ground) if ground else f"a known ground of {self._board(near)}"
        reds = listed(list(dict.fromkeys(name_of(self._craft, each) for _, each, _ in places)), 12)
        where = f"DC volts at the pigtails: red on {reds}, black on {black}"
        self._add(ready, where, expect, DARK, self._promised(near, contact))

    def _switches_of(self, joint: Joint) -> list[str]:
        inline = [part for part in joint.through if self._craft.terminations[part].kind is Kind.INLINE]
        return [part for part in inline if letters_of(part) in SWITCHES]

    def _on(self, joints: Iterable[Joint] = ()) -> str:
        """Which switches are on with the pack."""
        parts = dict.fromkeys([*self._switched, *(part for joint in joints for part in self._switches_of(joint))])
        return f", {listed(list(parts), 12)} on" if parts else ""

    def _promised(self, near: Contact, far: Contact) -> tuple[float, float] | None:
        stated = [rail.volts for rail in near.gives if rail.volts is not None and not rail.battery]
        volts = stated[0] if stated else near.role.volts
        if volts is None and (near.role.battery or any(rail.battery for rail in near.gives)):
            volts = self._pack_volts
            return (volts.low, volts.high) if volts else None
        if volts is None:
            volts = far.role.volts
        return _with_margin(volts) if volts else None

    def _volts_words(self, near: Contact, volts: tuple[float, float] | None) -> str:
        board = self._board(near)
        if volts is None:
            return f"what the maker of {board} promises there (the drawing does not say), no minus sign"
        if near.role.battery or any(rail.battery for rail in near.gives):
            return f"the pack's volts less what the limiter drops, at most {volts[1]:g} V, no minus sign"
        return f"{volts[0]:g} to {volts[1]:g} V, no minus sign; of a rail that {board} switches, once it is enabled"

    # --- the end --------------------------------------------------------------------------------------------------

    def _rest(self) -> None:
        left = [
            cable.mark
            for cable in self._craft.cables
            if not set(cable.leads) & self._plugged and not any(self._is_pack_lead(mark) for mark in cable.leads)
        ]
        if left:
            self._stage("cables that bring no supply to a new board, one at a time")
        for mark in left:
            self._power(f"{PACK_OUT}. Plug cable {mark} in. Pack on through the limiter{self._on()}", [])

    def _is_pack_lead(self, mark: str) -> bool:
        return any(self._world.is_pack(key[0]) for key in self._world.made[mark].lead.ends)

    def _motors(self) -> None:
        motors = [
            each.board
            for each in self._craft.terminations.values()
            if each.kind is Kind.CAPTIVE and any(contact.role.cls is RoleClass.PHASE for contact in each.contacts)
        ]
        if not motors:
            return
        self._stage("motors, one by one")
        for motor in dict.fromkeys(motors):
            self._add(
                f"Propellers off, wheels off the ground, hands clear. Limiter still in: turn {motor} slowly, no load",
                "",
                f"{motor} alone turns, in the drawn direction; else pack out, rail below 1 V, then swap any two of its"
                " wires",
                "may glow a little while it turns, not brightly",
            )

    def _last(self) -> None:
        self._stage("without the limiter")
        out = f"{PACK_OUT}. Take the limiter out. Every plug fully home, antennas on, hands clear. Pack on{self._on()}"
        self._add(out, "", f"all as before; {FEEL}; feel again after the first minute", "")
        self._add("Propellers on, wheels on the ground: last of all, in the open", "", "as the maker says", "")

    # --- rows -----------------------------------------------------------------------------------------------------

    def _stage(self, title: str) -> None:
        self._number += 1
        self._title = f"Stage {self._number}: {title}"

    def _power(self, do: str, members: Sequence[str]) -> None:
        self._add(do, "", f"{listed(list(members), 12)}: {FEEL}" if members else FEEL, DARK)

    def _add(self, do: str, where: str, expect: str, limiter: str, volts: tuple[float, float] | None = None) -> None:
        otherwise = f"{STOP}." if expect else ""
        self._rows.append(PowerRow(self._title, do, where, expect, limiter, otherwise, volts))


def _with_margin(volts: Volts) -> tuple[float, float]:
    if volts.low != volts.high:
        return (volts.low, volts.high)
    return (round(volts.low * (1 - _MARGIN), 2), round(volts.high * (1 + _MARGIN), 2))


def needs_words(power: FirstPower, family_words: Mapping[str, str]) -> tuple[str, ...]:
    """What must lie on the bench for it."""
    plugs = [
        f"{family_words.get(family, family)}, {ways}-way" if ways else family_words.get(family, family)
        for family, ways in power.mating_plugs
    ]
    said = ["Needed: a current limiter (a smoke stopper, or a bench supply at a low limit), a meter."]
    if plugs:
        said.append(f"Needed: a spare mating connector with pigtails for each of: {listed(plugs, 40)}.")
    if power.never_powered:
        said.append(f"No drawn supply reaches {listed(list(power.never_powered), 40)}: no stage powers them.")
    return tuple(said)
