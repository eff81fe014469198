"""Ready-made cables against the path: too short, or far too long."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.places import at_termination
from tabside.make.needs.cable_jobs import plug_pairs
from tabside.make.solve.choice import CableChoice, CraftChoice
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity
from tabside.words.contacts import link_name


def slack_findings(craft: Craft, choices: CraftChoice) -> tuple[Finding, ...]:
    """A stock cable of the right plugs that does not reach, or hangs far, where nothing better of the stock was found.

    It speaks of cables whose map would serve as it is; none of them is used.
    """
    return tuple(finding for choice in choices.cables for finding in _of(choice, craft))


def _of(choice: CableChoice, craft: Craft) -> Iterator[Finding]:
    drawn, path = plug_pairs(choice.job, craft), choice.job.path_mm
    if drawn is None or path is None or (choice.ready is not None and choice.ready.stock is not None):
        return
    a, b = choice.job.terminations
    plugs = tuple((craft.terminations[reference].family, craft.terminations[reference].ways) for reference in (a, b))
    for cable in craft.settings.stock_cables:
        there = sorted(cable.map)
        joins = (plugs == cable.ends and there == sorted(drawn)) or (
            plugs == cable.ends[::-1] and sorted((m, n) for n, m in there) == sorted(drawn)
        )
        if not joins or not cable.count or cable.length_mm is None or cable.reserved is not None:
            continue  # those that are kept for a place are checked
        over = cable.length_mm - path
        if 0 <= over <= craft.settings.costs.slack_limit_mm:
            continue
        short = over < 0
        yield Finding(
            rule="slack",
            severity=Severity.NOTE,
            message=f'{link_name(craft, (a, b))}: "{cable.name}" from stock connects the drawn contacts, but its '
            f"{cable.length_mm:g} mm are {abs(over):.0f} mm {'too short' if short else 'longer'} for the path of "
            f"{path:.0f} mm; it is not used.",
            fix="Nothing, if the plan suits; else move the boards."
            if short
            else "Raise costs.slack_limit_mm to use it.",
            where=tuple(at_termination(craft, reference) for reference in (a, b)),
            link=(a, b),
        )
