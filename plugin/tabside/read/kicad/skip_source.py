"""A kicad-skip `Schematic` object in place of a file: its tree of sexpdata's lists, read as our own tree.

kicad-skip itself is not imported: whatever has a `tree` that is a list and a `filepath` will do.
"""

from __future__ import annotations

import os
from typing import Any

import sexpdata

from tabside.errors import TabsideError
from tabside.read.kicad.content import sheet_file_of_tree
from tabside.read.kicad.sheet_file import SheetFile
from tabside.read.kicad.text.damage import DEEPEST
from tabside.read.kicad.text.sexpr import Atom, Node, WrongContent


def is_tree_source(source: object) -> bool:
    return isinstance(getattr(source, "tree", None), list)


def path_of(source: object) -> str:
    """The file that the object was read from, "" when it has none."""
    path = getattr(source, "filepath", None)
    return os.fspath(path) if isinstance(path, (str, os.PathLike)) else ""


def sheet_file_of_source(source: Any, shown: str) -> SheetFile:
    """The content of the object's tree, as it stands now, saved or not.  Raises: TabsideError."""
    path = path_of(source)
    try:
        tree = _own_tree(source.tree, 0)
        data = repr(tree).encode("utf-8", "surrogatepass")
        return sheet_file_of_tree(tree, os.path.abspath(path) if path else "", data)
    except WrongContent as e:
        raise TabsideError(f"cannot be read as a schematic: {e.what}", file=shown) from None


def _own_tree(node: list[Any], depth: int) -> Node:
    if depth > DEEPEST:
        raise WrongContent(f"lists are nested more than {DEEPEST} deep")
    return [_own_tree(value, depth + 1) if isinstance(value, list) else _own_value(value) for value in node]


def _own_value(value: object) -> object:
    if isinstance(value, sexpdata.Symbol):
        return Atom(value.value())
    if value is True:  # sexpdata's reading of the bare word `t`
        return Atom("t")
    if isinstance(value, (int, float)):
        return Atom(repr(value))
    if isinstance(value, str):
        return str(value)
    return Atom(str(value))
