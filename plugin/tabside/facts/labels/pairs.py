"""Verdicts on pairs of roles that the trade has written down.  What is not listed follows the table of classes."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.labels.role_kinds import is_field_only, kind_of
from tabside.facts.sources import Source, read_source
from tabside.model.roles import Direction, Role, RoleClass


class PairRule(Struct, frozen=True):
    """What is known about joining two roles.  The source's grade limits numbers, not this logic."""

    verdict: str  # "ok", "error", "hazard", "warn", "conditional"
    why: str
    source: Source


def pair_rule(a: str, b: str) -> PairRule | None:
    """The listed verdict on two roles' names, in either order; None when the pair is not listed.

    A row for "any signal" holds for every signal that has no row of its own.  Rows about two stated sources or about
    whole ports ("power_5v (source)", "rs232 DTE") are asked for by that name only: a label does not say it.
    """
    rules = _rules()
    found = rules.get(_key(a, b))
    if found is None and _is_signal(b):
        found = rules.get(_key(a, "any_signal"))
    if found is None and _is_signal(a):
        found = rules.get(_key(b, "any_signal"))
    return found


def pair_rule_between(a: Role, b: Role) -> PairRule | None:
    """As `pair_rule`, for two contacts: telemetry that is known to listen (an RX) may meet a TX."""
    names = {a.name, b.name}
    listening = any(role.name == "esc_telemetry" and role.direction is Direction.LISTENS for role in (a, b))
    if names == {"esc_telemetry", "uart_tx"} and listening:
        return pair_rule("uart_rx", "uart_tx")
    if names == {"esc_telemetry", "uart_rx"} and listening:
        return pair_rule("uart_rx", "uart_rx")
    return pair_rule(a.name, b.name)


def listed_pairs() -> tuple[tuple[str, str, PairRule], ...]:
    """The whole table, in file order."""
    return tuple(
        (row["role_a"], row["role_b"], PairRule(row["verdict"], row["why"], read_source(row["source"])))
        for row in tables.table_rows("role_pairs")
    )


@cache
def _rules() -> dict[frozenset[str], PairRule]:
    return {_key(a, b): rule for a, b, rule in listed_pairs()}


def _key(a: str, b: str) -> frozenset[str]:
    return frozenset((a, b))


def _is_signal(name: str) -> bool:
    kind = kind_of(name)
    return kind is not None and kind.cls is RoleClass.SIGNAL and not is_field_only(name, "pair")
