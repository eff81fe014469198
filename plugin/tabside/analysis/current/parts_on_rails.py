"""Parts between two nets, seen from the supplies that they meet: which way round they stand, what they short."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.current.part_ratings import read_rating
from tabside.analysis.joined.joints import is_coil, letters_of, members_of, runs_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.diodes import (
    ANODE,
    CATHODE,
    diodes_in_line,
    has_poles,
    pole_of,
    reached,
    turned_round,
    ways_through,
)
from tabside.analysis.supplies import gives_only
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, Craft, Kind, Part, Termination
from tabside.model.groups import Groups
from tabside.model.roles import Role, RoleClass, Volts
from tabside.wiring.terminations.part_kinds import FUSES

DIODES = frozenset(("D", "TVS", "Z", "ZD", "CR", "VD"))
_ZERO_OHM = r"(?i:0+(?:[.,]0+)?\s*(?:R|ohm|Ω)?)"
_LIGHT = r"(?i:LED|lamp|light)"
_LIGHT_COLOUR = r"(?i:(?:red|green|blue|white|yellow|amber|orange)\b)"
_LIMITERS = FUSES | {"R", "SW", "S"}
_POLARISED = re.compile(r"polari[sz]ed|\bCP\b|CP_|_CP|electrolytic|tantal", re.IGNORECASE)


class Across(Struct, frozen=True):
    """A part with two pins, one on a supply, the other on ground."""

    part: Part
    on_supply: tuple[str, str]  # number and name of the pin
    on_ground: tuple[str, str]
    supply: Contact | None  # that names the supply, or is fed by it; None: a power symbol says it
    reach_v: float | None  # the most that the supply reaches, None when nothing says it
    sure_v: float  # of that, what is not from memory
    reach_words: str


class Barrier(Struct, frozen=True):
    """A diode in a run that lets no current through to what it should feed."""

    part: Termination
    source: Contact  # beyond its cathode
    kept_dark: Contact  # before its anode; where it back-feeds, the source there
    back_feeds: bool  # another source stands before its anode and is let into the first


Against = tuple[Contact, Contact, bool]  # as in Barrier


def parts_across(judgement: Judgement) -> Iterator[Across]:
    """Fitted parts of two pins between a supply and ground."""
    craft = judgement.craft
    contacts = _contacts_over_splices(craft)
    for part in craft.parts:
        if part.dnp or len(part.pins) != 2:
            continue
        roles = [_roles_on(contacts.get(pin.net_id, ()), craft.net_names.get(pin.net_id, ())) for pin in part.pins]
        for supply, ground in ((0, 1), (1, 0)):
            if not (_only(roles[supply], RoleClass.SUPPLY) and _only(roles[ground], RoleClass.GROUND)):
                continue
            on_net = contacts.get(part.pins[supply].net_id, [])
            reach, sure, words = _reach(judgement, on_net, roles[supply])
            yield Across(
                part,
                (part.pins[supply].number, part.pins[supply].name),
                (part.pins[ground].number, part.pins[ground].name),
                next((contact for contact in on_net if contact.role.is_supply), None),
                reach,
                sure,
                words,
            )


def _contacts_over_splices(craft: Craft) -> dict[int, list[Contact]]:
    """Net -> what stands on it, and on the other nets of its splices; a splice itself where nothing else stands."""
    joints: Groups[int] = Groups()
    on_net: dict[int, list[Contact]] = {}
    for termination in craft.terminations.values():
        nets = [contact.net_id for contact in termination.contacts]
        for contact in termination.contacts:
            on_net.setdefault(contact.net_id, []).append(contact)
        for net in nets[1:] if termination.kind is Kind.SPLICE else ():
            joints.join(nets[0], net)
    found: dict[int, list[Contact]] = {}
    for net, contacts in on_net.items():
        found.setdefault(joints.root(net), []).extend(contacts)
    splices = {termination.reference for termination in craft.terminations.values() if termination.kind is Kind.SPLICE}
    boards = {root: [c for c in contacts if c.termination not in splices] for root, contacts in found.items()}
    return {net: boards[joints.root(net)] or found[joints.root(net)] for net in on_net}


def _roles_on(contacts: Iterable[Contact], names: tuple[str, ...]) -> list[Role]:
    roles = [contact.role for contact in contacts] or [read_label(name) for name in names]
    return [role for role in roles if role.judged]


def _only(roles: list[Role], cls: RoleClass) -> bool:
    return bool(roles) and all(role.cls is cls for role in roles)


def _reach(judgement: Judgement, contacts: list[Contact], roles: list[Role]) -> tuple[float | None, float, str]:
    """The most volts on a supply, the most that is sure, and what says so: the battery, or what gives the rail."""
    found: list[tuple[Volts, str]] = []
    on_run = {judgement.whole_runs[contact.net_id] for contact in contacts}
    beyond = [member for number in on_run for member in judgement.whole_members.get(number, ())]
    for contact in (*contacts, *beyond):
        for rail in contact.gives:
            if rail.volts is not None:
                found.append((rail.volts, "battery" if rail.battery else "supply"))
        if contact.role.volts is not None and not contact.takes:
            found.append((contact.role.volts, "battery" if contact.role.battery else "supply"))
        pack = judgement.packs.reach_of(contact)
        if pack is not None:
            found.append((pack, "battery"))
    battery = any(contact.role.battery for contact in (*contacts, *beyond)) or any(role.battery for role in roles)
    if battery and judgement.pack is not None:
        found.append((_perhaps_stacked(judgement, on_run, judgement.pack), "battery"))
    if not contacts:
        found += [(role.volts, "supply") for role in roles if role.volts is not None]
    if not found:
        return None, 0.0, ""
    highest, words = max(found, key=lambda rail: (rail[0].high, rail[1]))
    return highest.high, max(volts.sure_high for volts, _ in found), words


def reach_at(judgement: Judgement, contact: Contact) -> tuple[float | None, str]:
    """The most volts that stand at a contact over fuses and switches, and what says so; None when nothing does."""
    on_run = judgement.on_whole_run(contact.net_id)
    feeding = [other for other in on_run if other.role.is_supply and not other.takes]
    if not feeding:
        return None, ""
    high, _, words = _reach(judgement, feeding, [other.role for other in feeding])
    return high, words


def _perhaps_stacked(judgement: Judgement, runs: Iterable[int], pack: Volts) -> Volts:
    """What packs in series reach when the craft file's battery is each of them: that is not sure."""
    many = max((len(judgement.packs.unsaid.get(judgement.whole_rails[run], ())) for run in runs), default=0)
    return replace(pack, high=round(many * pack.high, 3), unsure_above=pack.sure_high) if many else pack


