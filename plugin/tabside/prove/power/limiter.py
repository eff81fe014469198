"""Where the current limiter goes, and how it comes out again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tabside.analysis.joints import Joint, letters_of
from tabside.analysis.lead_ends import EndKind
from tabside.model.craft import Contact
from tabside.prove.power.supplies import Supplies
from tabside.wiring.terminations.part_kinds import FUSES
from tabside.words.contacts import listed, termination_name


def limiter_alone(supplies: Supplies, fed: Sequence[Joint], packs: str) -> str:
    """The limiter on the pack, and nothing on its output: there it is metered before a board is on it."""
    free = "its other end free, touching nothing"
    if any(supplies.pluggable(joint.leads) for joint in fed):
        how = f"limiter onto the plug of {packs}, plus on plus, minus on minus; nothing on its output"
    elif fuses := _fuses(supplies, fed):
        how = f"fuse out of {listed(fuses)}; limiter onto the side of it that leads to the pack, {free}"
    else:
        how = f"limiter onto the bare end of the plus lead of {packs}, before that joint is soldered, {free}"
    switched = "; a switch between pack and limiter on, for this step alone" if supplies.switches(fed) else ""
    return f"Only with the volts rows of {packs} on the continuity sheet ticked: {how}{switched}"


def limiter_in(supplies: Supplies, fed: Sequence[Joint], packs: str) -> str:
    """Between two plugs, in place of a fuse, or where the last joint of a soldered pack will be."""
    if plugs := _plugs(supplies, fed):
        return f"Limiter into the lead of {packs}: its output into {listed(plugs)}, plus on plus, minus on minus"
    if fuses := _fuses(supplies, fed):
        return f"Limiter in place of the fuse in {listed(fuses)}: with the limiter out of there the pack is out"
    return (
        f"Limiter between the pad and the bare end of the plus lead of {packs}, before that joint is soldered: "
        "with that end off the pack is out"
    )


def meets(supplies: Supplies, joint: Joint) -> Contact:
    """What the limiter's plus will meet: the board's contact, or that of the plug for the pack's own."""
    own, met = supplies.own_and_met(joint)
    ends = [end for mark in joint.leads for end in supplies.world.made[mark].ends]
    return own if any(end.kind is EndKind.MATE and end.key == own.key for end in ends) else met


def _plugs(supplies: Supplies, fed: Iterable[Joint]) -> list[str]:
    """What the plug of a pack's lead goes into: a connector of a board, or the mate of a plug of its own."""
    found: dict[str, None] = {}
    for joint in fed:
        ends = [end for mark in joint.leads for end in supplies.world.made[mark].ends if supplies.is_plug(end)]
        mates = [end for end in ends if end.kind is EndKind.MATE]
        for end in mates or ends[:1]:
            name = termination_name(supplies.craft, end.key[0])
            found[f"the plug for {name}" if mates else name] = None
    return list(found)


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
