"""Loads on a net that nothing is stated to feed."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.analysis.supplies import Unfed, unfed_rails
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("no-source", severity=Severity.WARNING)
def no_source(judgement: Judgement) -> Iterator[Finding]:
    """A net between boards with stated loads has a stated source, here, behind in-line parts or inside a board.

    Without a source the boards are not powered, or the drawing does not say by whom: then volts and currents cannot be
    checked.  Example: a camera that takes 5V 0.4A on a contact 5V of an autopilot that says nothing of it; VIN of one
    board on VIN of another.

    Fix: state Gives at the contact that feeds the net, or connect a supply to it.
    Accept: where the board feeds it and its rating does not matter.
    Passes: a load behind a fuse and a switch; a board that passes on the battery that it is fed from; `Either`.
    Warns: `Takes` (or a power-input pin) on a net where no board states `Gives` (or has a power-output pin); two
    contacts named as inputs that meet only each other.  One finding for all ports of the board that would feed them.
    Notes: the same where that board is itself fed.
    Source: logic.
    """
    gathered: dict[tuple[str, bool], list[Unfed]] = {}
    for unfed in unfed_rails(judgement):
        gathered.setdefault((unfed.feeder, unfed.feeder_is_fed), []).append(unfed)
    for (feeder, fed), found in gathered.items():
        yield _finding(judgement, feeder, fed, found)


_NETS_SHOWN = 2


def _finding(judgement: Judgement, feeder: str, fed: bool, found: list[Unfed]) -> Finding:
    craft = judgement.craft
    loads: list[Contact] = [load for unfed in found for load in unfed.loads]
    names = listed(list(dict.fromkeys(name_of(craft, load) for load in loads)), 3)
    nets = list(dict.fromkeys(load.net for load in loads))
    verb, net = ("draws", "the net") if len(loads) == 1 else ("draw", "the net" if len(nets) == 1 else "the nets")
    where = f" from {net} {listed(nets)}" if len(nets) <= _NETS_SHOWN else ""
    by = f"{feeder} is not said to supply it" if feeder else "nothing in the drawing supplies it"
    return Finding(
        rule="no-source",
        severity=Severity.NOTE if fed else Severity.WARNING,
        message=f"{names} {verb} power{where}, but {by}.",
        fix=f"State Gives at the contacts of {feeder} that feed them."
        if feeder
        else "State Gives at the contact that feeds this net, or connect the net to a supply.",
        where=at_contacts(craft, loads),
        harm=harm.NOT_FED,
    )
