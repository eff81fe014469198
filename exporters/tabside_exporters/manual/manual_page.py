"""The manual as one page that needs no other file and no network."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import resources

from markupsafe import Markup

from tabside import __version__
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.manual.markdown import Heading, headings_of, rendered_markdown

TITLE = "Tabside: the manual"
_ORDER = re.compile(r"\A\d+-")  # begins the file name of a chapter and says where it stands


@dataclass(frozen=True, slots=True)
class Chapter:
    """One chapter as it stands on the page."""

    title: str
    id: str
    body: Markup
    sections: tuple[Heading, ...]


def manual_page() -> bytes:
    """The page as UTF-8."""
    return rendered(
        "manual/manual.html.j2",
        styles=("tables/page.css", "bench/plug.css", "manual/manual.css"),
        title=TITLE,
        version=__version__,
        cautions=CAUTIONS,
        chapters=tuple(_chapters()),
    )


def chapter_texts() -> dict[str, str]:
    """The chapters as they are written: id -> Markdown, in their order."""
    folder = resources.files(__package__) / "chapters"
    names = sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".md"))
    texts = ((folder / name).read_text("utf-8").replace("\r\n", "\n") for name in names)
    return {_ORDER.sub("", name.removesuffix(".md")): text for name, text in zip(names, texts, strict=True)}


def _chapters() -> Iterator[Chapter]:
    for id, text in chapter_texts().items():
        first, _, rest = text.partition("\n")
        sections = tuple(heading for heading in headings_of(rest) if heading.level == 2)
        yield Chapter(first.removeprefix("# ").strip(), id, rendered_markdown(rest), sections)
