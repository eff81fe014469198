"""The contacts of a termination: what each is called, what it is for, what it gives and takes."""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec.structs import replace

from tabside.facts.labels.reading import level_in_name
from tabside.facts.labels.role_kinds import role_named
from tabside.facts.labels.roles import is_relay_contact
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.drawing import Drawing
from tabside.model.roles import Rail, Role, RoleClass, Volts
from tabside.model.stated_limits import MOST_LEADS
from tabside.wiring.terminations.contact_roles import (
    Bound,
    as_of_a_pack,
    bind_rails,
    minus_of_a_rail,
    role_with_rails,
    roles_by_type_and_label,
)
from tabside.wiring.terminations.fields import EITHER, LEADS_MAX, LEVEL, LEVEL_MAX, Fields, Problem
from tabside.wiring.terminations.part_kinds import PartKind, kind_of_part, load_roles
from tabside.wiring.terminations.rails import is_one_pack, pack_of_name, stated_rails
from tabside.wiring.terminations.signals import is_not_used
from tabside.wiring.terminations.symbols import Gathered
from tabside.wiring.terminations.which_symbols import is_termination

_CONNECTORS = "Connector:"  # KiCad's own library of sockets and plugs
_LEVEL_ENDS = frozenset(")Vv0123456789")  # TX (5V), TX_5V, TX_3V3
# Words in the name of what makes its volts by itself.  Common practice, no source.
_ADAPTERS = frozenset(
    ("ADAPTER", "ADAPTOR", "PSU", "MAINS", "SMPS", "WALLWART", "CHARGER", "CHG", "SUPPLY", "WALL", "BENCH", "LAPTOP")
)
PAD_LEADS = 4  # common practice, no source


def with_contacts(
    part: Gathered, termination: Termination, fields: Fields, labels: dict[str, str], drawing: Drawing
) -> Termination:
    """The termination with its contacts, from their names (`labels`, by number) and what its fields say of them.

    What is wrong with the fields goes into `fields.problems`.
    """
    names = list(labels.values())
    unused = {n for n, name in labels.items() if is_not_used(name) and not is_relay_contact(name, names)}
    labels = {number: "" if number in unused else name for number, name in labels.items()}
    types = _pin_types(part)
    roles = _roles(part, termination, labels, types, unused)
    bound = bind_rails(roles, termination.gives, termination.takes, stated_rails(fields, EITHER))
    fields.problems.extend(map(Problem, bound.problems))
    roles |= minus_of_a_rail(roles, bound)
    level, level_max = fields.level(LEVEL), fields.level(LEVEL_MAX)
    leads_max = _leads_max(termination, fields)
    own_leads = termination.kind is Kind.CAPTIVE and not termination.takes and not _is_mains_adapter(termination)
    contacts = []
    for number, pin in part.pins.items():
        gives, takes, either = _rails_at(number, bound, roles[number], labels[number], own_leads=own_leads)
        role = role_with_rails(roles[number], gives, takes, either, captive=own_leads)
        contacts.append(
            Contact(
                termination=part.reference,
                number=number,
                label=labels[number],
                role=role,
                net=drawing.nets[pin.net].name,
                net_id=pin.net,
                pin_type=types[number],
                flagged_empty=number in unused or pin.flagged_no_connect or pin.electrical == "no_connect",
                place=part.places[number],
                leads_max=leads_max,
                either=bool(either),
                gives=tuple(map(as_of_a_pack, gives)) if own_leads and role.battery else gives,
                takes=takes,
                level=level or _level_of_name(roles[number]),
                level_max_v=level_max.high if level_max else None,
                pin_name=pin.name,
            )
        )
    return replace(termination, contacts=tuple(contacts))


def _roles(
    part: Gathered, termination: Termination, labels: dict[str, str], types: dict[str, str], unused: set[str]
) -> dict[str, Role]:
    """What each contact is for, before its rails are known: by number."""
    if termination.unread:  # its S is no signal, its G no ground
        return {number: role_named("unknown", label=labels[number]) for number in labels}
    if _is_balance_plug(termination, labels):
        roles = {n: replace(role_named("cell_tap", label=text), index=int(text)) for n, text in labels.items()}
    else:
        roles = roles_by_type_and_label(labels, types)
        no_pins = {number for number, pin in part.pins.items() if pin.electrical == "no_connect"}
        roles |= {number: role_named("nc", said_by="field") for number in unused | no_pins}
    if kind_of_part(part) is PartKind.LOAD and not is_termination(part):
        roles |= {number: role_named(name, label=labels[number]) for number, name in load_roles(part).items()}
    return roles


_Rails = tuple[Rail, ...]


def _rails_at(number: str, bound: Bound, role: Role, label: str, *, own_leads: bool) -> tuple[_Rails, _Rails, _Rails]:
    """What a contact gives, takes and does either with; where no field says it, the pack that its name tells of."""
    gives, takes, either = (tuple(rails.get(number, ())) for rails in (bound.gives, bound.takes, bound.either))
    unsaid = role.name in ("battery", "ambiguous_power") and not (gives or takes or either)
    if unsaid and (pack := pack_of_name(label)):
        return ((pack,), (), ()) if own_leads and is_one_pack(label) else ((), (pack,), ())
    return gives, takes, either


def _pin_types(part: Gathered) -> dict[str, str]:
    """The pin types of a symbol; power pins of KiCad's connectors are those of the plug in them, and say nothing.

    Of a USB socket VBUS is a power input there, of a micro USB socket an output [K].
    """
    types = {number: pin.electrical for number, pin in part.pins.items()}
    if not part.first.lib_id.startswith(_CONNECTORS):
        return types
    return {number: "passive" if text.startswith("power_") else text for number, text in types.items()}


def _level_of_name(role: Role) -> Volts | None:
    return level_in_name(role.label) if role.cls is RoleClass.SIGNAL and role.label[-1:] in _LEVEL_ENDS else None


def _is_balance_plug(termination: Termination, labels: Mapping[str, str]) -> bool:
    """Whether its contacts are called 0 to 4 and no more, in the family of balance plugs (common practice)."""
    texts = sorted(text.strip() for text in labels.values())
    return termination.family == "jst_xh" and len(texts) > 2 and texts == [str(n) for n in range(len(texts))]


def _is_mains_adapter(termination: Termination) -> bool:
    """Whether its name says that it makes its volts from the mains: they are no pack's, and it limits its current."""
    words = re.split(r"[^A-Z]+", f"{termination.board} {termination.value}".upper())
    return any(word in _ADAPTERS for word in words)


def _leads_max(termination: Termination, fields: Fields) -> int | None:
    """Leads that each contact takes: a cavity one, a pad `Leads max` or four, a splice any number."""
    stated = fields.whole(LEADS_MAX, 1, MOST_LEADS)
    if termination.takes_plug:
        if stated is not None and stated != 1:
            words = f"Leads max is {stated}, but a cavity takes one wire; use a splice or a second contact"
            fields.problems.append(Problem(words, LEADS_MAX))
        return 1
    if termination.kind is Kind.CAPTIVE:
        return stated or 1  # the part's own lead
    if termination.kind is Kind.SPLICE:
        return stated
    return stated or PAD_LEADS
