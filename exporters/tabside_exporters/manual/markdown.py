"""Markdown of the manual to HTML that looks like the other pages.

A fence of the kind `insert NAME` stands for what the code itself says, a picture is one of the folder `pictures`, and
all other fences are shown as they are; the first word of their information says what they hold.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Iterator, Sequence
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup, escape

from tabside_exporters.manual.inserts import INSERTS

_MEDIA = {"png": "image/png", "svg": "image/svg+xml"}


class Heading(NamedTuple):
    level: int  # 2, 3
    text: str
    id: str


def rendered_markdown(text: str) -> Markup:
    """HTML of a chapter without its title."""
    reader = _reader()
    tokens = reader.parse(text)
    for opening, heading in _headings(tokens):
        opening.attrSet("id", heading.id)
    _name_cells(tokens)
    return Markup(reader.renderer.render(tokens, reader.options, {}))


def headings_of(text: str) -> list[Heading]:
    """All headings, in order."""
    return [heading for _, heading in _headings(_reader().parse(text))]


@cache
def _reader() -> MarkdownIt:
    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    reader.add_render_rule("fence", _fence)
    reader.add_render_rule("image", _image)
    return reader


def _fence(_renderer: Any, tokens: Sequence[Token], place: int, _options: Any, _env: Any) -> str:
    kind, _, name = tokens[place].info.strip().partition(" ")
    if kind == "insert":
        return str(INSERTS[name]())
    code = escape(tokens[place].content)
    return f'<pre tabindex="0" class="{escape(kind or "text")}"><code>{code}</code></pre>\n'


def _image(_renderer: Any, tokens: Sequence[Token], place: int, _options: Any, _env: Any) -> str:
    token = tokens[place]
    name = str(token.attrs["src"])
    content = (resources.files(__package__) / "pictures" / name).read_bytes()
    data = base64.b64encode(content).decode("ascii")
    return f'<img src="data:{_MEDIA[name.rpartition(".")[2]]};base64,{data}" alt="{escape(token.content)}">'


def _headings(tokens: Sequence[Token]) -> Iterator[tuple[Token, Heading]]:
    for place, token in enumerate(tokens):
        if token.type == "heading_open":
            text = "".join(child.content for child in tokens[place + 1].children or ())
            yield token, Heading(int(token.tag[1:]), text, slug(text))


def slug(text: str) -> str:
    """A heading as the name of a place: "First power" -> "first-power"."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def _name_cells(tokens: Sequence[Token]) -> None:
    """On a narrow screen each cell stands on its own and says of which column it is."""
    heads: list[str] = []
    column = 0
    for place, token in enumerate(tokens):
        role = _ROLES.get(token.type)
        if role is not None:
            token.attrSet("role", role)
        if token.type == "table_open":
            heads = []
        elif token.type == "tr_open":
            column = 0
        elif token.type == "th_open":
            token.attrSet("scope", "col")
            heads.append(tokens[place + 1].content)
        elif token.type == "td_open":
            token.attrSet("data-name", heads[column].replace("`", ""))
            column += 1


_ROLES = {
    "table_open": "table",
    "thead_open": "rowgroup",
    "tbody_open": "rowgroup",
    "tr_open": "row",
    "th_open": "columnheader",
    "td_open": "cell",
}
