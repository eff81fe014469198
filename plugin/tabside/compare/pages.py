"""The comparison as documents, in the formats that installed packages offer."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from ..errors import TabsideError
from ..plan.about import About, about_build
from ..plan.build import build_plan
from ..plan.documents import Page, find_formats
from ..plan.staging import replace_files
from .comparison import Comparison

if TYPE_CHECKING:
    PageMaker = Callable[[Comparison, About], Page]

COMPARISONS = "tabside.comparisons"  # entry-point group: name -> what makes a page of a comparison


def write_comparison(comparison: Comparison, to: str, formats: str | None) -> tuple[str, ...]:
    """Write the pages to a folder, replaced whole; returns their names.

    Raises: TabsideError for an unknown format, and when the folder cannot be written; then nothing of it has changed.
    """
    from pathlib import Path

    wanted = None if formats is None else [word.strip() for word in formats.split(",") if word.strip()]
    writers = find_formats(wanted)
    about = about_build(build_plan(comparison.new.craft, comparison.verdict))
    files: dict[str, bytes] = {}
    for name, make in _makers().items():
        page = make(comparison, about)
        for writer in writers.values():
            files[f"{name}.{writer.suffix}"] = writer.write(page)
    replace_files(Path(to), files)
    return tuple(sorted(files))


def _makers() -> Mapping[str, PageMaker]:
    from importlib.metadata import entry_points

    found: Sequence[object] = tuple(entry_points(group=COMPARISONS))
    if not found:
        raise TabsideError("no package offers a page of comparisons; install Tabside again")
    return {offer.name: offer.load() for offer in sorted(entry_points(group=COMPARISONS), key=lambda each: each.name)}
