"""At which joints power comes onto the craft, by what is joined then: there it comes through a smoke stopper.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from msgspec.structs import replace

from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.packs.poles import Poles
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.make.sheets.loose.joints import POWER_HERE


def power_said(cables: Sequence[CableWork], poles: Poles, fuses: Collection[str]) -> list[CableWork]:
    """`poles`: how things stand before the first step; `fuses`: all that are out while hands are at work."""
    on, done = poles.on(fuses), []
    for work in cables:
        steps: list[Step] = []
        for step in work.steps:
            poles.does(step, work.old_leads)
            now = poles.on(fuses) if step.cavity and step.action in (*OFF, Action.SOLDER) else on
            comes = step.action is Action.SOLDER and now - on
            steps.append(replace(step, power=f"{step.power}{POWER_HERE}") if comes else step)
            on = now
        done.append(work.with_steps(steps))
    return done
