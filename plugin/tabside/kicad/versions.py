"""What differs between KiCad's versions, in one place.

Run and seen on KiCad 9.0.8 and 10.0.7.  The rest is from KiCad's newer source or from memory and was not run:

- KiCad 6, 7, 8: no button; the script door only (from memory).
- KiCad 10: the buttons as in 9, still without access to what is being edited, nor to the variant that is shown; behind
  its drop-down of variants they need a window about 1500 pixels wide, hence `toolbars`.  Projects with several root
  schematics (`top_level_sheets`): the button reads the one that is named like the project.
- KiCad 11 (in development): a button can ask for the schematic that is being edited; Tabside does not yet.
"""

from __future__ import annotations

Version = tuple[int, int]

OLDEST: Version = (6, 0)
FIRST_WITH_BUTTON: Version = (9, 0)
RUN_AND_SEEN: frozenset[Version] = frozenset({(9, 0), (10, 0)})


def version_of(name: str) -> Version | None:
    """The version that a folder of KiCad's settings is named for (`9.0`), or None for another folder."""
    major, dot, minor = name.partition(".")
    if not (dot and major.isascii() and major.isdigit() and minor.isascii() and minor.isdigit()):
        return None
    version = (int(major), int(minor))
    return version if version >= OLDEST else None


def has_button(version: Version) -> bool:
    """Whether the schematic editor of this version can have buttons of plugins."""
    return version >= FIRST_WITH_BUTTON


def remark(version: Version) -> str | None:
    """What a user of this version should know."""
    if not has_button(version):
        return "no button before KiCad 9: use the BOM script (Tools > Generate Legacy Bill of Materials)"
    if version not in RUN_AND_SEEN:
        return "not tried with this version of KiCad"
    return None
