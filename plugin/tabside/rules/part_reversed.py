"""Diodes and capacitors that stand the wrong way round, and parts that short a supply."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.buses.wipers import ShortAtEnd, shorts_at_an_end
from tabside.analysis.current.parts_on_rails import (
    Across,
    Barrier,
    barriers,
    dark_lights,
    is_light,
    is_turned,
    parts_across,
    shorts,
    too_low_volts,
    turned_flybacks,
)
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.diodes import ANODE, CATHODE, pole_of
from tabside.analysis.places import at_contact, at_contacts
from tabside.model.craft import Craft, Part, Termination
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check
from tabside.words.contacts import name_of


@check("part-reversed", severity=Severity.ERROR, may_be_accepted=False)
def part_reversed(judgement: Judgement) -> Iterator[Finding]:
    """A diode lets current through one way, an electrolytic capacitor has a plus, a coil is a wire for a battery.

    A polarised capacitor the wrong way round, or above its volts, bursts; a diode from plus to ground is a short; one
    that stands against the current keeps a board dark, or lets one regulator into another.

    Example: a diode with its cathode to the battery; a capacitor's plus on ground; 25 V at 6S.

    Fix: turn the part: anode towards the source, cathode (the ring) towards the load; plus of the capacitor on plus.
    Accept: never: it fails at first power.
    Passes: OR-ing diodes with their anodes at the sources; a suppressor with its cathode on plus; ceramic capacitors.
    Fails: a diode with its cathode towards the only source; a diode, a coil or 0 ohm from a supply to ground; a
    diode beside a relay's coil that conducts when the coil is on; an LED with its anode on ground; a polarised
    capacitor with its plus on ground; a capacitor of fewer volts than its supply reaches.
    Warns: a diode between a source and contacts of which nobody says that they take.
    Source: logic; pins A and K of diodes and pin 1 as plus of polarised capacitors are those of KiCad's library.
    """
    craft = judgement.craft
    for barrier in barriers(judgement):
        yield _barrier(craft, barrier)
    for light, supply in dark_lights(judgement):
        yield _dark(light, at_contacts(craft, [*light.contacts, supply]))
    for diode, coil in turned_flybacks(judgement):
        yield _flyback(diode, coil)
    for short in shorts_at_an_end(judgement):
        yield _short_at_end(craft, short)
    for across in parts_across(judgement):
        why = shorts(across)
        volts = too_low_volts(across)
        if why:
            yield _short(craft, across, why)
        elif is_turned(across):
            yield _turned(craft, across)
        elif is_light(across.part) and (pole_of(across.on_supply[1]), pole_of(across.on_ground[1])) == (CATHODE, ANODE):
            yield _dark(across.part, _where(craft, across))
        elif volts is not None:
            yield _too_low(craft, across, volts)


def _barrier(craft: Craft, barrier: Barrier) -> Finding:
    what = _part_words(barrier.part)
    source, dark = name_of(craft, barrier.source), name_of(craft, barrier.kept_dark)
    stated = (
        bool(barrier.kept_dark.takes)
        or barrier.back_feeds
        or barrier.source.role.battery
        or barrier.source.role.is_ground
    )
    message = (
        f"{what} lets {dark} feed back into {source}, and nothing out of it: its cathode points to the source"
        if barrier.back_feeds
        else f"{what} is the wrong way round: its cathode points to {source}, so no current reaches {dark}"
    )
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR if stated else Severity.WARNING,
        message=f"{message}.",
        fix="Turn it: anode (A) towards the source, cathode (K, the ring) towards the load.",
        where=at_contacts(craft, [*barrier.part.contacts, barrier.source, barrier.kept_dark]),
        link=None,
        harm=harm.TWO_REGULATORS if barrier.back_feeds else harm.NOT_FED,
    )


def _dark(part: Part | Termination, where: tuple[Where, ...]) -> Finding:
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR,
        message=f"{_part_words(part)} is the wrong way round: its anode is on ground and its cathode on the"
        " supply, so it stays dark, and more than a few volts backwards destroy it.",
        fix="Turn it: anode (A) towards the supply, cathode (K) towards ground.",
        where=where,
        harm=harm.NOT_FED,
    )


def _flyback(diode: Part, coil: Termination) -> Finding:
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR,
        message=f"{_part_words(diode)} is the wrong way round beside {coil.reference}: it"
        " conducts when the coil is switched on, and shorts what switches it.",
        fix="Turn it: cathode (K, the ring) on the end of the coil that is on plus.",
        where=(_at_part(diode),),
        harm=harm.SUPPLY_SHORT,
    )


def _short_at_end(craft: Craft, short: ShortAtEnd) -> Finding:
    battery = short.supply.role.battery
    wiper, end = name_of(craft, short.wiper), name_of(craft, short.end)
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR,
        message=f"{wiper}, the wiper of a potentiometer, and its end {end} are on ground and on"
        f" {name_of(craft, short.supply)}: turned to that end it is a short.",
        fix="Put the supply on one end, ground on the other, and the input alone on the wiper.",
        where=at_contacts(craft, [short.wiper, short.end, short.supply]),
        harm=harm.PACK_SHORT if battery else harm.SUPPLY_SHORT,
    )


def _short(craft: Craft, across: Across, why: str) -> Finding:
    battery = across.supply is not None and across.supply.role.battery
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR,
        message=f"{_part_words(across.part)} shorts {_supply_words(craft, across)}: {why}.",
        fix="Turn the diode (cathode, the ring, on plus)."
        if pole_of(across.on_supply[1]) == ANODE
        else "Put it in-line, in series with the load, not from supply to ground.",
        where=_where(craft, across),
        harm=harm.PACK_SHORT if battery else harm.SUPPLY_SHORT,
    )


def _turned(craft: Craft, across: Across) -> Finding:
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR,
        message=f"{_part_words(across.part)} is the wrong way round: its plus is on ground,"
        f" its minus on {_supply_words(craft, across)}. A polarised capacitor bursts like this.",
        fix="Turn it: its plus on the supply, its stripe (minus) on ground.",
        where=_where(craft, across),
        harm=harm.SUPPLY_SHORT,
    )


def _too_low(craft: Craft, across: Across, volts: float) -> Finding:
    return Finding(
        rule="part-reversed",
        severity=Severity.ERROR if across.sure_v > volts else Severity.WARNING,
        message=f"{_part_words(across.part)} is made for {volts:g} V, and"
        f" {_supply_words(craft, across)} reaches {across.reach_v:g} V.",
        fix=f"Take a capacitor for more than {across.reach_v:g} V, or correct its Rating or Value.",
        where=_where(craft, across),
        harm=harm.TOO_MANY_VOLTS,
    )


def _part_words(part: Part | Termination) -> str:
    return f"{part.reference} ({part.value})" if part.value and part.value != part.reference else part.reference


def _supply_words(craft: Craft, across: Across) -> str:
    if across.supply is not None:
        return f"the {across.reach_words or 'supply'} at {name_of(craft, across.supply)}"
    return f"the supply {next(iter(across.part.nets), '')}"


def _where(craft: Craft, across: Across) -> tuple[Where, ...]:
    at = [at_contact(craft, across.supply)] if across.supply is not None else []
    return (_at_part(across.part), *at)


def _at_part(part: Part) -> Where:
    return Where(net=next(iter(part.nets), None), place=part.place)
