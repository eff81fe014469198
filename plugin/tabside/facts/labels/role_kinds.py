"""The roles themselves: class, signal group, line and direction of each name that the tables use."""

from __future__ import annotations

from functools import cache

from msgspec.structs import replace

from tabside.facts import tables
from tabside.model.roles import Direction, Role, RoleClass, Volts

UNKNOWN = Role(RoleClass.UNKNOWN, "unknown")


def role_named(
    name: str,
    *,
    label: str = "",
    direction: Direction | None = None,
    volts: Volts | None = None,
    index: int | None = None,
    active_low: bool = False,
    said_by: str = "label",
) -> Role:
    """The role of this name, for roles that no label yields (`power_in`, `esc_signal`, `rs232_tx`, ...) too.

    A direction and volts given here outrank those that the name has by itself.

    Raises: KeyError when no table knows the name.
    """
    role = _roles()[name]
    return replace(
        role,
        label=label,
        direction=direction or role.direction,
        volts=volts or role.volts,
        index=index,
        active_low=active_low,
        said_by=said_by,
    )


def kind_of(name: str) -> Role | None:
    """The role of this name with nothing added, None when no table knows it."""
    return _roles().get(name)


def is_field_only(name: str, said_by: str = "field") -> bool:
    """Whether no label yields it: fields, pin types and explicit names do ("pair": it only stands in pair rules)."""
    return _said_by().get(name) == said_by


def role_names() -> tuple[str, ...]:
    return tuple(_roles())


def power_name(volts: float) -> str:
    """The table's name for a rail of this voltage; `power` where it has none."""
    exact = {3.3: "power_3v3", 4.5: "power_4v5", 5.0: "power_5v"}
    return exact.get(volts) or ("power_9_12v" if 9 <= volts <= 12 else "power")


@cache
def _roles() -> dict[str, Role]:
    return {
        row["role"]: Role(
            cls=RoleClass(row["class"]),
            name=row["role"],
            group=row["group"],
            line=row["line"],
            direction=Direction(row["direction"]),
            volts=Volts(float(row["volts"]), float(row["volts"])) if row["volts"] else None,
            battery=row["role"] == "battery",
        )
        for row in tables.table_rows("roles")
    }


@cache
def _said_by() -> dict[str, str]:
    return {row["role"]: row["said_by"] for row in tables.table_rows("roles")}
