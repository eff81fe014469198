"""Wires and names that look joined in the drawing and are not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.model.drawing import DrawnLoose, LooseKind
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check
from tabside.words.contacts import listed

_JUNCTION = "Put a junction there (Place, Junction), or end the wire on it, if they are to be connected."
_FIX = {
    LooseKind.LABEL_ONCE: "Write the name where the wire is to go on, fix its spelling, or delete the label.",
    LooseKind.NEAR_PIN: "Draw the wire to the pin's very end (its small circle is gone then), or delete the stub.",
    LooseKind.OVER_PIN: _JUNCTION,
    LooseKind.ON_WIRE: _JUNCTION,
    LooseKind.FLAG_ALONE: "Move each flag to a point of the wire on which nothing else stands, or make it one flag.",
    LooseKind.NAME_DROPPED: "Move it along the wire to a point on which nothing else stands.",
    LooseKind.ON_EACH_OTHER: "Delete one of the wires and draw one again: one wire from end to end.",
}


@check("wire-loose", severity=Severity.WARNING)
def wire_loose(judgement: Judgement) -> Iterator[Finding]:
    """Every wire and every name in the drawing leads somewhere.

    What only looks connected is not made.  Example: a ground symbol in the middle of a wire, without a junction.

    Fix: end the wire on the pin, put a junction there, or fix the name's spelling.
    Accept: a name that is kept for later.
    Warns: a label whose name occurs once and connects nothing; a wire that ends just beside a pin or passes over it
    without a junction; a wire that ends on the middle of another; a flag with a gauge, colour or length that holds to
    no wire; a name that shares its point in the middle of a wire with another; wires on each other that KiCad's editor
    takes as one wire (Tabside too), while its command line keeps them apart and can give other nets.
    Passes: a name on a wire that connects two contacts; a pin under a no-connect flag; wires that cross.
    Source: KiCad's command line, 9.0.8 and 10.0.7, and the editor of 10.0.7, tried on wires that lie on each other.
    """
    for kind in LooseKind:
        some = [loose for loose in judgement.craft.loose if loose.kind is kind]
        if some:
            yield Finding(
                rule="wire-loose",
                severity=Severity.WARNING,
                message=_words(kind, some),
                fix=_FIX[kind],
                where=tuple(Where(place=loose.place) for loose in some),
                harm=harm.DEAD_LINK,
            )


def _words(kind: LooseKind, some: Sequence[DrawnLoose]) -> str:
    times = "" if len(some) == 1 else f" ({len(some)} times)"
    names = listed(list(dict.fromkeys(loose.name for loose in some if loose.name)) or [""])
    match kind:
        case LooseKind.LABEL_ONCE:
            shown = [f'"{loose.name}"{_like(loose)}' for loose in some]
            if len(some) == 1:
                return f"The name {shown[0]} occurs once, and its wire reaches no second contact."
            return f"{len(some)} names occur once, and their wires reach no second contact: {listed(shown)}."
        case LooseKind.NEAR_PIN:
            return f"A wire ends just beside {names} and does not touch it{times}."
        case LooseKind.OVER_PIN:
            return f"A wire passes over {names} without being connected to it{times}."
        case LooseKind.ON_WIRE:
            return f"A wire ends on the middle of another without being connected to it{times}."
        case LooseKind.FLAG_ALONE:
            return f"A flag with {names} holds to no wire{times} and is lost: two on one point hold to none."
        case LooseKind.NAME_DROPPED:
            return f"{names} shares its point on the wire with another name, flag or pin, and names nothing{times}."
        case _:
            return f"Wires lie on each other: KiCad's editor takes them as one wire, its command line need not{times}."


def _like(loose: DrawnLoose) -> str:
    return f' ("{loose.similar}" stands elsewhere)' if loose.similar else ""
