"""Templates that were compiled before give the same pages as those compiled now.  Common practice, no source."""

from __future__ import annotations

import os
import sys

import pytest
from jinja2 import FileSystemLoader

from tabside_exporters.formats import page_templates
from tabside_exporters.formats.page_templates import rendered_part

HOSTILE = "<script>&\u202e"
SHOWN = "&lt;script&gt;&amp;\\u202e"


@pytest.fixture
def compiled(tmp_path, monkeypatch):
    """A folder of templates with one in it, and none compiled yet."""
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates" / "a.html.j2").write_text("<p>{{ name }}</p>")
    here = tmp_path / "page_templates.py"
    here.write_text("")
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(page_templates, "__file__", str(here))
    monkeypatch.setattr(page_templates, "PackageLoader", lambda package, folder: FileSystemLoader(tmp_path / folder))
    afresh()
    yield tmp_path / "templates" / "__pycache__"
    afresh()


def afresh():
    page_templates._environment.cache_clear()


def page():
    afresh()
    return rendered_part("a.html.j2", name=HOSTILE)


def test_a_compiled_template_gives_the_same_page(compiled):
    first = page()
    (kept,) = compiled.iterdir()
    assert first == page() == f"<p>{SHOWN}</p>"
    assert kept.suffix == ".pyc" and list(compiled.iterdir()) == [kept]


def test_what_is_typed_as_it_stands_is_set_as_such(compiled):
    afresh()
    said = "`tabside export` writes `<drawing>.craft.toml` with `slack_limit_mm`; ` and `<b>` of a drawing stay"
    assert rendered_part("a.html.j2", name=said) == (
        "<p><code>tabside export</code> writes <code>&lt;drawing&gt;.craft.toml</code> with "
        "<code>slack_limit_mm</code>; ` and `&lt;b&gt;` of a drawing stay</p>"
    )


def test_a_template_that_has_changed_is_compiled_again(compiled):
    page()
    (compiled.parent / "a.html.j2").write_text("<b>{{ name }}</b>")
    assert page() == f"<b>{SHOWN}</b>"


def test_a_damaged_file_is_made_again(compiled):
    page()
    (kept,) = compiled.iterdir()
    whole = kept.read_bytes()
    for damaged in (b"", whole[:40], whole[:-20], b"x" * 200):
        kept.write_bytes(damaged)
        assert page() == f"<p>{SHOWN}</p>"


def test_where_nothing_may_be_written_the_page_is_made_all_the_same(compiled, monkeypatch):
    compiled.write_text("a file where the folder would be")
    assert page() == f"<p>{SHOWN}</p>"
    compiled.unlink()
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert page() == f"<p>{SHOWN}</p>"
    assert os.listdir(compiled.parent) == ["a.html.j2"]
