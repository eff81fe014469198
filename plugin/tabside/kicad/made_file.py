"""What a script of this package makes for KiCad, put where a person asks for it."""

from __future__ import annotations

import sys
from pathlib import Path


def write_made(target: Path, content: bytes) -> int:
    """Write the file and say where it is; the exit status."""
    try:
        target.write_bytes(content)
    except OSError as error:
        print(f"tabside: {target}: cannot be written: {error.strerror}", file=sys.stderr)
        return 2
    print(target)
    return 0
