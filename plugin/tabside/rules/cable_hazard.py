"""Ready-made cables that fit both ends of a link and would join what must not meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache

from tabside.analysis.causes.link_causes import single_row
from tabside.analysis.joined.wired import Link
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft, Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.stock import StockCable
from tabside.rules.rule import check
from tabside.words.contacts import link_name, listed


@check("straight-hazard", "reversed-hazard", severity=Severity.WARNING)
def cable_hazard(judgement: Judgement) -> Iterator[Finding]:
    """A ready-made cable fills every cavity; one that plugs in at both ends must not connect battery to a signal.

    Most ready-made cables of a family look alike and differ in the order of their wires. The wrong kind goes in as
    easily as the right one.  Example: a straight cable where the drawing needs a reversed one puts 5 V on ground.

    Fix: re-pin it as the plan says, and check it with a meter before power.
    Accept: where no such cable is near the bench.
    Passes: ends of other families or ways; an order that agrees contact by contact.
    Notes: a straight (or reversed) cable fits both ends and would clash: the worst pair in words.
    Warns: when such a cable is in stock.
    Source: logic, by the functions of both ends.
    """
    craft = judgement.craft
    for link in judgement.links:
        first, second = (craft.terminations[reference] for reference in link)
        if not same_plug(first, second):
            continue
        drawn = {(joint.a.number, joint.b.number): judgement.outcomes[joint] for joint in judgement.links[link]}
        ends = ({c.number: c for c in first.contacts}, {c.number: c for c in second.contacts})
        for order in ("straight", "reversed"):
            cable = _map(order, first.ways or 0)
            clashes = [] if _is_drawn(judgement, link, cable) else list(_clashes(judgement, ends, drawn, cable))
            if clashes:
                stock = [
                    spare for spare in craft.settings.stock_cables if spare.count and _matches(spare, first, cable)
                ]
                yield _finding(craft, link, order, clashes, stock)


def same_plug(first: Termination, second: Termination) -> bool:
    """Whether one ready-made cable with equal plugs fits both: receptacles of one single-row family, equal ways."""
    return (
        first.kind is second.kind is Kind.RECEPTACLE
        and first.family is not None
        and first.family == second.family
        and first.ways is not None
        and first.ways == second.ways
        and single_row(first)
        and single_row(second)
    )


@cache
def _map(order: str, ways: int) -> Mapping[str, str]:
    """Contact -> contact of a ready-made cable."""
    return {str(n): str(n if order == "straight" else ways + 1 - n) for n in range(1, ways + 1)}


def _is_drawn(judgement: Judgement, link: Link, cable: Mapping[str, str]) -> bool:
    """Whether the drawing joins every lead as this cable does, with its clashes told already."""
    joints = judgement.links[link]
    return all(cable.get(joint.a.number) == joint.b.number for joint in joints) and any(
        joint in judgement.clashing for joint in joints
    )


def _clashes(
    judgement: Judgement,
    ends: tuple[dict[str, Contact], dict[str, Contact]],
    drawn: dict[tuple[str, str], Agreement],
    cable: Mapping[str, str],
) -> Iterator[tuple[Contact, Contact, Agreement]]:
    """`ends`: the contacts of both by number; `drawn`: what the drawing joins, by numbers."""
    for numbers in cable.items():
        a, b = ends[0].get(numbers[0]), ends[1].get(numbers[1])
        if a is None or b is None:
            continue
        found = drawn.get(numbers) or judgement.agree(a, b)
        # Two inputs that the drawing leaves apart do no harm when a cable joins them.
        if found.clashes and (numbers in drawn or not found.nobody_drives or _in_use(judgement, a, b)):
            yield a, b, found


def _in_use(judgement: Judgement, a: Contact, b: Contact) -> bool:
    """Whether the drawing joins both contacts to something, so that the cable would take it from them."""
    return a.key in judgement.joined and b.key in judgement.joined


def _matches(stock: StockCable, end: Termination, cable: Mapping[str, str]) -> bool:
    plug = (end.family, end.ways)
    return stock.ends == (plug, plug) and {str(a): str(b) for a, b in stock.map} == cable


def _short(contact: Contact) -> str:
    return f"{contact.number} ({contact.label})" if contact.label else contact.number


def _finding(
    craft: Craft, link: Link, order: str, clashes: list[tuple[Contact, Contact, Agreement]], stock: list[StockCable]
) -> Finding:
    a, b, worst = max(clashes, key=lambda found: found[2].harm)
    in_stock = f" One is in stock: {listed([spare.name for spare in stock])}." if stock else ""
    return Finding(
        rule=f"{order}-hazard",
        severity=Severity.WARNING if stock else Severity.NOTE,
        message=f"{link_name(craft, link)}: a ready-made {order} cable here would connect {_short(a)} to {_short(b)}:"
        f" {worst.reason}.{in_stock}",
        fix=f"Never plug in a {order} cable here as it is: re-pin it, and check it with a meter before power.",
        where=at_contacts(craft, (a, b)),
        link=link,
        harm=worst.harm,
    )
