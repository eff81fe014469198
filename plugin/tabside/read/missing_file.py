"""A file that is not there, with the name beside it that may have been meant."""

from __future__ import annotations

import os

from tabside.errors import TabsideError

MOST_NAMES = 2000  # looked through in one folder


def must_be_there(path: str, shown: str) -> None:
    """Raises: TabsideError, naming the nearest file of the same kind in its folder, when there is no such file."""
    if os.path.lexists(path):
        return
    folder, name = os.path.split(path)
    kind = name[name.find(".", 1) :] if "." in name[1:] else ""
    try:
        with os.scandir(folder or ".") as entries:
            beside = sorted(entry.name for _, entry in zip(range(MOST_NAMES), entries, strict=False))
    except (OSError, ValueError):
        return  # whoever reads the file says what is wrong
    from tabside.words.nearest import nearest

    names = [neighbour.removesuffix(kind) for neighbour in beside if kind and neighbour.endswith(kind)]
    meant = nearest(name.removesuffix(kind), names, alike=0.6)
    hint = "" if meant is None else f'; did you mean "{meant}{kind}"?'
    raise TabsideError(f"cannot be read: no such file or directory{hint}", file=shown)
