"""Where the current limiter goes, and how it comes out again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from tabside.analysis.joined.joints import Joint, letters_of
from tabside.analysis.joined.lead_ends import EndKind
from tabside.model.craft import Contact
from tabside.prove.bench.world import SWITCHES
from tabside.prove.power.limiter_kinds import Limiter
from tabside.prove.power.supplies import Supplies
from tabside.wiring.terminations.part_kinds import TAKEN_OUT
from tabside.words.cautions import SUPPLY_LIMIT
from tabside.words.contacts import begun, listed, termination_name
from tabside.words.fuses import see_in


def limiter_of(supplies: Supplies) -> Limiter:
    """The kinds that may be used: a bench supply only where it goes into one plug and every pack comes off."""
    if not supplies.packs:
        return Limiter(smoke_stopper=False, bench_supply=True)
    plugs = [_plugs(supplies, fed) for fed in supplies.from_packs]
    through_plugs = all(is_plugged(supplies, fed) for fed in supplies.from_packs)
    if not through_plugs or len(plugs) != 1 or len(plugs[0]) != 1 or not _come_off(supplies, *plugs[0]):
        return Limiter(out=_how_out(supplies))
    return Limiter(bench_supply=True, into=tuple(plugs[0].values()))


def _come_off(supplies: Supplies, into: str) -> bool:
    """Whether all packs are off the craft with this plug out, and others that its supply does not come through."""
    fed = (mark for joints in supplies.from_packs for joint in joints for mark in joint.leads)
    stay = {end.key[0] for mark in fed for end in supplies.world.made[mark].ends if supplies.is_plug(end)} - {into}
    return all(_before_a_switch(supplies, joint) - stay for joint in supplies.joints if supplies.has_pack(joint))


def _how_out(supplies: Supplies) -> str:
    """How a pack without a plug is out."""
    fed = [joint for joints in supplies.from_packs for joint in joints]
    if not fed or is_plugged(supplies, fed):
        return ""
    if fuses := _fuses(supplies, fed):
        return f"neither fuse nor smoke stopper in {listed(fuses)}"
    return "the bare plus lead of the pack off everything, and taped"


def is_plugged(supplies: Supplies, fed: Iterable[Joint]) -> bool:
    """Whether a plug parts the pack from all that these joints feed, and it is one, or no fuse is before them all."""
    joints = list(fed)
    if not joints or not all(supplies.pluggable(joint.leads) for joint in joints):
        return False
    ends = (end for joint in joints for mark in joint.leads for end in supplies.world.made[mark].ends)
    own = any(end.kind is EndKind.MATE for end in ends)
    return own or len(_plugs(supplies, joints)) == 1 or not _fuses(supplies, joints)


def _before_a_switch(supplies: Supplies, joint: Joint) -> set[str]:
    """Where plugs lie on the way from a pack, up to the first switch."""
    found = set()
    for mark, place in _way(supplies, joint):
        found |= {end.key[0] for end in supplies.world.made[mark].ends if supplies.is_plug(end)}
        if letters_of(place) in SWITCHES:
            break
    return found


def limiter_alone(supplies: Supplies, fed: Sequence[Joint], packs: str, limiter: Limiter, volts: str) -> str:
    """The limiter with nothing on its output: there it is metered before a board is on it."""
    free = "its other end free, touching nothing: the pack is on"
    if is_plugged(supplies, fed):
        how = f"a smoke stopper onto the plug of {packs}, plus on plus, minus on minus; nothing on its output"
        if fuses := _fuses_before_a_plug(supplies, fed):
            how = f"{how}; fuse in {listed(fuses)}"
    elif fuses := _fuses(supplies, fed):
        how = f"fuse out of {listed(fuses)}; a smoke stopper onto the side of it that leads to the pack, {free}"
        back = [each for each in _fuses_back(supplies) if each not in fuses]
        how += f"; fuse in {listed(back)}" if back else ""
    else:
        how = f"a smoke stopper onto the bare end of the plus lead of {packs}, before that joint is soldered, {free}"
    before = _is_switched_before(supplies, fed)
    switched = "; a switch between pack and smoke stopper on, for this step alone" if before else ""
    begin = f"Only with the volts rows of {packs} on the continuity sheet ticked"
    if not is_plugged(supplies, fed):
        return f"{begin}: {how}{switched}"
    if not limiter.bench_supply:
        return f"{begin}: {how}{switched}. {begun(packs)} on"
    supply = f"a bench supply set to {volts} and {SUPPLY_LIMIT}, {packs} away, nothing on the supply's lead; supply on"
    return f"{begin}: EITHER {how}{switched}; {packs} on. OR {supply}"


def limiter_in(supplies: Supplies, fed: Sequence[Joint], packs: str, limiter: Limiter) -> str:
    """Between two plugs, in place of a fuse, or where the last joint of a soldered pack will be."""
    plugs = _plugs(supplies, fed)
    if is_plugged(supplies, fed):
        is_in = _fuses_before_a_plug(supplies, fed)
        fuses = [each for each in _all_fuses(supplies, fed) if each not in is_in]
        fused = f"{see_in(fuses)}. " if fuses else ""
        begin = f"{fused}Into {listed(list(plugs.values()))}, plus on plus, minus on minus: "
        stopper = f"the output of the smoke stopper in the lead of {packs}"
        if limiter.bench_supply:
            return f"{begin}EITHER {stopper}, OR the lead of the bench supply, {packs} away"
        return f"{begin}{stopper}"
    fuses = _fuses(supplies, fed)
    others = [each for each in _all_fuses(supplies, fed) if each not in fuses]
    behind = f"{see_in(others)}. " if others else ""
    behind += f"The plug into {listed(list(plugs.values()))}. " if plugs else ""
    if fuses:
        return f"{behind}Smoke stopper in place of the fuse in {listed(fuses)}: with it out of there the pack is out"
    return (
        f"{behind}Smoke stopper between the pad and the bare end of the plus lead of {packs}, before that joint is "
        "soldered: with that end off the pack is out"
    )


def meets(supplies: Supplies, joint: Joint) -> Contact:
    """What the limiter's plus will meet: the board's contact, or that of the plug for the pack's own."""
    own, met = supplies.own_and_met(joint)
    ends = [end for mark in joint.leads for end in supplies.world.made[mark].ends]
    return own if any(end.kind is EndKind.MATE and end.key == own.key for end in ends) else met


