"""Cables that the craft file keeps for a place: do they reach, and do they fit at all?"""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_termination
from tabside.facts import families
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity
from tabside.model.stock import StockCable
from tabside.rules.rule import check
from tabside.words.contacts import link_name

_TENTH = 0.05  # mm: nobody measures a cable closer


@check("slack", severity=Severity.ERROR)
def slack(judgement: Judgement) -> Iterator[Finding]:
    """A cable kept for a place is long enough for its path, and not far too long.

    A cable that is too short pulls its contacts out; a much too long one lies in the propellers.  Example: a
    ready-made cable of 100 mm for a path of 120 mm.

    Fix: use a longer cable, or move a board.
    Accept: a path that was measured too long.
    Passes: as long as the longest of its wires' paths, and longer by at most `costs.slack_limit_mm`.
    Notes: longer than that; the plan does not use it then.
    Warns: it has other plugs than the board connectors take, no wire is drawn there, or those of a cable with more
    ends.
    Fails: shorter than the path.
    Not checked: where its length, or that of a wire, is not stated.
    Source: logic; how much slack is too much: common practice, no source.
    """
    craft = judgement.craft
    for cable in craft.settings.stock_cables:
        if cable.reserved is not None:
            found = _misplaced(cable, craft, cable.reserved) or _misfit(cable, craft, cable.reserved)
            if found is not None:
                yield found


def _misplaced(cable: StockCable, craft: Craft, link: tuple[str, str]) -> Finding | None:
    """Whether it can be used for what is drawn there at all."""
    ends = {reference for other in craft.cables if set(link) <= set(other.ends) for reference in other.ends}
    if not any(lead.link == link for lead in craft.leads):
        what, fix = "has nothing to do there: no wire runs between the two", "Correct `for` in the craft file."
    elif len(ends) > 2:
        what = f"cannot be used there: the wires belong to a cable that meets {len(ends)} places"
        fix = "Draw a connector of its own for each cable, or take `for` out of the craft file."
    elif not _fits(cable, craft, link):
        what = f"has plugs {_plugs(cable)}, which do not go in there"
        fix = "Keep another cable for this place, or correct `ends` in the craft file."
    else:
        return None
    return _finding(cable, craft, link, Severity.WARNING, what, fix)


def _misfit(cable: StockCable, craft: Craft, link: tuple[str, str]) -> Finding | None:
    """Whether it is too short, or far too long."""
    path_mm = _path_mm(craft, link)
    if cable.length_mm is None or path_mm is None:
        return None
    over = cable.length_mm - path_mm
    if over < -_TENTH:
        what = f"is {cable.length_mm:g} mm long, {-over:.1f} mm too short for its path of {path_mm:g} mm"
        fix = "Keep a longer cable for this place, or move the boards."
        return _finding(cable, craft, link, Severity.ERROR, what, fix)
    if over <= craft.settings.costs.slack_limit_mm:
        return None
    what = (
        f"is {cable.length_mm:g} mm long, {over:.0f} mm longer than its path of {path_mm:.0f} mm; the plan does not use"
        " it"
    )
    fix = "Keep a shorter one, or raise `slack_limit_mm` in the craft file's [costs]."
    return _finding(cable, craft, link, Severity.NOTE, what, fix)


def _fits(cable: StockCable, craft: Craft, link: tuple[str, str]) -> bool:
    """Unknown plugs may fit."""
    ends = [craft.terminations[reference] for reference in link]
    if not all(end.takes_plug for end in ends):
        return False
    met = tuple((end.family, end.ways) for end in ends)

    def goes(plugs: tuple[tuple[str, int], ...]) -> bool:
        return all(
            (family is None or family == plug[0]) and (ways is None or ways == plug[1])
            for (family, ways), plug in zip(met, plugs, strict=True)
        )

    return goes(cable.ends) or goes(cable.ends[::-1])


def _path_mm(craft: Craft, link: tuple[str, str]) -> float | None:
    """The longest path of the leads between both; None when there are none, or one is not known."""
    lengths = [lead.length_mm for lead in craft.leads if lead.link == link]
    known = [length for length in lengths if length is not None]
    return max(known) if known and len(known) == len(lengths) else None


def _plugs(cable: StockCable) -> str:
    return " and ".join(f"{families.family(family).title} {ways}-way" for family, ways in cable.ends)


def _finding(
    cable: StockCable, craft: Craft, link: tuple[str, str], severity: Severity, what: str, fix: str
) -> Finding:
    return Finding(
        rule="slack",
        severity=severity,
        message=f'{link_name(craft, link)}: "{cable.name}", which the craft file keeps for this place, {what}.',
        fix=fix,
        where=tuple(at_termination(craft, reference) for reference in link),
        link=link,
    )
