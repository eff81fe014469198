"""The ways in which a cable is made."""

from __future__ import annotations

from enum import StrEnum


class Method(StrEnum):
    DIRECT = "direct"  # a captive plug mates as it is
    PLUG_IN = "plug-in"  # a ready-made cable as it is
    RE_PIN = "re-pin"  # contacts moved in their own housing
    RE_HOUSE = "re-house"  # contacts moved over into an empty housing
    ASSEMBLE = "assemble"  # pre-crimped leads into empty housings
    TAIL = "tail"  # a plug on one end, cut to length and soldered on the other
    SOLDER = "solder"
    AS_BOUGHT = "as-bought"  # coax, USB, flat flex: one object
    CRIMP = "crimp"  # contacts crimped here
