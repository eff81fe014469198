"""How each link ends, and what follows for making it."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.causes.order_words import order_words
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_termination
from tabside.facts import families
from tabside.model.craft import Kind, Link, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, link_name

KIND_WORDS = {
    "plug-plug": "connector to connector",
    "plug-pad": "connector to solder pad",
    "pad-pad": "solder pad to solder pad",
    "captive": "part with its own leads",
}


@check("end-kind", severity=Severity.NOTE, may_be_accepted=False)
def end_kind(judgement: Judgement) -> Iterator[Finding]:
    """One note for each connection: how each of its ends is made.

    How a connection ends decides how it is made, and what has to be bought.  Example: a plug on the autopilot's
    end, solder on the camera's.

    Fix: nothing; state Kind and Family where they are wrong.
    Accept: it is a note.
    Notes: every connection, with the kind of its two ends.
    Source: logic.
    """
    craft = judgement.craft
    for link in craft.links:
        first, second = (craft.terminations[reference] for reference in link.ends)
        kind, making = ends_of(first, second)
        order = order_words(judgement, link.ends)
        name, rest = link_name(craft, link.ends), f"{_leads(link)}{f', {order}' if order else ''}"
        yield Finding(
            rule="end-kind",
            severity=Severity.NOTE,
            message=f"{name}: {KIND_WORDS[kind]} ({_end(first)} - {_end(second)}), {rest}.",
            fix=making,
            where=tuple(at_termination(craft, reference) for reference in link.ends),
            link=link.ends,
            short=(KIND_WORDS[kind], f"{name} ({rest})"),
        )


def ends_of(first: Termination, second: Termination) -> tuple[str, str]:
    """The kind of a link's ends, and how it is made."""
    kinds = {first.kind, second.kind}
    if Kind.CAPTIVE in kinds:
        return _captive(first, second)
    plugs = sum(end.takes_plug for end in (first, second))
    if plugs == 2:
        if first.family is None or second.family is None:
            return "plug-plug", "A plug at each end. State both connector families so that the parts can be chosen."
        if first.family == second.family and first.ways == second.ways:
            return "plug-plug", "A ready-made cable of these plugs, if its order fits; else re-pin or assemble it."
        return "plug-plug", "Assemble it from wires and a housing for each end."
    if plugs == 1:
        return "plug-pad", "A plug on one end; cut the other to length and solder it."
    return "pad-pad", "Cut to length and solder both ends."


def _captive(first: Termination, second: Termination) -> tuple[str, str]:
    part, other = (first, second) if first.kind is Kind.CAPTIVE else (second, first)
    if part.family is None:
        making = "a plug for them" if other.takes_plug else "solder them"
        return "captive", f"The part's own leads: cut to length and {making}."
    if other.kind is not Kind.CAPTIVE and other.takes_plug and other.family == part.family and other.ways == part.ways:
        return "captive", "The part's own plug fits: nothing to make."
    if other.takes_plug:
        return "captive", "The part's plug does not fit this end: change it, or make an adapter."
    return "captive", "Cut the part's plug off and solder its leads, or put a board connector on this end."


def _end(end: Termination) -> str:
    match end.kind:
        case Kind.RECEPTACLE:
            title = families.family(end.family).title if end.family else "connector of unknown family"
            return f"{title}{f' {end.ways}-way' if end.ways else ''}"
        case Kind.CAPTIVE:
            return f"own leads with {families.family(end.family).title} plug" if end.family else "own leads"
        case Kind.PAD:
            return "pad"
        case Kind.SPLICE:
            return "splice"
        case _:
            return "in-line part"


def _leads(link: Link) -> str:
    return counted(len(link.leads), "wire")
