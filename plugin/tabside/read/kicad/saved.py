"""When a drawing was saved last."""

from __future__ import annotations

import os
from collections.abc import Iterable

from tabside.files import written_ns


def saved_at(root: str | os.PathLike[str], files: Iterable[str] = (), craft_file: str | None = None) -> float | None:
    """The newest time at which a sheet or the craft file was saved, in seconds since 1970; None when none can be asked.

    `files` are relative to the root sheet's folder.
    """
    folder = os.path.dirname(root)
    paths = [root, *(os.path.join(folder, file) for file in files), *((craft_file,) if craft_file else ())]
    return max((time / 1e9 for path in paths if (time := written_ns(path)) is not None), default=None)
