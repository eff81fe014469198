"""After all boards have power: cables that bring none, motors, and the limiter out."""

from __future__ import annotations

from tabside.prove.power.limiter import limiter_out
from tabside.prove.power.rows import FEEL
from tabside.prove.power.stages import Stages
from tabside.words.cautions import EMPTY_BELOW, PACKS_WITHIN
from tabside.words.contacts import begun


def plug_in_rest(stages: Stages) -> None:
    """One cable at a time, under limited power."""
    left = [
        cable.mark
        for cable in stages.craft.cables
        if not set(cable.leads) & stages.plugged
        and stages.supplies.pluggable(cable.leads)
        and not any(stages.is_pack_lead(mark) for mark in cable.leads)
    ]
    if left:
        stages.stage("cables that bring no supply to a new board, one at a time")
    for mark in left:
        stages.power(f"{stages.out()}. Plug cable {mark} in. {stages.limited}", [])


def turn_motors(stages: Stages) -> None:
    """Motors, and what else a board drives, while the limiter is in."""
    driven = stages.supplies.driven()
    if not driven:
        return
    motors = all(sure for _, sure in driven)
    stages.stage("motors, one by one" if motors else "motors and what else is driven, one by one")
    begin = f"{stages.out()}. Propellers off, wheels and tracks off the ground, hands clear. {stages.limited}: "
    for board, sure in driven:
        expect = f"{board} alone turns" if sure else f"{board} alone turns; what is no motor does what it is for"
        way = f"if it turns the wrong way: all power out, rail below {EMPTY_BELOW}, then swap two of its wires"
        do = f"{begin}let {board} turn slowly, no load"
        stages.add(do, "", f"{expect}; {way}, or set it in the firmware", stages.limiter.turning())
        begin = f"{stages.still}: "


def take_limiter_out(stages: Stages) -> None:
    """And what comes last of all."""
    stages.stage("without the limiter")
    packs = "Packs" if len(stages.supplies.packs) > 1 else begun("".join(stages.supplies.packs))
    equal = f" Packs within {PACKS_WITHIN} of each other by the meter." if stages.supplies.parallel else ""
    home = f"Every plug fully home, antennas on, hands clear.{equal}"
    away = limiter_out(stages.supplies, stages.limiter)
    if stages.limiter.out:
        out = f"{stages.out()}. {home} {stages.with_switches(away, stages.tried)}"
    else:
        on = stages.with_switches(f"{packs or 'What feeds the craft'} on", stages.tried)
        out = f"{stages.out()}. {away}. {home} {on}"
    stages.add(out, "", f"all as before; {FEEL}; feel again after the first minute", "")
    stages.add(
        "Propellers on, wheels and tracks on the ground, where the craft has them: last of all, in the open",
        "",
        "as the maker says",
        "",
    )
