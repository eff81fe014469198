"""HTML from templates: one file that needs no other, with everything that was drawn escaped.

The page names the digests of its own style and script, so that a browser runs nothing else, whatever a drawing's
names hold, and fetches nothing.

Compiled templates are kept as Python keeps compiled modules: in `__pycache__` beside them, where it may be written.
"""

from __future__ import annotations

import base64
import hashlib
import re
import sys
from contextlib import suppress
from functools import cache
from importlib import resources
from pathlib import Path

from jinja2 import Environment, FileSystemBytecodeCache, PackageLoader, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup, escape

from tabside.words.visible_text import visible_lines

_TYPED = re.compile(r"`([A-Za-z][\w .-]*|&lt;drawing&gt;[\w.]+)`")  # a command, a field or a file, as our texts name it


def rendered(template: str, *, styles: tuple[str, ...], script: str = "", **values: object) -> bytes:
    """The template with these values, as UTF-8.  `styles` and `script` name files beside it."""
    style = "\n".join(_text(name) for name in styles)
    code = _text(script) if script else ""
    page = _environment().get_template(template)
    text = page.render(
        style=Markup(style),
        style_hash=_digest(style),
        script=Markup(code),
        script_hash=_digest(code),
        **values,
    )  # our own files, never what was drawn
    return text.encode()


def rendered_part(template: str, **values: object) -> Markup:
    """A part of a page, escaped like the page itself."""
    return Markup(_environment().get_template(template).render(**values))


class _Compiled(FileSystemBytecodeCache):
    """Asks for no folder that is not there and writes none that may not be written: to compile again always works.

    Jinja sees by itself when a template has changed; what else they depend on is in the file's name: Python, and the
    ways of compiling that this module sets.
    """

    def __init__(self) -> None:
        here = Path(__file__)
        self._beside = here.with_name("templates") / "__pycache__"
        ways = hashlib.sha256(here.read_bytes()).hexdigest()[:8]
        super().__init__(str(self._beside), f"%s.{sys.implementation.cache_tag}-{ways}.pyc")

    def load_bytecode(self, bucket: Bucket) -> None:
        try:
            super().load_bytecode(bucket)
        except Exception:  # whatever has happened to the file
            bucket.reset()

    def dump_bytecode(self, bucket: Bucket) -> None:
        if not sys.dont_write_bytecode:
            with suppress(OSError):
                self._beside.mkdir(exist_ok=True)
                super().dump_bytecode(bucket)


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader(__package__, "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=_shown,
        bytecode_cache=_Compiled(),
    )


def _shown(value: object) -> object:
    """What a template puts in: a drawing's text with its unseen signs written out; our own markup as it is.

    What is typed as it stands, `tabside export` in our texts, is set as such.
    """
    if not isinstance(value, str) or isinstance(value, Markup):
        return value
    text = visible_lines(value)
    return Markup(_TYPED.sub(r"<code>\1</code>", str(escape(text)))) if "`" in text else text


@cache
def _text(name: str) -> str:
    text = (resources.files(__package__) / "templates" / name).read_text("utf-8")
    return text.replace("\r\n", "\n")


def _digest(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii")