def is_light(part: Part) -> bool:
    return bool(re.search(_LIGHT, f"{part.lib_id} {part.value} {part.footprint}"))


def shorts(across: Across) -> str:
    """Why a part across a supply is a short for it; "" when it is none."""
    kind = letters_of(across.part.reference)
    if kind in ("L", "FB"):
        return "a coil is a short for direct current"
    if kind == "R" and re.fullmatch(_ZERO_OHM, across.part.value.strip()):
        return "a resistor of 0 ohm is a short"
    if kind in DIODES and (pole_of(across.on_supply[1]), pole_of(across.on_ground[1])) == (ANODE, CATHODE):
        if is_light(across.part):
            return ""
        return "its anode is on the supply and its cathode on ground: it conducts"
    return ""


def is_turned(across: Across) -> bool:
    """Whether a polarised capacitor has its plus on ground."""
    if letters_of(across.part.reference) not in ("C", "CP"):
        return False
    on_ground, on_supply = (name.strip("~") for _, name in (across.on_ground, across.on_supply))
    if "+" in (on_ground, on_supply):
        return on_ground == "+"
    if {on_ground, on_supply} == {"-", ""}:  # KiCad 10 writes an empty name where earlier versions write "~"
        return on_supply == "-"
    text = f"{across.part.lib_id.partition(':')[2]} {across.part.footprint} {across.part.fields.get('Description', '')}"
    return bool(_POLARISED.search(text)) and across.on_ground[0] == "1"  # pin 1 is plus in KiCad's library [K]


