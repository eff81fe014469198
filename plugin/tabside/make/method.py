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

    @property
    def words(self) -> str:
        """As a sheet's heading says it."""
        return _WORDS.get(self.value, self.value)

    @property
    def brief(self) -> str:
        """Where there is room for two words."""
        return _BRIEF.get(self.value, self.value)


_BRIEF = {
    "direct": "its own plug",
    "plug-in": "use as is",
    "tail": "solder 1 end",
    "solder": "solder",
    "as-bought": "as bought",
}
_WORDS = {
    "direct": "plug in its own connector",
    "plug-in": "ready-made cable, use as is",
    "re-pin": "re-pin a ready-made cable",
    "re-house": "move contacts into another housing",
    "assemble": "assemble from pre-crimped leads",
    "tail": "plug at one end, solder the other",
    "solder": "solder both ends",
    "as-bought": "bought complete, use as is",
    "crimp": "crimp by hand",
}
