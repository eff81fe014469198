"""Where KiCad's name for a net follows from the order in its memory, and no rule foretells it."""

from __future__ import annotations

import re

from tabside.model.drawing import Drawing


def names_on(drawing: Drawing) -> dict[str, set[str]]:
    """For each net's name all names that labels and power symbols give it."""
    out: dict[str, set[str]] = {}
    for net in drawing.nets:
        out.setdefault(net.name, set()).update(net.power_names, net.label_names)
    return out


def is_excused(our: str, their: str, given: dict[str, set[str]]) -> bool:
    """Whether both names are right.

    A net with different global names on different sheets may carry any of them; automatic names that would be equal
    get their suffixes in the order of KiCad's search tree.
    """
    if re.sub(r"_\d+$", "", our) == re.sub(r"_\d+$", "", their):
        return True
    return not our.startswith("/") and not their.startswith("/") and {our, their} <= given.get(our, set())
