"""TOML files read with a schema: bounded; errors name the file and the line, or the key and the nearest right one."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any, TypeVar

import msgspec

from tabside.errors import TabsideError
from tabside.words.nearest import did_you_mean

Parsed = TypeVar("Parsed", bound=msgspec.Struct)
# The table at each path, for "did you mean"; paths as msgspec writes them, with indexes and names taken out.
_LONG_KEY = re.compile(rb"""(?<![\w"'.-])(?:[\w"'-]++[ \t]*+\.[ \t]*+){100}""")
KeysAt = Mapping[str, type[msgspec.Struct]]


def tree_of(raw: bytes, name: str) -> dict[str, Any]:
    """The tables of a TOML file; `name` stands in error messages.

    Raises: TabsideError with file and line.
    """
    found = _LONG_KEY.search(raw)
    if found is not None:  # the parser's time grows with the square of its parts
        line = raw.count(b"\n", 0, found.start()) + 1
        raise TabsideError("holds a key of more than a hundred parts; write it flat", file=name, line=line)
    try:
        return tomllib.loads(raw.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        raise TabsideError("is not UTF-8 text; save it as UTF-8", file=name, line=line) from None
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise _toml_error(str(error), name, lines=raw.count(b"\n") + 1) from None
    except ValueError:  # Python turns no text of thousands of digits into a number
        raise _long_number(raw, name) from None


def converted(tree: dict[str, Any], to: type[Parsed], keys_at: KeysAt, name: str) -> Parsed:
    """The tables as their schema has them.

    Raises: TabsideError with file and key.
    """
    try:
        return msgspec.convert(tree, to)
    except msgspec.ValidationError as error:
        raise TabsideError(_schema_message(str(error), keys_at), file=name) from None
    except RecursionError:
        raise TabsideError("is nested too deeply; write it flat", file=name) from None


def _toml_error(text: str, name: str, *, lines: int) -> TabsideError:
    found = re.search(r"\(at line (\d+), column (\d+)\)", text)
    what = re.sub(r"\s*\(at .*\)\Z", "", text) or "nested too deeply"
    if found is None:
        return TabsideError(f"{what}; fix the TOML", file=name, line=lines if "end of document" in text else None)
    return TabsideError(f"{what}; fix the TOML", file=name, line=int(found[1]), column=int(found[2]))


def _long_number(raw: bytes, name: str) -> TabsideError:
    found = re.search(rb"[0-9_]{1000,}", raw)
    line = None if found is None else raw.count(b"\n", 0, found.start()) + 1
    return TabsideError("holds a number of thousands of digits; write it shorter", file=name, line=line)


def _schema_message(text: str, keys_at: KeysAt) -> str:
    """One line from msgspec's message: the key's path, what is wrong, the nearest right key."""
    what, _, at = text.partition(" - at `")
    path = at.rstrip("`").removeprefix("$").lstrip(".")
    unknown = re.match(r"Object contains unknown field `(.*)`\Z", what, re.DOTALL)
    if unknown is None:
        plain = _in_words(what)
        return f"{path or 'the file'}: {plain[:1].lower() + plain[1:]}"
    key = unknown[1]
    table = keys_at.get(re.sub(r"\[[^\]]*\]", "[...]", path))
    right = list(table.__struct_encode_fields__) if table is not None else []
    hint = did_you_mean(key, right, f"it takes {', '.join(right)}", quote="`")
    return f"{f'{path}.{key}' if path else key}: no such key; {hint}"


_WORDS = {
    "int": "a whole number",
    "float": "a number",
    "str": "text",
    "array": "a list",
    "object": "a table",
    "bool": "true or false",
}


def _in_words(what: str) -> str:
    """What msgspec says, in words for a person who writes TOML."""
    missing = re.match(r"Object missing required field `(.*)`\Z", what)
    if missing is not None:
        return f"the key `{missing[1]}` is missing"

    def kinds(found: re.Match[str]) -> str:
        return " or ".join(_WORDS.get(word, word) for word in found[1].split(" | ") if word != "null")

    what = re.sub(r"`([a-z]+(?: \| [a-z]+)*)`", kinds, what)
    return re.sub(r"of length >= (\d+)", r"of at least \1", re.sub(r"of length <= (\d+)", r"of at most \1", what))
