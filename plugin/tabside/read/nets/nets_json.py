"""The nets as JSON for people's scripts."""

from __future__ import annotations

from tabside.model.drawing import Drawing
from tabside.model.natural import natural


def nets_json(drawing: Drawing) -> dict[str, object]:
    """Every net that KiCad lists with at least one pin of a part: name, and (reference, pin number) pairs.

    Pins of power symbols and other references that begin with "#" are left out; so are nets that KiCad drops.  All is
    in natural order.
    """
    nets = []
    for net in drawing.nets:
        if net.dropped:
            continue
        pins = set()
        for key in net.pins:
            symbol = drawing.symbols[key[0]]
            listed = not symbol.is_power or drawing.kicad >= 10  # 10 lists a power symbol that is called U7
            if listed and not symbol.reference.startswith("#"):
                pins.add((symbol.reference, drawing.pin(key).number))
        if pins:
            nets.append({"name": net.name, "pins": [list(pin) for pin in sorted(pins, key=_order)]})
    return {"format": "tabside/nets/1", "nets": nets}


def _order(pin: tuple[str, str]) -> tuple[object, ...]:
    return (natural(pin[0]), natural(pin[1]), pin)
