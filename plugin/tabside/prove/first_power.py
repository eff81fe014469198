"""Power for the first time, stage by stage: what is plugged in, what is measured before it, what the limiter must do.

What is soldered to a board, or is a part's own and cannot be unplugged, gets its power with that board.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from tabside.analysis.joints import Joint
from tabside.facts import families
from tabside.model.craft import Cable, Contact, ContactKey, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.bench.switching import feeds_boards, switch_words, switches_of
from tabside.prove.bench.world import World
from tabside.prove.power.limiter import is_plugged, limiter_alone, limiter_in, limiter_out, meets
from tabside.prove.power.places import Places
from tabside.prove.power.rows import FEEL, OUT, OUT_AGAIN, STOP, FirstPower, PowerRow, VoltsThere
from tabside.prove.power.supplies import Supplies
from tabside.words.cautions import EMPTY_BELOW, PACKS_WITHIN, SUPPLY_LIMIT
from tabside.words.contacts import begun, listed, name_of, plural, termination_name
from tabside.words.part_joints import is_turned, part_joints
from tabside.words.parts import part_name

_Place = tuple[Termination, Contact, Contact]  # where to measure, its contact, and what feeds it
_Pair = tuple[Contact, Contact]  # what feeds, what is fed


def first_power(world: World) -> FirstPower:
    """All stages, from the drawing's packs and rails."""
    return _Stages(world).all()


