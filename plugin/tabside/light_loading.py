"""Loads msgspec without `typing_extensions`, which it asks for and does without: that takes half as long."""

from __future__ import annotations

import sys
from importlib import import_module
from typing import Any, cast

_NAME = "typing_extensions"


def load_msgspec() -> None:
    """Load it; `typing_extensions` is there again afterwards, for whoever needs it (`watchfiles` does).

    None in `sys.modules` is Python's own word for a module that is not there (The Python Language Reference, 5.3.1,
    "The module cache").
    """
    modules = cast("dict[str, Any]", sys.modules)
    if "msgspec" in modules or _NAME in modules:
        return
    modules[_NAME] = None
    try:
        import_module("msgspec")
    finally:
        del modules[_NAME]
