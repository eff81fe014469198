"""How a wire is called that the drawing does not use: it has no number of the wire list."""

from __future__ import annotations


class SpareName(str):
    """ "spare 3"."""

    of: str


def spare_name(of: str) -> SpareName:
    """`of`: its number in the old drawing, or its cavity in the first plug of a ready-made cable."""
    name = SpareName(f"spare {of}")
    name.of = of
    return name


def narrow(name: str) -> str:
    """As any wire is called in a box of the terminal: "spare 3" as "s3"."""
    return f"s{name.of}" if isinstance(name, SpareName) else name
