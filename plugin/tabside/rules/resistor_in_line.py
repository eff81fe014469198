"""A resistor in the way of a board's supply."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.current.fuses import load_over
from tabside.analysis.current.parts_on_rails import reach_at
from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.resistors import read_ohm
from tabside.analysis.places import at_contacts
from tabside.model.craft import Kind
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check

SHARE = 0.10  # of the supply, lost in a resistor; common practice, no source


@check("voltage-drop", severity=Severity.WARNING)
def resistor_in_line(judgement: Judgement) -> Iterator[Finding]:
    """A resistor in a supply takes no large part of its volts.

    Volts are amperes times ohms: what the load draws over the resistor is lost there, as heat.  Example: 1 ohm in the
    plus of a speed controller that takes 20 A; 10k that was meant for a divider, in the way of a camera.

    Fix: take the resistor out of the supply, or correct its Value.
    Accept: a resistor that is to take that: an inrush limiter that a relay bridges.
    Passes: milliohms of a shunt; loads that nobody states; a light with its resistor.
    Warns: more than a tenth of the supply at the stated load.
    Source: Ohm's law; a tenth is common practice, no source.
    """
    if not judgement.flows.any_stated:
        return
    for part in judgement.craft.terminations.values():
        if part.kind is not Kind.INLINE or letters_of(part.reference) != "R":
            continue
        ohm, amps = read_ohm(part.value), load_over(judgement, part.contacts)
        if not ohm or not amps:
            continue
        volts = max((high for end in part.contacts if (high := reach_at(judgement, end)[0]) is not None), default=None)
        lost = ohm * amps
        if volts is not None and lost > SHARE * volts:
            yield Finding(
                rule="voltage-drop",
                severity=Severity.WARNING,
                message=f"{part.reference} ({part.value}) stands in a supply of {volts:g} V that carries {amps:.3g} A:"
                f" it would take {round(lost, 1):g} V and {round(lost * amps, 1):g} W.",
                fix="Take it out of the supply, or correct its Value, or Takes behind it.",
                where=at_contacts(judgement.craft, part.contacts),
                harm=harm.HEAT,
            )
