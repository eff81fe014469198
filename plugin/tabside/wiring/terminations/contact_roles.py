"""The role of each contact: `Gives` and `Takes` outrank the pin's type, which outranks the label."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from tabside.facts.cells import read_pack
from tabside.facts.labels.reading import POLE
from tabside.facts.labels.role_kinds import power_name, role_named
from tabside.facts.labels.roles import read_label
from tabside.facts.labels.text import clean_label
from tabside.model.roles import Direction, Rail, Role, RoleClass, Volts

# KiCad's pin types that say which way a contact works.  `passive`, `free`, `unspecified` say nothing.
_DIRECTIONS = {
    "input": Direction.LISTENS,
    "power_in": Direction.LISTENS,
    "output": Direction.DRIVES,
    "power_out": Direction.DRIVES,
    "bidirectional": Direction.BOTH,
    "tri_state": Direction.BOTH,
    "open_collector": Direction.BOTH,
    "open_emitter": Direction.BOTH,
}
# What a pin type turns a label into that names the line from the other board's side.
_OTHER_SIDE = {
    ("uart_tx", Direction.LISTENS): "uart_rx",
    ("uart_rx", Direction.DRIVES): "uart_tx",
    ("uart_rts", Direction.LISTENS): "uart_cts",
    ("uart_cts", Direction.DRIVES): "uart_rts",
    ("video_in", Direction.DRIVES): "video_out",
    ("video_out", Direction.LISTENS): "video_in",
}
# A rail belongs to a contact's name when they are no further apart than this share.  Clashes begin beyond a tenth.
_EQUAL, _CLOSE = 0.02, 0.1


class Bound:
    """The rails of a termination, contact by contact, and what is odd about them."""

    def __init__(self) -> None:
        self.gives: dict[str, list[Rail]] = {}
        self.takes: dict[str, list[Rail]] = {}
        self.either: dict[str, list[Rail]] = {}
        self.problems: list[str] = []


def roles_by_type_and_label(labels: Mapping[str, str], pin_types: Mapping[str, str]) -> dict[str, Role]:
    """Contact number -> role, from the names and pin types of one termination."""
    all_texts = tuple(dict.fromkeys(text for text in labels.values() if text))
    return {number: _by_type(read_label(label, all_texts), pin_types[number]) for number, label in labels.items()}


def bind_rails(
    roles: Mapping[str, Role], gives: Sequence[Rail], takes: Sequence[Rail], either: Sequence[Rail]
) -> Bound:
    """Each rail with its contacts: by number, else by the voltage in the contact's name, else the only supply contact.

    Several contacts of one name on a plug (doubled supply contacts) count as one.
    """
    bound = Bound()
    for name, rails, target in (
        ("Gives", gives, bound.gives),
        ("Takes", takes, bound.takes),
        ("Either", either, bound.either),
    ):
        for rail in rails:
            contacts = _contacts_of(rail, roles)
            if not contacts:
                bound.problems.append(_unbound(name, rail, roles))
            for number in contacts:
                before = target.setdefault(number, [])
                problem = _contradiction(name, rail, number, roles[number]) or _two_volts(name, before, rail, number)
                before.append(rail)
                if problem:
                    bound.problems.append(problem)
    return bound


def minus_of_a_rail(roles: Mapping[str, Role], bound: Bound) -> dict[str, Role]:
    """Unknown contacts that are the minus of a plus with rails: VT- beside a VT+ that gives 48 V."""
    plain = {number: clean_label(role.label).plain for number, role in roles.items()}
    railed = {plain[number] for rails in (bound.gives, bound.takes, bound.either) for number in rails}
    return {
        number: replace(role_named("ground", label=role.label, said_by="field"), line=POLE)
        for number, role in roles.items()
        if role.cls is RoleClass.UNKNOWN and plain[number].endswith("-") and f"{plain[number][:-1]}+" in railed
    }


def role_with_rails(
    role: Role, gives: Sequence[Rail], takes: Sequence[Rail], either: Sequence[Rail], *, captive: bool = False
) -> Role:
    """The role of a contact that rails are bound to: a supply, as the fields say.

    `captive`: the leads of a part that takes nothing; where its plus gives volts, it is a battery of these volts,
    unless no pack has them (5 V, 3.3 V): then it is a regulator.
    """
    rails = [*gives, *takes, *either]
    if not rails:
        return role
    if captive and not takes and not either and (role.battery or (is_bare_plus(role) and not _is_regulated(gives))):
        return _battery_of(role, gives)
    first = next((rail for rail in rails if rail.volts or rail.battery), None)
    if either or (gives and takes):
        direction, name = Direction.BOTH, "power"
    else:
        direction, name = (Direction.DRIVES, "power_out") if gives else (Direction.LISTENS, "power_in")
    volts = first.volts if first else role.volts
    if first is None and not role.is_supply:
        volts = None
    if first.battery if first else role.battery:
        battery = role_named("battery", label=role.label, direction=direction, said_by="field")
        return replace(battery, volts=volts)
    if role.is_supply and (first is None or _fits(first, role, _CLOSE)):
        name = role.name
    elif volts and volts.low == volts.high:
        name = power_name(volts.low)
    return role_named(name, label=role.label, direction=direction, volts=volts, said_by="field")


def is_bare_plus(role: Role) -> bool:
    """A plus that says no more than that: +, POS, red."""
    return role.is_supply and clean_label(role.label).plain in ("+", "POS", "POSITIVE", "PLUS", "RED", "V+")


def _is_regulated(gives: Sequence[Rail]) -> bool:
    stated = next((rail.volts for rail in gives if rail.volts is not None), None)
    return stated is not None and stated.low == stated.high and read_pack(f"{stated.low:g}V") is None


def _battery_of(role: Role, gives: Sequence[Rail]) -> Role:
    stated = next((rail.volts for rail in gives if rail.volts is not None), None)
    battery = role_named("battery", label=role.label, direction=Direction.DRIVES, said_by="field")
    return replace(battery, volts=battery_reach(stated) if stated else None)


def as_of_a_pack(rail: Rail) -> Rail:
    """A pack's rail with all that it reaches: "14.8V" is a pack of 12 to 16.8 V."""
    return rail if rail.volts is None or rail.battery else replace(rail, volts=battery_reach(rail.volts), battery=True)


