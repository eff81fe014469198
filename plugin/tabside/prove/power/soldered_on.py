"""What gets its power over solder: its volts are measured at pads, what is behind a switch is tried there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tabside.model.craft import Contact
from tabside.prove.power.rows import FEEL, VoltsThere
from tabside.prove.power.stages import Pair, Stages
from tabside.words.contacts import listed


def measure_soldered(stages: Stages, boards: Iterable[str]) -> None:
    """Volts at the pads of what got its power over solder; what is behind a switch is tried there."""
    for found in stages.supplies.soldered_on(boards):
        switches = stages.supplies.switches(joint for _, _, joint in found)
        at = [pair for near, far, _ in found if (pair := _pad_of(stages, near, far, switched=bool(switches)))]
        if switches:
            _try_switch(stages, switches, [stages.supplies.board(far) for _, far, _ in found], at)
            continue
        on = stages.with_switches(stages.still)
        stages.light(stages.supplies.board(far) for _, far, _ in found)
        for (expect, volts), pads in _by_volts(stages, at).items():
            where = f"DC volts at the pads: {stages.places.pads(pads)}"
            stages.add(f"{on}: measure", where, expect, stages.limiter_with(), volts)


def _pad_of(stages: Stages, near: Contact, far: Contact, *, switched: bool) -> tuple[Contact, Contact] | None:
    """Near contact, and the pad where it is measured: that of the board which is fed, else the one before."""
    if stages.places.is_pad(far):
        return (near, far)
    return (near, near) if stages.places.is_pad(near) and not switched else None


def _by_volts(stages: Stages, at: Iterable[Pair]) -> dict[tuple[str, VoltsThere | None], list[Contact]]:
    groups: dict[tuple[str, VoltsThere | None], list[Contact]] = {}
    for near, pad in at:
        volts = stages.places.promised(near, pad)
        groups.setdefault((stages.places.expected(near, volts), volts), []).append(pad)
    return {key: list(dict.fromkeys(pads)) for key, pads in groups.items()}


def _try_switch(stages: Stages, switches: Sequence[str], boards: Sequence[str], at: Sequence[Pair]) -> None:
    """Something behind a switch: a lamp, or boards that stay on from here."""
    members = list(dict.fromkeys(boards))
    stays = all(map(stages.stays_on, switches))
    shown = stages.shown(switches)
    back = "" if stays else ", and off again when you have seen it"
    do = f"{stages.still}: switch {shown} on{back}"
    expect = f"{listed(members, 12)}: on as its maker says, {FEEL}{stages.turned(members)}"
    where, volts = "", None
    if at:
        (words, volts), pads = next(iter(_by_volts(stages, at).items()))
        where, expect = f"DC volts at the pads: {stages.places.pads(pads)}", f"{words}; {expect}"
    stages.add(do, where, expect, stages.limiter_with(members), volts)
    to = stages.on if stays else stages.tried
    to += [switch for switch in switches if switch not in to]
    if stays:
        stages.light(members)
