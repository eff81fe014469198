"""Whether a page was made of the drawing as it is saved now.

What a drawing may be read from lies below its folder (sheets, the project, craft and board files), or is named by a
craft or board file: boards and own boards' projects may lie anywhere.  When it is too much to look at, the page counts
as old: to make it again is never wrong.
"""

from __future__ import annotations

import glob
import hashlib
import html
import json
import os
import re
from collections.abc import Iterator
from pathlib import Path

READ = (".kicad_sch", ".kicad_pro", ".toml")
MOST_LOOKED_AT = 20_000
LARGEST_BYTES = 4 * 1024**2
_SHEETS = re.compile(r'data-files="([^"]*)"')
_NAMED = re.compile(r"""(["'])([^"'\n]+?\.(?:toml|kicad_sch))\1""")


def is_newer(page: Path, root: Path) -> bool:
    """Whether the page is newer than everything that the drawing may have been read from."""
    try:
        made = page.stat().st_mtime_ns
        return all(os.stat(file).st_mtime_ns < made for file in _read_by(root)) and _same_sheets(page.parent)
    except (OSError, ValueError, TypeError, _TooMuchError):
        return False


def _same_sheets(documents: Path) -> bool:
    """Whether the sheets are those that the findings were made of: a revision that git brings back may be older."""
    findings = documents / "findings.html"
    said = _SHEETS.search(findings.read_text(encoding="utf-8")) if findings.is_file() else None
    sheets = json.loads(html.unescape(said[1])) if said else []
    return all(hashlib.sha256((documents / way).read_bytes()).hexdigest() == digest for way, digest in sheets)


class _TooMuchError(Exception):
    """Too many files to look at."""


def _read_by(root: Path) -> Iterator[str]:
    yield str(root)
    for file in _below(str(root.parent)):
        yield file
        if file.endswith(".toml"):
            yield from _named_by(file)


def _below(folder: str) -> Iterator[str]:
    """Files that may be read, in all folders but hidden ones and those of our own documents."""
    looked_at = 0
    for at, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".") and not name.endswith("-tabside")]
        looked_at += len(names) + len(folders)
        if looked_at > MOST_LOOKED_AT:
            raise _TooMuchError
        yield from (os.path.join(at, name) for name in names if name.endswith(READ))


def _named_by(toml: str) -> Iterator[str]:
    """Files that a craft or board file names by patterns, and what lies beside a project of an own board."""
    with open(toml, "rb") as file:
        text = file.read(LARGEST_BYTES).decode("utf-8", "replace")
    for _, named in _NAMED.findall(text):
        for found in glob.iglob(os.path.join(os.path.dirname(toml), named), recursive=True):
            yield found
            if found.endswith(".kicad_sch"):
                yield from _below(os.path.dirname(found))
