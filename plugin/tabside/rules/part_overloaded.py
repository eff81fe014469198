"""Parts from a supply to ground that burn although they stand the right way round."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.current.parts_overloaded import Overloaded, overloaded
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contact
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check
from tabside.words.contacts import name_of


@check("part-reversed", severity=Severity.WARNING)
def part_overloaded(judgement: Judgement) -> Iterator[Finding]:
    """A part across a supply is made for its volts.

    A resistor of few ohms from plus to ground is a heater; an LED without a resistor burns out; a suppressor or Zener
    diode for fewer volts conducts all the time.  Example: 1 ohm across a pack; SMBJ5.0A across 4S.

    Fix: another part, a resistor in series with the LED, or what the part is made for in its Value ("10R 50W", "LED
    12V").
    Accept: a brake or dump resistor that is switched, with its watts looked up.
    Passes: a resistor up to the watts in its Value, or up to half a watt; an LED with a resistor in series, or with
    volts in its Value; a suppressor for the volts of its supply.
    Warns: more than that.  But for resistors up to 5 W the verdict is then "not decided": by its Value the part burns.
    Source: watts are volts squared by ohms; half a watt and 25 % above a diode's volts are common practice, no source;
    the volts in a suppressor's number are from memory.
    """
    for found in overloaded(judgement):
        yield _finding(judgement, found)


def _finding(judgement: Judgement, found: Overloaded) -> Finding:
    part, supply = found.across.part, found.across.supply
    at = f" at {name_of(judgement.craft, supply)}" if supply is not None else ""
    words = f"{part.reference} ({part.value})" if part.value and part.value != part.reference else part.reference
    where = Where(net=next(iter(part.nets), None), place=part.place)
    return Finding(
        rule="part-reversed",
        severity=Severity.WARNING,
        message=f"{words} across the {found.across.reach_words or 'supply'}{at} {found.why}.",
        fix=found.fix,
        where=(where, *([at_contact(judgement.craft, supply)] if supply is not None else [])),
        harm=harm.HEAT,
        undecided=int(found.sure),
    )