def battery_reach(stated: Volts) -> Volts:
    """What a battery that states these volts reaches: "12V" is a lead battery from 10.5 to 14.4 V."""
    if stated.low != stated.high:
        return stated
    known = read_pack(f"{stated.low:g}V")
    return known if known is not None else Volts(stated.low, stated.high, named=stated.high)


def _by_type(role: Role, pin_type: str) -> Role:
    direction = _DIRECTIONS.get(pin_type)
    if direction is None or role.cls in (RoleClass.GROUND, RoleClass.SHIELD, RoleClass.PHASE):
        return role  # grounds are drawn as power inputs
    if pin_type in ("power_in", "power_out"):
        return _supply_by_type(role, pin_type, direction)
    if role.is_supply:
        return replace(role, direction=direction) if direction is not Direction.BOTH else role
    if direction is Direction.BOTH:
        return replace(role, direction=direction) if _is_open(role, pin_type) else role
    other = _OTHER_SIDE.get((role.name, direction))
    if other is not None:
        return role_named(other, label=role.label, index=role.index, active_low=role.active_low, said_by="pin type")
    if role.cls is RoleClass.SIGNAL and role.direction is Direction.BOTH:
        return role  # a bus line stays one
    return replace(role, direction=direction, said_by=role.said_by if role.cls is RoleClass.UNKNOWN else "pin type")


def _is_open(role: Role, pin_type: str) -> bool:
    return role.direction is Direction.UNKNOWN or pin_type.startswith("open")


def _supply_by_type(role: Role, pin_type: str, direction: Direction) -> Role:
    if role.is_supply:
        return replace(role, direction=direction)
    if role.cls is RoleClass.UNKNOWN and pin_type == "power_in":
        # It may be a ground as well: grounds are drawn as power inputs.
        readings = (role_named("ground", label=role.label), role_named("power_in", label=role.label))
        return replace(
            role_named("ambiguous_signal", label=role.label, said_by="pin type"), readings=readings, direction=direction
        )
    return role_named(pin_type, label=role.label, said_by="pin type")


def _contacts_of(rail: Rail, roles: Mapping[str, Role]) -> list[str]:
    if rail.contact is not None:
        return [rail.contact] if rail.contact in roles else _called(rail.contact, roles)
    supplies = {number: role for number, role in roles.items() if _takes_supply(role)}
    for share in (_EQUAL, _CLOSE):
        named = [number for number, role in supplies.items() if _fits(rail, role, share)]
        if named:
            return named
    several = {(role.name, role.label) for role in supplies.values()}
    return list(supplies) if len(several) == 1 else []


def _called(name: str, roles: Mapping[str, Role]) -> list[str]:
    """The contacts of that name, whose number nobody wrote: OUT+ of `OUT+:5V 3A`."""
    wanted = clean_label(name).plain
    return [number for number, role in roles.items() if wanted and clean_label(role.label).plain == wanted]


def _takes_supply(role: Role) -> bool:
    """A supply contact, or the contact of a buzzer that hangs on a supply."""
    return role.is_supply or role.name == "buzzer_plus"


def _fits(rail: Rail, role: Role, share: float) -> bool:
    """Whether a contact's own name says the rail: the same voltage, one within its range, or both the battery."""
    if rail.battery or role.battery:
        return rail.battery and role.battery
    if rail.volts is None or role.volts is None:
        return False
    slack = share * abs(role.volts.high)
    return rail.volts.low - slack <= role.volts.low and role.volts.high <= rail.volts.high + slack


def _contradiction(name: str, rail: Rail, number: str, role: Role) -> str:
    """What is odd about a rail on this contact: it is called a ground or a signal, or another voltage."""
    if role.judged and not _takes_supply(role):
        return f'{name} puts "{rail.text}" on contact {number}, which is called {role.label or role.name}'
    said = any(
        letter.isdigit() for letter in role.label
    )  # VBUS says 5 V by habit only: what feeds it may be set higher
    if said and role.volts and rail.volts and not rail.battery and not _fits(rail, role, _CLOSE):
        return f'{name} puts "{rail.text}" on contact {number}, which is called {role.label or role.volts}'
    return ""


def _two_volts(name: str, before: Sequence[Rail], rail: Rail, number: str) -> str:
    other = next((earlier for earlier in before if earlier.volts != rail.volts), None)
    return f'{name} says "{other.text}" and "{rail.text}" of contact {number}' if other is not None else ""


def _unbound(name: str, rail: Rail, roles: Mapping[str, Role]) -> str:
    if rail.contact is not None:
        return (
            f'{name} says "{rail.text}", but there is no contact {rail.contact}; write a contact\'s number, or its name'
        )
    example = next((number for number, role in roles.items() if role.is_supply), next(iter(roles), "1"))
    return f'{name} says "{rail.text}", and no contact is told from the others by it; write "{example}:{rail.text}"'
