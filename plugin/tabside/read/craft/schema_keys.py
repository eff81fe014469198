"""The keys of a TOML file with a schema: what each takes, and what holds where it is not said."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import msgspec
from msgspec import inspect

# What stands in the path of a table whose keys a person chooses.
CHOSEN = {"boards": "NAME", "lengths_mm": "CONNECTION", "wire.insulation_od_mm": "GAUGE"}


class Key(NamedTuple):
    path: str  # `stock.cables[].map`
    takes: str
    usual: str  # "" where it has none; "must be said" where it has to be there


def keys_of(schema: type[msgspec.Struct]) -> tuple[Key, ...]:
    """Every key that holds a value, in the schema's order."""
    return tuple(_of_struct(inspect.type_info(schema), ""))


def _of_struct(struct: inspect.Type, at: str) -> Iterator[Key]:
    assert isinstance(struct, inspect.StructType)
    for field in struct.fields:
        path = f"{at}.{field.encode_name}".lstrip(".")
        inner, where = _table_in(field.type, path)
        if inner is not None:
            yield from _of_struct(inner, where)
        elif isinstance(field.type, inspect.DictType):
            yield Key(where, _words(field.type.value_type), "")
        else:
            yield Key(path, _words(field.type), _usual(field))


def _table_in(kind: inspect.Type, path: str) -> tuple[inspect.StructType | None, str]:
    """The table that a key holds, and the path of its keys."""
    if isinstance(kind, inspect.StructType):
        return kind, path
    if isinstance(kind, inspect.ListType) and isinstance(kind.item_type, inspect.StructType):
        return kind.item_type, f"{path}[]"
    if isinstance(kind, inspect.DictType):
        where = f"{path}.{CHOSEN[path]}"
        return (kind.value_type if isinstance(kind.value_type, inspect.StructType) else None), where
    return None, path


def _usual(field: inspect.Field) -> str:
    if field.required:
        return "must be said"
    value = field.default
    if not isinstance(value, (bool, int, float, str)):  # none, or made afresh for each file: an empty table
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:.10g}" if isinstance(value, (int, float)) else str(value)


def _words(kind: inspect.Type) -> str:
    match kind:
        case inspect.UnionType():
            return " or ".join(_words(type_) for type_ in kind.types if not isinstance(type_, inspect.NoneType))
        case inspect.BoolType():
            return "true or false"
        case inspect.IntType() | inspect.FloatType():
            number = "whole number" if isinstance(kind, inspect.IntType) else "number"
            return f"{number}{_bounds(kind)}"
        case inspect.ListType():
            return f"list of {_count(kind)}{_words(kind.item_type)}"
        case _:
            return "text"


def _bounds(kind: inspect.IntType | inspect.FloatType) -> str:
    low = f", above {kind.gt:.10g}" if kind.gt is not None else "" if kind.ge is None else f", from {kind.ge:.10g}"
    return f"{low}{'' if kind.le is None else f' to {kind.le:.10g}'}"


def _count(kind: inspect.ListType) -> str:
    least, most = kind.min_length, kind.max_length
    if least is not None and least == most:
        return f"{least}: "
    return "" if most is None or least is None else f"{least} to {most}: "
