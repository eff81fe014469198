"""I2C lines whose pull-ups or cables the bus does not stand."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.buses.bus_wiring import (
    I2C_CABLE_PF_M,
    I2C_MOST_PF,
    I2C_RISE_S,
    I2cLine,
    i2c_lines,
    i2c_pf,
    largest_pull_up_ohm,
    smallest_pull_up_ohm,
)
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed

_SPREAD = 0.9  # resistors of 10 %: common practice, no source


@check("i2c-bus", severity=Severity.WARNING)
def i2c_bus(judgement: Judgement) -> Iterator[Finding]:
    """An I2C line is pulled up by resistors and down by the devices; long cables and wrong resistors stop it.

    Resistors that are too small cannot be pulled low; ones that are too large, or a long cable, make the edges slow.
    Example: four sensors, each with pull-ups of 2.2 kohm of its own: 550 ohm together.

    Fix: one pair of pull-ups for the whole bus, of a few kilohm; a shorter cable, or a bus extender.
    Accept: where the boards' manuals say that they drive such a bus.
    Passes: 4.7 kohm and a metre of cable; pull-ups and lengths that nobody states.
    Warns: pull-ups below (volts - 0.4 V) / 3 mA together; pull-ups that are too slow for the cable; more than 400 pF.
    Source: NXP UM10204 rev 5 section 7.1 (rise time, 400 pF), and a maker's note on it (20 pF a device, 50 to 100 pF a
    metre of cable, 3 mA), both read; resistors of 10 % are common practice, no source.
    """
    told: set[tuple[str, ...]] = set()
    for line in i2c_lines(judgement):
        said = _said(line)
        boards = tuple(sorted({judgement.craft.terminations[c.termination].board for c in line.contacts}))
        if said is not None and boards not in told:
            told.add(boards)  # SDA and SCL of one bus are wired alike
            yield Finding(
                rule="i2c-bus",
                severity=Severity.WARNING,
                message=f"The I2C bus of {listed(list(boards))}: {said[0]}.",
                fix=said[1],
                where=at_contacts(judgement.craft, line.contacts),
                harm=harm.DEAD_LINK,
            )


def _said(line: I2cLine) -> tuple[str, str] | None:
    ohm = line.pull_up_ohm
    names = listed([reference for reference, _ in line.pull_ups]) if line.pull_ups else ""
    if ohm is not None and line.volts is not None and ohm < _SPREAD * smallest_pull_up_ohm(line.volts):
        least = smallest_pull_up_ohm(line.volts)
        return (
            f"its pull-ups ({names}) are {ohm:.0f} ohm together, and a device pulls down no less than {least:.0f} ohm"
            f" at {line.volts:g} V",
            "Take larger resistors, or leave some of them out: one pair serves the whole bus.",
        )
    if line.metres is None:
        return None
    devices = len(line.contacts)
    least_pf = i2c_pf(devices, line.metres, I2C_CABLE_PF_M[0])
    if least_pf > I2C_MOST_PF:
        return (
            f"{line.metres:.2g} m of cable and {devices} devices have at least {least_pf:.0f} pF, limit"
            f" {I2C_MOST_PF:g} pF",
            "Shorten the cable, or put a bus extender between.",
        )
    slowest = largest_pull_up_ohm(I2C_RISE_S, least_pf * 1e-12)
    if ohm is not None and _SPREAD * ohm > slowest:
        return (
            f"its pull-ups ({names}) are {ohm:.0f} ohm together, too slow for at least {least_pf:.0f} pF of cable and"
            f" devices (at most {slowest:.0f} ohm)",
            "Take smaller resistors, or a shorter cable.",
        )
    return None