def _plugs(supplies: Supplies, fed: Iterable[Joint]) -> dict[str, str]:
    """What the plug of a pack's lead goes into, in words: a connector of a board, or the mate of a plug of its own."""
    found: dict[str, str] = {}
    for joint in fed:
        ends = [end for mark in joint.leads for end in supplies.world.made[mark].ends if supplies.is_plug(end)]
        mates = [end for end in ends if end.kind is EndKind.MATE]
        for end in mates or ends[:1]:
            name = termination_name(supplies.craft, end.key[0])
            found[end.key[0]] = f"the craft's plug for {name}" if mates else name
    return found


def limiter_out(supplies: Supplies, limiter: Limiter) -> str:
    """Of a pack without a plug that is what switches it on."""
    fed = [joint for joints in supplies.from_packs for joint in joints]
    if not limiter.smoke_stopper:
        return "Take the bench supply away"
    if limiter.bench_supply:
        return "Take the smoke stopper out, or the bench supply with its lead away"
    if not fed or is_plugged(supplies, fed):
        return "Take the smoke stopper out"
    if fuses := _fuses(supplies, fed):
        return f"Take the smoke stopper out, then the fuse into {listed(fuses)}: the pack is on"
    return "Take the smoke stopper out, then make the last joint as its sheet says, LIVE: the pack is on"


def _is_switched_before(supplies: Supplies, fed: Sequence[Joint]) -> bool:
    """Whether a switch lies between a pack and the limiter."""
    if is_plugged(supplies, fed) or not _fuses(supplies, fed):
        return bool(supplies.switches(fed)) and not all(_before_a_switch(supplies, joint) for joint in fed)
    for joint in fed:
        letters = [letters_of(place) for _, place in _way(supplies, joint)]
        first = next((n for n, some in enumerate(letters) if some in TAKEN_OUT), 0)
        if not SWITCHES.isdisjoint(letters[:first]):
            return True
    return False


