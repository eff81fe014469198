"""A switch, fuse or relay that does nothing, because both of its sides are one net."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Kind
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check

_TIES = frozenset(("NT", "R", "L", "FB"))  # joining both sides is what they are for, or changes little


@check("switch-bypassed", severity=Severity.WARNING)
def switch_bypassed(judgement: Judgement) -> Iterator[Finding]:
    """What opens a circuit has two nets: one on each side.

    Warns: a fuse, breaker, switch, relay, jumper or diode with one name on both sides: current goes around it.
    Passes: net ties, coils.
    Source: logic.
    """
    craft = judgement.craft
    for part in craft.terminations.values():
        if part.kind is not Kind.INLINE or letters_of(part.reference) in _TIES:
            continue
        for pair in part.passes:
            a, b = (part.contact(number) for number in pair)
            if a.net_id == b.net_id:
                yield Finding(
                    rule="switch-bypassed",
                    severity=Severity.WARNING,
                    message=f"Both sides of {part.reference} ({part.value}) are the net {a.net}: current goes around "
                    "it, whatever its position." if part.value else
                    f"Both sides of {part.reference} are the net {a.net}: current goes around it.",
                    fix="Give the two sides two names: a power symbol or label of the same name on both joins them.",
                    where=at_contacts(craft, (a, b)),
                    harm=harm.NO_FUSE,
                )  # fmt: skip
