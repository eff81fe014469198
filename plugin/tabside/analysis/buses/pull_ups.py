"""Resistors on a line: what they pull it up to, and what they leave of a level."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.resistors import read_ohm
from tabside.analysis.meeting.two_poles import two_poles
from tabside.model.craft import Contact, Craft
from tabside.model.roles import RoleClass

_THERMISTORS = ("TH", "NTC", "PTC", "RT")
# What is less clears no level: it is a shunt, or an M written as m.  Common practice, no source.
LEAST_OHM = 1.0


class PullUp(Struct, frozen=True):
    resistor: str
    volts: float
    above: tuple[Contact, ...]  # contacts on the line that tolerate less


def pull_ups(judgement: Judgement) -> Iterator[PullUp]:
    """Pull-ups to more volts than a contact on the line tolerates (`Level max`); what a divider leaves counts."""
    told: set[str] = set()
    for resistor, rail, line in (*_on_rails(judgement), *_beyond_switches(judgement)):
        on_line = judgement.on_solid_run(line)  # it runs on through switches, not through another resistor
        if resistor in told or any(contact.role.is_supply or contact.role.is_ground for contact in on_line):
            continue
        above = [c for c in on_line if c.level_max_v is not None and rail > c.level_max_v + 1e-9]
        part = left_of_level(judgement, above[0], [resistor]) if above else None
        above = [c for c in above if part is not None and rail * part > (c.level_max_v or 0.0) + 1e-9]
        if above:
            told.add(resistor)
            yield PullUp(resistor, rail, tuple(above))


def _on_rails(judgement: Judgement) -> Iterator[tuple[str, float, int]]:
    """Resistors, thermistors too, with the volts of the rail at one side, and the net at the other."""
    for resistor in two_poles(judgement.craft, "R", *_THERMISTORS):
        for rail, line in (resistor.nets, resistor.nets[::-1]):
            contacts = judgement.on_solid_run(rail)
            volts = _rail_volts(judgement, rail, contacts)
            if volts is not None:
                yield resistor.reference, volts, line


def _beyond_switches(judgement: Judgement) -> Iterator[tuple[str, float, int]]:
    """The same where a jumper or a switch stands between the resistor and the rail."""
    for joint in judgement.joints:
        resistors = [part for part in joint.through if letters_of(part) == "R"]
        for supply, line in ((joint.a, joint.b), (joint.b, joint.a)):
            volts = supply.role.volts
            if len(resistors) == 1 and supply.role.is_supply and volts is not None and not supply.role.battery:
                yield resistors[0], volts.low, line.net_id


def left_of_level(judgement: Judgement, listener: Contact, series: Sequence[str]) -> float | None:
    """The part of a level that arrives behind resistors in series: all of it, unless another leads to ground.

    None: a divider of unknown values, or a diode that holds the line.
    """
    craft, runs = judgement.craft, judgement.solid_runs
    line = runs.get(listener.net_id, -1)
    if any(line in [runs.get(net, -1) for net in diode.nets] for diode in two_poles(craft, "D", "TVS", "Z", "ZD")):
        return None
    to_ground = [
        read_ohm(resistor.value)
        for resistor in two_poles(craft, "R")
        if resistor.reference not in series
        for near, far in (resistor.nets, resistor.nets[::-1])
        if runs.get(near, -1) == line and _is_ground(judgement, far)
    ]
    to_ground = [ohm for ohm in to_ground if ohm is None or not 0 < ohm < LEAST_OHM]
    if not to_ground:
        return 1.0
    above = [read_ohm(_value(craft, reference)) for reference in series]
    if None in to_ground or None in above or 0 in to_ground:
        return None
    below = 1 / sum(1 / ohm for ohm in to_ground if ohm)
    return below / (below + sum(ohm or 0.0 for ohm in above))


def _value(craft: Craft, reference: str) -> str:
    found = craft.terminations.get(reference)
    return found.value if found else next((part.value for part in craft.parts if part.reference == reference), "")


def _is_ground(judgement: Judgement, net: int) -> bool:
    contacts = judgement.on_solid_run(net)
    written = judgement.rail_names.get(net, ())
    return any(contact.role.is_ground for contact in (*contacts, *written))


def _rail_volts(judgement: Judgement, net: int, contacts: list[Contact]) -> float | None:
    """The volts that this net surely has, by its contacts or by its name; None when it is no rail of known volts."""
    written = judgement.rail_names.get(net, ())
    if any(contact.role.cls not in (RoleClass.SUPPLY, RoleClass.UNKNOWN) for contact in contacts):
        return None
    volts = [contact.role.volts for contact in (*written, *contacts) if contact.role.is_supply and contact.role.volts]
    return max((range_.low for range_ in volts), default=None)
