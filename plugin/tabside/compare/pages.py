"""The comparison as documents, in the formats that installed packages offer."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from tabside.compare.comparison import Comparison
from tabside.compare.order.order_of_work import Order, order_of_work
from tabside.documents.about import About, about_build
from tabside.documents.build import craft_build
from tabside.documents.document import Format, find_formats
from tabside.documents.writing.staging import replace_files
from tabside.errors import TabsideError
from tabside.read.kicad.lock import OnScreen

if TYPE_CHECKING:
    Writer = Callable[[Order, About, Format], bytes]

COMPARISONS = "tabside.comparisons"  # entry-point group: name -> what writes the work between two builds in a format


def write_comparison(comparison: Comparison, to: str, formats: str | None, *, unsaved: bool = False) -> tuple[str, ...]:
    """Write the pages to a folder, replaced whole; returns their names.

    `unsaved`: KiCad holds changes of the new side that are in no file.

    Raises: TabsideError for an unknown format, and when the folder cannot be written; then nothing of it has changed.
    """
    from pathlib import Path

    wanted = None if formats is None else [word.strip() for word in formats.split(",") if word.strip()]
    writers = find_formats(wanted)
    new, order = comparison.new, order_of_work(comparison)
    on_screen = OnScreen.CHANGED if unsaved else OnScreen.SAVED
    about = about_build(craft_build(new.craft, comparison.verdict, judgement=new.judgement, on_screen=on_screen))
    files: dict[str, bytes] = {}
    for name, write in _writers().items():
        for format in writers.values():
            files[f"{name}.{format.suffix}"] = write(order, about, format)
    replace_files(Path(to), files)
    return tuple(sorted(files))


def _writers() -> Mapping[str, Writer]:
    from importlib.metadata import entry_points

    found = sorted(entry_points(group=COMPARISONS), key=lambda offer: offer.name)
    if not found:
        raise TabsideError("no package offers a page of comparisons; install Tabside again")
    return {offer.name: offer.load() for offer in found}