class _Stages:
    def __init__(self, world: World) -> None:
        self._world = world
        self._craft = world.craft
        self._supplies = Supplies(world)
        self._rows: list[PowerRow] = []
        self._mating: dict[tuple[str, int | None], None] = {}
        self._number = 0
        self._plugged: set[str] = set()  # leads of cables that are in
        self._places = Places(self._supplies, self._plugged)
        self._limiter = self._places.limiter
        self._from = ""  # " from left pack": of several, what gives power in this stage
        self._on: list[str] = []  # switches that boards hang on, once they have been tried
        self._tried: list[str] = []  # others that have been on, and are off until the end
        self._lit: dict[str, None] = {}  # lamps and the like that are on whenever there is power
        self._rails: dict[str, str] = {}  # where it is seen that nothing is left: at full length, and in short
        self._charged: set[str] = set()  # parts across wires that have had their first power
        self._told: list[str] = []  # those that have been told at full length

    def all(self) -> FirstPower:
        powered = self._start()
        powered = self._cables(powered)
        self._rest()
        self._driven()
        self._last()
        takers = {board for joint in self._supplies.all for board in self._supplies.boards(joint)}
        never = tuple(sorted({board for board in takers if self._supplies.unit(board) not in powered}, key=natural))
        return FirstPower(tuple(self._rows), tuple(self._mating), never, self._limiter)

    def _cables(self, powered: set[str]) -> set[str]:
        while True:
            cable = next(iter(self._next(powered)), None)
            if cable is None:
                return powered
            powered |= self._feed(cable, powered)

    # --- words that come back -------------------------------------------------------------------------------------

    def _out(self) -> str:
        """Where it is seen that nothing is left: at full length the first time, later by the place of the red probe."""
        short = list(self._rails.values())
        if not short:
            return OUT
        if self._told == short:
            return f"{OUT_AGAIN} {'; and at '.join(short)}"
        self._told = short
        return f"{OUT} ({'; '.join(self._rails)})"

    @property
    def _limited(self) -> str:
        return self._with_switches(f"Limited power{self._from} on")

    @property
    def _still(self) -> str:
        return f"Limited power{self._from} still on"

    def _with_switches(self, on: str, more: Iterable[str] = ()) -> str:
        switches = list(dict.fromkeys([*self._on, *more]))
        return f"{on}, {self._shown(switches)} on" if switches else on

    def _shown(self, switches: Iterable[str]) -> str:
        return listed([switch_words(self._craft.terminations[reference]) for reference in switches], 12)

    # --- the pack -------------------------------------------------------------------------------------------------

    def _start(self) -> set[str]:
        for joints in self._supplies.from_packs:
            self._rails |= self._places.rail(self._supplies.own_and_met(joints[0])[1])
        self._all_out()
        self._antennas()
        for board in dict.fromkeys(self._usb_boards()):
            self._usb(board)
            self._rails |= self._places.pad_of(board)
        powered: set[str] = set()
        for joints in self._supplies.from_packs:
            new = self._pack_on(joints, powered)
            powered = self._cables(powered | new)
        if len(self._supplies.from_packs) > 1:
            self._from = f" from {'one' if self._supplies.parallel else 'every'} pack"
        return powered or self._without_pack()

    def _without_pack(self) -> set[str]:
        givers = self._givers() if not self._supplies.packs else []
        if not givers:
            self._stage("what feeds this craft is not drawn")
            through = " through a current limiter" if self._supplies.packs else ""
            first = f"Find out which board takes power first, and through what; power it alone{through}"
            self._add(first, "", FEEL, self._limiter.dark())
        for board in givers:
            self._stage(f"{board} from a bench supply")
            supply = f"Bench supply set to what {board} takes and to {SUPPLY_LIMIT}, on {board} alone"
            self._power(f"{self._out()}. {supply}", [board])
            self._soldered([board])
        return {self._supplies.unit(board) for board in givers}

    def _pack_on(self, fed: Sequence[Joint], powered: set[str]) -> set[str]:
        """One pack, or what comes on with it, through the limiter; its switches one after the other."""
        pairs = [self._supplies.own_and_met(joint) for joint in fed]
        alone = len(self._supplies.from_packs) == 1
        packs = self._supplies.packs if alone else list(dict.fromkeys(self._supplies.board(own) for own, _ in pairs))
        self._plugged |= {mark for joint in fed for mark in joint.leads}
        units = {self._supplies.unit(self._supplies.board(met)) for _, met in pairs}
        members = self._members(units, packs)
        self._from = "" if alone else f" from {listed(packs)}"
        self._stage(f"limited power{self._from} to {listed(members, 12)}")
        self._pack_rows(fed, packs, members)
        if not units <= powered:
            self._soldered(dict.fromkeys(self._supplies.board(met) for _, met in pairs))
        return {*units, *(self._supplies.unit(board) for board in packs)}

    def _pack_rows(self, fed: Sequence[Joint], packs: list[str], members: list[str]) -> None:
        others = [pack for pack in self._supplies.packs if pack not in packs]
        stays = f" {self._staying_out(others)}." if others else ""
        switches = self._supplies.switches(fed)
        off = " Every switch off." if switches_of(self._world) else ""
        self._limiter_metered(fed, packs, f"{self._out()}.{stays}{off}")
        how = limiter_in(self._supplies, fed, listed(packs), self._limiter)
        do = f"{self._out()}.{stays}{off} {how}. Limited power{self._from} on"
        at_once = [joint for joint in fed if not self._supplies.switches([joint])]
        if at_once:
            behind = self._supplies.fed - self._supplies.straight(at_once)
            self._volts_at(do, at_once, [member for member in members if member not in behind])
        else:
            expect = f"nothing gets power yet, {listed(switches)} being off; no smell, nothing warm"
            self._add(do, "", expect, self._limiter.nothing())
        on: set[str] = set()
        for switch in switches:
            on.add(switch)
            through = [(joint, self._supplies.switches([joint])) for joint in fed]
            now = [joint for joint, switched in through if switch in switched and on.issuperset(switched)]
            self._switch_on(switch, now, [member for member in members if member in self._supplies.straight(now)])

    def _limiter_metered(self, fed: Sequence[Joint], packs: list[str], begin: str) -> None:
        """Its output may be wired the wrong way round: that is seen while no board is on it."""
        own, met = self._supplies.own_and_met(fed[0])
        volts = self._places.promised(own, met)
        meets_here = meets(self._supplies, fed[0])
        red, black = name_of(self._craft, meets_here), self._places.black(meets_here)
        set_to = self._places.pack_words(own)
        soldered = not is_plugged(self._supplies, fed)
        on = f"black on {black}" if soldered else f"black on what will meet {black}"
        self._add(
            f"{begin} {limiter_alone(self._supplies, fed, listed(packs), self._limiter, set_to)}",
            f"DC volts at the limiter's output: red on what will meet {red}, {on}",
            self._places.expected(own, volts),
            self._limiter.nothing(),
            volts,
        )

    def _volts_at(self, do: str, joints: Sequence[Joint], members: Sequence[str], *, stays: bool = True) -> None:
        """Power comes; the volts of the pack where a probe gets in."""
        pairs = [self._supplies.own_and_met(joint) for joint in joints]
        at = [(own, met) for own, met in pairs if self._places.is_pad(met)]
        felt = self._felt(members)
        do += self._live_plugs(members)
        if stays:
            self._light(members)
        if not at:
            self._add(do, "", felt, self._limiter_with(members))
            return
        own, met = at[0]
        volts = self._places.promised(own, met)
        expect = f"{self._places.expected(own, volts)}; {felt}"
        where = f"DC volts at the pads: {self._places.pads(met for _, met in at)}"
        self._add(do, where, expect, self._limiter_with(members), volts)

    def _switch_on(self, switch: str, joints: Sequence[Joint], members: Sequence[str]) -> None:
        """A switch between a pack and boards, with the limiter in."""
        do = f"{self._still}: switch {self._shown([switch])} on"
        if not joints:
            self._add(do, "", "still nothing gets power; no smell, nothing warm", self._limiter.nothing())
            self._on.append(switch)
        elif self._stays_on(switch):
            self._volts_at(do, joints, members)
            self._on.append(switch)
        else:
            self._volts_at(f"{do}, and off again when you have seen it", joints, members, stays=False)
            self._tried.append(switch)

    def _stays_on(self, switch: str) -> bool:
        return feeds_boards(self._world, self._craft.terminations[switch])

    def _staying_out(self, packs: list[str]) -> str:
        live = "; what goes onto it is live meanwhile: cover it" if self._supplies.parallel else ""
        return f"{begun(listed(packs))} {'stays' if len(packs) == 1 else 'stay'} out{live}"

    def _felt(self, members: Sequence[str]) -> str:
        """What is seen and felt of boards that get power; of parts across their wires, too."""
        return f"{listed(list(members), 12)}: {FEEL}{self._turned(members)}" if members else FEEL

    def _live_plugs(self, members: Collection[str]) -> str:
        """Plugs that lie loose on cables soldered to these boards, while their own turn has not come."""
        loose = [
            cable.mark
            for cable in self._craft.cables
            if not self._plugged.intersection(cable.leads)
            and self._is_plugged(cable)
            and any(self._feeds(key, members) for mark in cable.leads for key in self._world.made[mark].lead.ends)
        ]
        are = "plug of {} is live from here: let it" if len(loose) == 1 else "plugs of {} are live from here: let them"
        return f"; the loose {are.format(_marks(loose))} touch nothing" if loose else ""

    def _feeds(self, key: ContactKey, members: Collection[str]) -> bool:
        """Whether it is a supply's pad of one of these boards."""
        termination = self._craft.terminations[key[0]]
        is_pad = termination.kind is Kind.PAD and termination.board in members
        return is_pad and self._craft.contact(key).role.is_supply

    def _turned(self, members: Collection[str]) -> str:
        """Capacitors and the like that lie across wires of these boards, at their first power."""
        found = []
        for part in sorted(self._craft.parts, key=lambda part: natural(part.reference)):
            joints = part_joints(part, self._craft) if not part.dnp and part.reference not in self._charged else []
            boards = {self._supplies.board(contact) for _, contact in joints}
            if boards.intersection(members) and any(is_turned(part, pin, contact) for pin, contact in joints):
                self._charged.add(part.reference)
                found.append(part_name(part.reference))
        return f"; keep your face away from {listed(found, 12)}: reversed it can burst" if found else ""

    def _members(self, units: Iterable[str], but: Iterable[str] = ()) -> list[str]:
        ordered = sorted(units, key=natural)
        return [board for unit in ordered for board in self._supplies.members(unit) if board not in but]

    def _limiter_with(self, members: Iterable[str] = ()) -> str:
        """What it does while lamps and the like are on."""
        loads = [*self._lit, *(board for board in members if self._is_load(board) and board not in self._lit)]
        return self._limiter.loaded(loads)

    def _is_load(self, board: str) -> bool:
        return board in self._world.plain_loads & self._supplies.fed

    def _light(self, members: Iterable[str]) -> None:
        """From here on these have power, whenever there is any."""
        self._lit |= dict.fromkeys(filter(self._is_load, members))

    def _all_out(self) -> None:
        """Each board gets its first power at its own stage: nothing that was plugged in before may bring it sooner."""
        coax = {cable.mark for cable in self._coax()}
        out = [cable.mark for cable in self._craft.cables if self._is_plugged(cable) and cable.mark not in coax]
        if not out:
            return
        self._stage("every plug out, before anything gets power")
        stays = "what is soldered stays" + (f", and the coax of {_marks(sorted(coax, key=natural))}" if coax else "")
        self._dead(
            f"{self._out()}. Take every plug out of every board: {_marks(out)}; {stays}. "
            "Each goes in at its own step below, and not before",
            f"no plug of {_marks(out)} is in a board",
        )

    def _is_plugged(self, cable: Cable) -> bool:
        """Whether it can be unplugged, and is no pack's own."""
        with_pack = {mark for joints in self._supplies.from_packs for joint in joints for mark in joint.leads}
        own = any(mark in with_pack or self._is_pack_lead(mark) for mark in cable.leads)
        return self._supplies.pluggable(cable.leads) and not own

    def _coax(self) -> list[Cable]:
        return [cable for cable in self._craft.cables if any(self._is_coax(reference) for reference in cable.ends)]

    def _antennas(self) -> None:
        """Before anything that may transmit gets power."""
        coax = self._coax()
        if coax:
            self._stage("antennas, before a transmitter gets power")
        for cable in coax:
            ends = listed([termination_name(self._craft, reference) for reference in cable.ends])
            self._dead(f"All power out, USB too. Cable {cable.mark} in, at both ends: {ends}", "seated at both ends")
            self._plugged |= set(cable.leads)

    def _is_coax(self, reference: str) -> bool:
        family = self._craft.terminations[reference].family
        return family is not None and families.family(family).kind == "coax"

    def _boards_of(self, cable: Cable) -> set[str]:
        return {self._craft.terminations[reference].board for reference in cable.ends}

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
        others = [member for member in self._supplies.members(self._supplies.unit(board)) if member != board]
        soldered = f"; {listed(others, 12)}, soldered to it, may get power with it" if others else ""
        antenna = " but its antenna's" if any(board in self._boards_of(cable) for cable in self._coax()) else ""
        alone = f"All other power out, no cable in {board}{antenna}{soldered}"
        usb = f"{alone}. USB in, from a supply or hub with a current limit"
        self._add(usb, "", f"{board} starts as its manual says; {FEEL}", "")

    def _givers(self) -> list[str]:
        """Boards that give a rail and are fed by none: where no pack is drawn."""
        board, joints = self._supplies.board, self._supplies.all
        gives = {board(contact) for joint in joints for contact in (joint.a, joint.b) if contact.gives}
        takes = {board(contact) for joint in joints for contact in (joint.a, joint.b) if contact.takes}
        return sorted(gives - takes or gives, key=natural)

    # --- what is soldered on --------------------------------------------------------------------------------------

    def _soldered(self, boards: Iterable[str]) -> None:
        """Volts at the pads of what got its power over solder; what is behind a switch is tried there."""
        for found in self._supplies.soldered_on(boards):
            switches = self._supplies.switches(joint for _, _, joint in found)
            at = [pair for near, far, _ in found if (pair := self._pad_of(near, far, switched=bool(switches)))]
            if switches:
                self._try_switch(switches, [self._supplies.board(far) for _, far, _ in found], at)
                continue
            on = self._with_switches(self._still)
            self._light(self._supplies.board(far) for _, far, _ in found)
            for (expect, volts), pads in self._by_volts(at).items():
                where = f"DC volts at the pads: {self._places.pads(pads)}"
                self._add(f"{on}: measure", where, expect, self._limiter_with(), volts)

    def _pad_of(self, near: Contact, far: Contact, *, switched: bool) -> tuple[Contact, Contact] | None:
        """Near contact, and the pad where it is measured: that of the board which is fed, else the one before."""
        if self._places.is_pad(far):
            return (near, far)
        return (near, near) if self._places.is_pad(near) and not switched else None

    def _by_volts(self, at: Iterable[_Pair]) -> dict[tuple[str, VoltsThere | None], list[Contact]]:
        groups: dict[tuple[str, VoltsThere | None], list[Contact]] = {}
        for near, pad in at:
            volts = self._places.promised(near, pad)
            groups.setdefault((self._places.expected(near, volts), volts), []).append(pad)
        return {key: list(dict.fromkeys(pads)) for key, pads in groups.items()}

    def _try_switch(self, switches: Sequence[str], boards: Sequence[str], at: Sequence[_Pair]) -> None:
        """Something behind a switch: a lamp, or boards that stay on from here."""
        members = list(dict.fromkeys(boards))
        stays = all(map(self._stays_on, switches))
        shown = self._shown(switches)
        back = "" if stays else ", and off again when you have seen it"
        do = f"{self._still}: switch {shown} on{back}"
        expect = f"{listed(members, 12)}: on as its maker says, {FEEL}{self._turned(members)}"
        where, volts = "", None
        if at:
            (words, volts), pads = next(iter(self._by_volts(at).items()))
            where, expect = f"DC volts at the pads: {self._places.pads(pads)}", f"{words}; {expect}"
        self._add(do, where, expect, self._limiter_with(members), volts)
        to = self._on if stays else self._tried
        to += [switch for switch in switches if switch not in to]
        if stays:
            self._light(members)

    # --- cable by cable -------------------------------------------------------------------------------------------

    def _next(self, powered: set[str]) -> Iterator[list[Joint]]:
        """Supplies of one cable, or of one part's own plug, from what has power to what has none.

        A board that gives what the powered one takes gets its own power over another cable, which comes first.
        """
        by_cable: dict[str, list[Joint]] = {}
        for joint in self._supplies.all:
            units = [self._supplies.unit(board) for board in self._supplies.boards(joint)]
            if (units[0] in powered) != (units[1] in powered) and not self._supplies.has_pack(joint):
                by_cable.setdefault(self._cable(joint) or joint.leads[0], []).append(joint)
        for name in sorted(by_cable, key=lambda name: (not self._forward(by_cable[name], powered), natural(name))):
            yield by_cable[name]

    def _forward(self, joints: Sequence[Joint], powered: set[str]) -> list[_Pair]:
        """Near and far contact of those that bring power on, and do not give it back to what is powered already."""
        pairs = [self._from_power(joint, powered) for joint in joints]
        return [(near, far) for near, far in pairs if near.gives or near.either or not far.gives]

    def _cable(self, joint: Joint) -> str | None:
        marks = (self._world.made[mark].lead.cable for mark in joint.leads)
        return next((mark for mark in marks if mark), None)

    def _feed(self, joints: Sequence[Joint], powered: set[str]) -> set[str]:
        pairs = self._forward(joints, powered) or [self._from_power(joint, powered) for joint in joints]
        new = {self._supplies.unit(self._supplies.board(far)) for _, far in pairs}
        members = self._members(new)
        cable = self._cable(joints[0])
        shown = f"cable {cable}" if cable is not None else f"wires {joints[0].leads[0]}"
        self._stage(f"{shown} to {listed(members, 12)}")
        places = self._measuring_places(pairs)
        switches = self._supplies.switches(joints)
        on = self._with_switches(f"Limited power{self._from} on", switches)
        ready = f"{self._out()}. {self._ready(shown, pairs, places)} {on}"
        for expect, alike in self._alike(places).items():
            self._measure(ready, expect, alike)
            ready = f"{self._still}: measure"
        self._plugged |= {mark for joint in joints for mark in joint.leads}
        self._power(f"{self._out()}. Spare plug out, {shown} in for good. {on}", members)
        self._on += [switch for switch in switches if self._stays_on(switch) and switch not in self._on]
        self._soldered(dict.fromkeys(self._supplies.board(far) for _, far in pairs))
        return new

    def _from_power(self, joint: Joint, powered: set[str]) -> _Pair:
        near = self._supplies.unit(self._supplies.board(joint.a)) in powered
        return (joint.a, joint.b) if near else (joint.b, joint.a)

    def _measuring_places(self, pairs: Sequence[_Pair]) -> list[_Place]:
        """The last place that can be opened before the board without power: its cable plug, else the one before."""
        places = []
        for near, far in pairs:
            there, here = (self._craft.terminations[end.termination] for end in (far, near))
            at = (there, far) if there.kind is Kind.RECEPTACLE else (here, near)
            places.append((*at, near))
            if at[0].family is not None:
                self._mating[(at[0].family, at[0].ways)] = None
        return places

    def _ready(self, shown: str, pairs: Sequence[_Pair], places: Sequence[_Place]) -> str:
        """How the supply is opened where it is measured."""
        feeding = self._craft.terminations[pairs[0][0].termination]
        name, soldered = termination_name(self._craft, feeding.reference), feeding.kind is Kind.PAD
        if places[0][0].reference == feeding.reference:
            if soldered:
                return f"Measure at the pads of {name}, by their printed names; the other end of {shown} is open."
            return f"A spare mating plug with pigtails, tagged by contact, ends apart, into {name}; {shown} stays out."
        ends = dict.fromkeys(termination.reference for termination, _, _ in places)
        loose = listed([termination_name(self._craft, reference) for reference in ends])
        begin = f"{begun(shown)} is soldered to {name}" if soldered else f"Plug {shown} into {name}"
        spare = "a spare mating connector with pigtails, tagged by contact, ends apart"
        return f"{begin}; {spare}, onto its end for {loose}, no board."

    def _alike(self, places: Sequence[_Place]) -> dict[str, list[_Place]]:
        """Places by what is expected there: doubled supplies are one row."""
        groups: dict[str, list[_Place]] = {}
        for place in places:
            _, contact, near = place
            expect = self._places.expected(near, self._places.promised(near, contact))
            groups.setdefault(expect, []).append(place)
        return groups

    def _measure(self, ready: str, expect: str, places: Sequence[_Place]) -> None:
        place, contact, near = places[0]
        loose = place.kind is Kind.RECEPTACLE and place.reference != near.termination
        black = self._places.black_of_live(contact, self._supplies.board(near), loose=loose)
        reds = list(dict.fromkeys(name_of(self._craft, key) for _, key, _ in places))
        red = f"{', then on '.join(reds)}; black stays on" if len(reds) > 1 else f"{reds[0]}, black on"
        at = "pads" if place.kind is Kind.PAD else "pigtails"
        where = f"DC volts at the {at}: red on {red} {black}"
        self._add(ready, where, expect, self._limiter_with(), self._places.promised(near, contact))

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
            self._power(f"{self._out()}. Plug cable {mark} in. {self._limited}", [])

    def _is_pack_lead(self, mark: str) -> bool:
        return any(self._world.is_pack(key[0]) for key in self._world.made[mark].lead.ends)

    def _driven(self) -> None:
        """Motors, and what else a board drives, while the limiter is in."""
        driven = self._supplies.driven()
        if not driven:
            return
        motors = all(sure for _, sure in driven)
        self._stage("motors, one by one" if motors else "motors and what else is driven, one by one")
        begin = f"{self._out()}. Propellers off, wheels and tracks off the ground, hands clear. {self._limited}: "
        for board, sure in driven:
            expect = f"{board} alone turns" if sure else f"{board} alone turns; what is no motor does what it is for"
            way = f"if it turns the wrong way: all power out, rail below {EMPTY_BELOW}, then swap two of its wires"
            do = f"{begin}let {board} turn slowly, no load"
            self._add(do, "", f"{expect}; {way}, or set it in the firmware", self._limiter.turning())
            begin = f"{self._still}: "

    def _last(self) -> None:
        self._stage("without the limiter")
        packs = "Packs" if len(self._supplies.packs) > 1 else begun("".join(self._supplies.packs))
        equal = f" Packs within {PACKS_WITHIN} of each other by the meter." if self._supplies.parallel else ""
        home = f"Every plug fully home, antennas on, hands clear.{equal}"
        away = limiter_out(self._supplies, self._limiter)
        if self._limiter.out:
            out = f"{self._out()}. {home} {self._with_switches(away, self._tried)}"
        else:
            on = self._with_switches(f"{packs or 'What feeds the craft'} on", self._tried)
            out = f"{self._out()}. {away}. {home} {on}"
        self._add(out, "", f"all as before; {FEEL}; feel again after the first minute", "")
        self._add(
            "Propellers on, wheels and tracks on the ground, where the craft has them: last of all, in the open",
            "",
            "as the maker says",
            "",
        )

    # --- rows -----------------------------------------------------------------------------------------------------

    def _stage(self, title: str) -> None:
        self._number += 1
        self._title = f"Stage {self._number}: {title}"

    def _power(self, do: str, members: Sequence[str]) -> None:
        self._light(members)
        self._add(f"{do}{self._live_plugs(members)}", "", self._felt(members), self._limiter_with())

    def _dead(self, do: str, expect: str) -> None:
        """A row while nothing gives power."""
        self._rows.append(PowerRow(self._title, do, "", expect, "", ""))

    def _add(self, do: str, where: str, expect: str, limiter: str, volts: VoltsThere | None = None) -> None:
        otherwise = STOP if expect else ""
        self._rows.append(PowerRow(self._title, do, where, expect, limiter, otherwise, volts))


def _marks(cables: Sequence[str]) -> str:
    return f"{plural(len(cables), 'cable')} {listed(list(cables), len(cables))}"


def needs_words(power: FirstPower, family_words: Mapping[str, str]) -> tuple[str, ...]:
    """What must lie on the bench for it."""
    plugs = [
        f"{family_words.get(family, family)}, {ways}-way" if ways else family_words.get(family, family)
        for family, ways in power.mating_plugs
    ]
    said = [power.limiter.kinds(), f"Needed: a meter, and a current limiter: {power.limiter.needed()}."]
    if plugs:
        said.append(f"Needed: a spare mating connector with pigtails for each of: {listed(plugs, 40)}.")
    if power.never_powered:
        said.append(f"No drawn supply reaches {listed(list(power.never_powered), 40)}: no stage powers them.")
    return tuple(said)