def too_low_volts(across: Across) -> float | None:
    """What a capacitor is made for, where its supply reaches more."""
    if letters_of(across.part.reference) not in ("C", "CP") or across.reach_v is None:
        return None
    volts = read_rating(across.part.fields, across.part.value).volts
    return volts if volts is not None and volts < across.reach_v - 1e-9 else None


def barriers(judgement: Judgement) -> Iterator[Barrier]:
    """Diodes in supply and ground runs that stand against the current.

    Looked at with all diodes taken out: what lies on the side of the anode, what on the side of the cathode.
    """
    craft = judgement.craft
    diodes = [part for part in diodes_in_line(craft) if has_poles(part)]
    if not diodes:
        return
    runs = runs_of(craft, but="D")
    members = members_of(craft, runs)
    let_in = turned_round(ways_through(diodes, runs))
    for part in diodes:
        net = {pole_of(contact.pin_name): contact.net_id for contact in part.contacts}
        before, beyond = (members.get(runs[net[pin]], []) for pin in (ANODE, CATHODE))
        through = [contact for run in reached(let_in, runs[net[ANODE]]) for contact in members.get(run, [])]
        found = _against(judgement, before, beyond, through) or _against_in_ground(judgement, before, beyond)
        if found is not None:
            yield Barrier(part, *found)


def turned_flybacks(judgement: Judgement) -> Iterator[tuple[Part, Termination]]:
    """Diodes beside a coil that conduct when it is switched on, and that coil: the current goes past it.

    The anode is on the supply's side of the coil, or the cathode on its ground's side.
    """
    craft = judgement.craft
    diodes = [(part, nets) for part in craft.parts if len(nets := _nets_of_diode(part)) == 2]
    runs = runs_of(craft, but="D") if diodes else {}
    members = members_of(craft, runs) if diodes else {}
    coils = [
        (termination, ends)
        for termination in craft.terminations.values()
        if len(ends := _coil_ends(craft, termination)) == 2
    ]
    for diode, nets in diodes:
        at = {pole: runs.get(net, net) for pole, net in nets.items()}
        for coil, ends in coils:
            if {runs[contact.net_id] for contact in ends} != set(at.values()):
                continue
            own = {contact.key for contact in ends}
            classes = {
                pole: {contact.role.cls for contact in members.get(run, ()) if contact.key not in own}
                for pole, run in at.items()
            }
            fed = [pole for pole in (ANODE, CATHODE) if RoleClass.SUPPLY in classes[pole]]
            sunk = [pole for pole in (ANODE, CATHODE) if RoleClass.GROUND in classes[pole]]
            if fed == [ANODE] or (not fed and sunk == [CATHODE]):
                yield diode, coil


def dark_lights(judgement: Judgement) -> Iterator[tuple[Termination, Contact]]:
    """LEDs in a wire with their cathode towards a supply and nothing but ground at their anode, and that supply."""
    craft = judgement.craft
    lights = [part for part in diodes_in_line(craft) if has_poles(part) and _is_light_in_line(part)]
    for part in lights:
        at_anode, at_cathode = (
            [c for x in part.contacts if pole_of(x.pin_name) == pole for c in _over_what_limits(craft, x.net_id)]
            for pole in (ANODE, CATHODE)
        )
        supply = next((c for c in at_cathode if c.role.is_supply), None)
        if supply is not None and _only([c.role for c in at_anode if c.role.judged], RoleClass.GROUND):
            yield part, supply