def _fuses(supplies: Supplies, fed: Iterable[Joint]) -> list[str]:
    """In whose place a limiter is before all of these: the first on each way from a pack, else what all comes back by.

    None where one way has none; those of single branches lie behind it.
    """
    joints = list(fed)
    first = [_fuses_of(supplies, joint)[:1] for joint in joints]
    if not all(first):
        first = [_common_back(supplies, joints)]
    return list(dict.fromkeys(fuse for some in first for fuse in some))


def is_on_the_way_back(supplies: Supplies, fed: Iterable[Joint]) -> bool:
    """Whether the limiter is in a pack's minus, or between packs: its output has none of the volts of the rail."""
    joints = list(fed)
    return bool(_fuses(supplies, joints)) and not all(_fuses_of(supplies, joint) for joint in joints)


def _common_back(supplies: Supplies, fed: Sequence[Joint]) -> list[str]:
    """A fuse that is in every ground of these packs, or in every joint of one with the next, in series."""
    packs = {supplies.board(supplies.own_and_met(joint)[0]) for joint in fed}
    mine = [joint for joint in supplies.joints if _is_on_minus(supplies, joint) and packs & set(supplies.boards(joint))]
    between = [joint for joint in mine if set(supplies.boards(joint)) <= set(supplies.packs)]
    for joints in (between, [joint for joint in mine if joint not in between]):
        ways = [_fuses_of(supplies, joint)[:1] for joint in joints]
        if ways and all(ways):
            return list(dict.fromkeys(fuse for way in ways for fuse in way))
    return []


def _all_fuses(supplies: Supplies, fed: Iterable[Joint]) -> list[str]:
    """The first ones, then those of single branches, behind the limiter, and those by which it comes back."""
    ways = [_fuses_of(supplies, joint) for joint in fed]
    found = [fuse for way in ways for fuse in way[:1]] + [fuse for way in ways for fuse in way]
    return list(dict.fromkeys([*found, *_fuses_back(supplies)]))


def _fuses_back(supplies: Supplies) -> list[str]:
    """Through which the current comes back, or from one pack into the next: without them nothing has power."""
    ways = (_fuses_of(supplies, joint) for joint in supplies.joints if _is_on_minus(supplies, joint))
    return list(dict.fromkeys(fuse for way in ways for fuse in way))


def _is_on_minus(supplies: Supplies, joint: Joint) -> bool:
    """Of a pack: to a board's ground, or to the plus of the next pack."""
    return supplies.has_pack(joint) and (joint.a.role.is_ground or joint.b.role.is_ground)


def _fuses_of(supplies: Supplies, joint: Joint) -> list[str]:
    """In the order in which the current meets them."""
    way = list(_way(supplies, joint))
    ends = supplies.world.ends
    fuses = []
    for (mark, place), (after, _) in pairwise(way):
        crossed = {key for key in ends[mark] if key[0] == place} != {key for key in ends[after] if key[0] == place}
        fuses += [place] if crossed and letters_of(place) in TAKEN_OUT else []  # else both wires are on one end of it
    return fuses


def _fuses_before_a_plug(supplies: Supplies, fed: Iterable[Joint]) -> list[str]:
    """Those in the lead of a pack: with one of them out its plug has no volts, and the limiter none to show."""
    found: dict[str, None] = {}
    for joint in fed:
        before: list[str] = []
        for mark, place in _way(supplies, joint):
            if any(supplies.is_plug(end) for end in supplies.world.made[mark].ends):
                found |= dict.fromkeys(before)
                break
            before += [place] if letters_of(place) in TAKEN_OUT else []
    return list(found)


def _way(supplies: Supplies, joint: Joint) -> Iterator[tuple[str, str]]:
    """The leads of one joint in order from the pack on, each with the place to which it leads."""
    ends = supplies.world.ends
    at = supplies.own_and_met(joint)[0].key[0]
    left = list(joint.leads)
    while mark := next((mark for mark in left if at in (key[0] for key in ends[mark])), None):
        left.remove(mark)
        at = next((key[0] for key in ends[mark] if key[0] != at), at)
        yield mark, at
