"""Where the current limiter goes, and how it comes out again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tabside.analysis.joints import Joint, letters_of
from tabside.prove.power.supplies import Supplies
from tabside.wiring.terminations.part_kinds import FUSES
from tabside.words.contacts import listed


def limiter_in(supplies: Supplies, fed: Sequence[Joint], packs: str) -> str:
    """Between two plugs, in place of a fuse, or where the last joint of a soldered pack will be."""
    ticked = "on the continuity sheet are ticked"
    if any(supplies.pluggable(joint.leads) for joint in fed):
        return f"Limiter into the lead of {packs}, whose volts rows {ticked}"
    if fuses := _fuses(supplies, fed):
        out = "with the limiter out of there the pack is out"
        return f"Limiter in place of the fuse in {listed(fuses)}: {out}; the volts rows of {packs} {ticked}"
    return (
        f"Limiter between the pad and the bare end of the plus lead of {packs}, before that joint is soldered: "
        f"with that end off the pack is out; its volts rows {ticked}"
    )


def limiter_out(supplies: Supplies) -> str:
    fed = [joint for joints in supplies.from_packs for joint in joints]
    if not fed or any(supplies.pluggable(joint.leads) for joint in fed):
        return "Take the limiter out"
    if fuses := _fuses(supplies, fed):
        return f"Take the limiter out, the fuse into {listed(fuses)}"
    return "Take the limiter out and make the last joint as its sheet says, LIVE"


def _fuses(supplies: Supplies, fed: Iterable[Joint]) -> list[str]:
    ends = {lead.mark: lead.ends for lead in supplies.craft.leads}
    met = dict.fromkeys(key[0] for joint in fed for mark in joint.leads for key in ends[mark])
    return [reference for reference in met if letters_of(reference) in FUSES]