def _over_what_limits(craft: Craft, net: int) -> list[Contact]:
    """Contacts of boards on a net, and on those beyond the resistors, switches and fuses that are wired to it."""
    nets, front = {net}, [net]
    between = [
        [contact.net_id for contact in part.contacts]
        for part in craft.terminations.values()
        if part.kind is Kind.INLINE and letters_of(part.reference) in _LIMITERS
    ]
    while front:
        at = front.pop()
        met = {other for sides in between if at in sides for other in sides} - nets
        nets |= met
        front += met
    ends = (part for part in craft.terminations.values() if part.kind is not Kind.INLINE)
    return [contact for part in ends for contact in part.contacts if contact.net_id in nets]


def _is_light_in_line(part: Termination) -> bool:
    words = f"{part.value} {part.footprint}"
    return letters_of(part.reference) == "LED" or bool(re.search(_LIGHT, words) or re.match(_LIGHT_COLOUR, part.value))


def _nets_of_diode(part: Part) -> dict[str, int]:
    """Pole -> net of a fitted diode on the nets, of which each pole is known."""
    if part.dnp or letters_of(part.reference) not in DIODES or is_light(part):
        return {}
    return {pole: pin.net_id for pin in part.pins if (pole := pole_of(pin.name))}


def _coil_ends(craft: Craft, part: Termination) -> list[Contact]:
    """The two ends of a relay's coil, or of a part on two leads of which nothing is known."""
    if part.kind is Kind.INLINE:
        return [contact for contact in part.contacts if is_coil(craft, contact)]
    bare = part.kind is Kind.CAPTIVE and all(contact.role.cls is RoleClass.UNKNOWN for contact in part.contacts)
    return list(part.contacts) if bare else []


def _against(
    judgement: Judgement, before: list[Contact], beyond: list[Contact], through: list[Contact]
) -> Against | None:
    """`through` begins with what is `before`; what other diodes let in there follows."""
    sources, blocked = _sources(judgement, beyond), _sources(judgement, through)
    fed_before, fed_beyond = _fed(judgement, before), _fed(judgement, beyond)
    if not sources or not fed_before:
        return None
    if not blocked:
        return (sources[0], fed_before[0], False)
    return None if fed_beyond else (sources[0], blocked[0], True)


def _against_in_ground(judgement: Judgement, before: list[Contact], beyond: list[Contact]) -> Against | None:
    """In a ground run the current goes back to the source: from the load's ground to the pack's minus."""
    givers = _giving_boards(judgement)
    grounds = [[c for c in side if c.role.is_ground] for side in (before, beyond)]
    if not all(grounds):
        return None
    feeding = [[c for c in side if judgement.craft.terminations[c.termination].board in givers] for side in grounds]
    fed = [[c for c in side if judgement.craft.terminations[c.termination].board not in givers] for side in grounds]
    if feeding[0] and fed[1] and not feeding[1] and not fed[0]:
        return (feeding[0][0], fed[1][0], False)
    return None


def _giving_boards(judgement: Judgement) -> frozenset[str]:
    """Packs and boards that give and take nothing."""
    gives: set[str] = set()
    takes: set[str] = set()
    for termination in judgement.ends:
        for contact in termination.contacts:
            if _is_source(judgement, contact):
                gives.add(termination.board)
            if contact.takes:
                takes.add(termination.board)
    return frozenset(gives - takes)


def _is_source(judgement: Judgement, contact: Contact) -> bool:
    return gives_only(judgement.craft, contact) and not contact.either


def _sources(judgement: Judgement, contacts: list[Contact]) -> list[Contact]:
    """Contacts that give, but those of boards that take from the same side: they pass on."""
    board = judgement.craft.terminations
    taking = {board[c.termination].board for c in contacts if c.takes}
    return [c for c in contacts if _is_source(judgement, c) and board[c.termination].board not in taking]


def _fed(judgement: Judgement, contacts: list[Contact]) -> list[Contact]:
    """Supply contacts of boards that give nothing there: those that state a need first."""
    board = judgement.craft.terminations
    giving = {board[c.termination].board for c in _sources(judgement, contacts)}
    fed = [
        c
        for c in contacts
        if not c.either and board[c.termination].board not in giving and (c.takes or (c.role.is_supply and not c.gives))
    ]
    return sorted(fed, key=lambda c: not c.takes)
