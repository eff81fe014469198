"""How a wire is called that the drawing does not use: it has no number of the wire list."""

from __future__ import annotations

_SPARE = "spare "


def spare_name(of: str) -> str:
    """`of`: its number in the old drawing, or its cavity in the first plug of a ready-made cable."""
    return f"{_SPARE}{of}"


def narrow(name: str) -> str:
    """As any wire is called in a box of the terminal: "spare 3" as "s3"."""
    return f"s{name[len(_SPARE) :]}" if name.startswith(_SPARE) else name
