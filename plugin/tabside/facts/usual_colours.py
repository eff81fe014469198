"""Colours that wires of a function usually have.  Nothing is ever proven by a colour: makers differ."""

from __future__ import annotations

from functools import cache

from tabside.facts import tables
from tabside.model.roles import Role, RoleClass

# A wire in the other one's colour is taken for the other one: what they mean alone is polarity.
TAKEN_FOR = {"BK": "RD", "RD": "BK"}


def usual_colour(role: Role) -> str | None:
    """IEC 60757 code: by the role's name, else by its class; None where there is no custom (motor phases, unknown)."""
    if role.cls in (RoleClass.GROUND, RoleClass.SUPPLY, RoleClass.SIGNAL):
        return _codes().get(role.name) or _codes().get(role.cls.value)
    return None


@cache
def _codes() -> dict[str, str]:
    return {row["role"]: row["code"] for row in tables.table_rows("usual_colours")}
