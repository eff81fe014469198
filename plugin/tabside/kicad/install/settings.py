"""KiCad's settings files: JSON objects, of which we change a few lines and keep all others."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tabside.errors import TabsideError

Settings = dict[str, Any]


def parse_settings(content: bytes, path: Path) -> Settings:
    """A settings file as an object.

    Raises: TabsideError with line and column when it is not a JSON object, or when a key is there twice, as one of the
    two would be lost.
    """
    try:
        said = json.loads(content.decode("utf-8"), object_pairs_hook=_unique)
    except json.JSONDecodeError as error:
        raise TabsideError(
            f"is not valid JSON ({error.msg}); nothing was changed", file=path, line=error.lineno, column=error.colno
        ) from None
    except (ValueError, RecursionError):  # no UTF-8, or a number of thousands of digits
        raise TabsideError("is not valid JSON; nothing was changed", file=path) from None
    except KeyError as error:
        raise TabsideError(f"has the key {error} twice; nothing was changed", file=path) from None
    if not isinstance(said, dict):
        raise TabsideError("is not a JSON object; nothing was changed", file=path)
    return said


def settings_bytes(settings: Settings) -> bytes:
    """The same layout that KiCad writes: two blanks for each step."""
    return (json.dumps(settings, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def section(settings: Settings, name: str, path: Path) -> Settings:
    """An object in the settings, made when it is missing.

    Raises: TabsideError when there is something else of that name.
    """
    inner = settings.setdefault(name, {})
    if not isinstance(inner, dict):
        raise TabsideError(f'"{name}" is not an object there; nothing was changed', file=path)
    return inner


def entries(settings: Settings, name: str) -> list[Any]:
    """The list `plugins` of a section; empty where there is none."""
    inner = settings.get(name)
    listed = inner.get("plugins") if isinstance(inner, dict) else None
    return listed if isinstance(listed, list) else []


def _unique(pairs: list[tuple[str, Any]]) -> Settings:
    settings: Settings = {}
    for key, value in pairs:
        if key in settings:
            raise KeyError(key)
        settings[key] = value
    return settings
