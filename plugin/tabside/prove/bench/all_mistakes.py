"""All that hands do wrong while a craft is wired."""

from __future__ import annotations

from tabside.prove.bench.cable_mistakes import labels, left_out, look_alikes
from tabside.prove.bench.mistakes import Mistake
from tabside.prove.bench.plug_mistakes import at_plug
from tabside.prove.bench.solder_mistakes import at_solder
from tabside.prove.bench.world import World


def mistakes_of(world: World) -> tuple[Mistake, ...]:
    """All mistakes of the model that would do harm, cable by cable."""
    found: list[Mistake] = []
    for plug in world.plugs.values():
        found += at_plug(world, plug)
    found += left_out(world)
    found += at_solder(world)
    found += look_alikes(world)
    found += labels(world)
    return tuple({mistake.id: mistake for mistake in found}.values())
