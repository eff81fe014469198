"""Rails that are asked for more than they give."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.flows.circuits import Circuit
from tabside.analysis.flows.flow import Amps, Flows
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Rail
from tabside.rules.rule import check
from tabside.words.contacts import listed, termination_name

_SLACK = 1 + 1e-9


@check("over-budget", severity=Severity.ERROR)
def over_budget(judgement: Judgement) -> Iterator[Finding]:
    """The loads on a rail stay within what its board states to give.

    A figure is that of the plug it is written at; where it is the only one of a board's rail, or the same at several
    plugs, it is also that of the whole rail.  A load that states one current draws it typically and at most.

    A regulator loaded beyond its rating sags or shuts down, in the moment when most is asked of it.  Example: five
    boards of 0.4 A each on a rail of 1.5 A.

    Fix: move loads to another rail, or use a regulator of more amperes.
    Accept: loads that never run at the same time.
    Passes: 0.5 A on a rail of 1 A; boards that state no current.
    Fails: typical loads above the rating.
    Warns: typical loads above 80 % (settable), maxima above 100 %; a whole rail of which several plugs say the same.
    Source: logic; 80 % is common practice, no source.
    """
    flows = judgement.flows
    if not flows.any_stated:
        return
    for circuit in flows.supplies.circuits:
        if not circuit.clashes:
            sources = flows.sources_of(circuit)
            for number in circuit.nodes:
                yield from _of_node(flows, circuit, number, sources)


def _of_node(flows: Flows, circuit: Circuit, number: int, sources: list[int]) -> Iterator[Finding]:
    node = flows.supplies.nodes[number]
    stated = [(termination, rail, amps) for termination, rail in node.gives if (amps := _rating(rail)) is not None]
    told = False
    for termination, rail, rating in stated:
        load = _through(flows, circuit, number, {termination})
        finding = _judge(flows, number, [(termination, rail)], rating, load, shared=False)
        if finding is not None:
            told = True
            yield finding
    figures = {rating for _, _, rating in stated}
    if not told and len(figures) == 1 and number in sources:
        load = _whole_load(flows, circuit, sources) if len(sources) == 1 else _through(flows, circuit, number, None)
        rails = [(termination, rail) for termination, rail, _ in stated]
        finding = _judge(flows, number, rails, figures.pop(), load, shared=len(rails) > 1)
        if finding is not None:
            yield finding


def _rating(rail: Rail) -> float | None:
    return rail.max_a if rail.max_a is not None else rail.typical_a


def _through(flows: Flows, circuit: Circuit, number: int, terminations: set[str] | None) -> Amps:
    """What leaves a node over these terminations of its, as far as it is decided; None: over all."""
    load = Amps()
    for ends, leads in circuit.bundles.items():
        if number not in ends:
            continue
        here = {reference for lead in leads for reference, _ in lead.ends} & {
            contact.termination for contact in flows.supplies.nodes[number].contacts
        }
        if terminations is not None and not here <= terminations:
            continue
        flow = flows.in_supplies.get(ends)
        if flow is None:
            load = load.plus(Amps(whole=False))
        elif flow.into != number:
            load = load.plus(flow.amps)
    return load


def _whole_load(flows: Flows, circuit: Circuit, sources: list[int]) -> Amps:
    """All loads of a circuit with one source, whichever way they are fed."""
    load = Amps()
    for number in circuit.nodes:
        load = load.plus(flows.load_of(number, sources))
    return load


def _judge(
    flows: Flows, number: int, rails: list[tuple[str, Rail]], rating: float, load: Amps, *, shared: bool
) -> Finding | None:
    percent = flows.craft.settings.limits.budget_percent
    if load.typical > rating * _SLACK:
        severity, what, amps = Severity.ERROR, f"typical loads of {load.typical:.3g} A", load.typical
    elif load.most > rating * _SLACK:
        severity, what, amps = Severity.WARNING, f"loads of up to {load.most:.3g} A", load.most
    elif load.typical > rating * percent / 100 * _SLACK:
        severity, what, amps = Severity.WARNING, f"typical loads of {load.typical:.3g} A", load.typical
    else:
        return None
    craft = flows.craft
    names = listed([termination_name(craft, termination) for termination, _ in rails])
    least = "" if load.whole else "at least "
    plugs = " on all plugs that state it, taken as one regulator" if shared else ""
    beyond = f", beyond {percent:g} %" if load.most <= rating * _SLACK and load.typical <= rating * _SLACK else ""
    share = f": {100 * amps / rating:.0f} %{beyond}" if rating > 0 else ""  # "0 A" is stated of what is off
    return Finding(
        rule="over-budget",
        severity=Severity.WARNING if shared else severity,
        message=f"{names} gives {rails[0][1].text}; {least}{what}{plugs} drawn from it{share}.",
        fix="Feed some of the loads from another rail, or from a stronger regulator; or correct Gives and Takes.",
        where=at_contacts(craft, _contacts(flows, number, {termination for termination, _ in rails})),
        harm=harm.TOO_WEAK,
    )


def _contacts(flows: Flows, number: int, terminations: set[str]) -> list[Contact]:
    """The giving contacts, then those that take."""
    nodes = flows.supplies.nodes
    return [contact for contact in nodes[number].contacts if contact.termination in terminations and contact.gives]
