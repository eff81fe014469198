"""The first page of a folder."""

import os
import re
import shutil
import time
from pathlib import Path

from crafts.bench_craft import build_of
from crafts.small_craft import RADIO
from tabside.cli import main
from tabside.documents.writing.export import export_documents

BOAT = Path(__file__).parents[3] / "fixtures/survey_boat/rev_b/survey_boat.kicad_sch"


def index_of(folder):
    return (folder / "index.html").read_text(encoding="utf-8")


def links(text):
    return re.findall(r'href="([^"]+)"', text)


def test_every_file_of_the_folder_is_linked_and_says_what_it_is_for(tmp_path):
    result = export_documents(build_of(*RADIO), tmp_path)
    text = index_of(tmp_path)
    assert sorted(links(text)) == sorted(set(result.files) - {"index.html"})
    assert text.count("<p></p>") == 0
    assert all((tmp_path / link).is_file() for link in links(text))


def test_only_what_was_written_is_linked(tmp_path):
    build = build_of(*RADIO)
    export_documents(build, tmp_path, only=["index", "bom", "findings"], formats=["html", "csv"])
    assert links(index_of(tmp_path)) == ["findings.html", "bom.html", "bom.csv"]
    rows = export_documents(build, tmp_path / "rows", only=["index", "bom"], formats=["html"]).documents["index"]
    assert [row["files"] for row in rows] == ["bom.html"]
    export_documents(build, tmp_path / "alone", only=["index"])
    assert "No other document was asked for." in index_of(tmp_path / "alone")


def test_its_title_begins_with_the_verdict_and_it_carries_the_drawing_s_hash(tmp_path):
    build = build_of(*RADIO)
    export_documents(build, tmp_path, formats=["html"])
    for page in tmp_path.glob("*.html"):
        title = re.search("<title>(.*?)</title>", page.read_text(encoding="utf-8"))[1]
        assert title.startswith(("No errors, ", "NOT CLEARED TO BUILD", "NOT DECIDED")), page.name
        assert title.endswith("Pond skater, revision A")
    assert f"Drawing {build.craft.drawing_hash}" in index_of(tmp_path)


def test_it_says_when_the_drawing_was_saved_and_that_kicad_has_it_open(tmp_path):
    """No other document carries a time: the same drawing gives the same bytes."""
    drawing = tmp_path / "boat.kicad_sch"
    shutil.copy(BOAT, drawing)
    os.utime(drawing, (1_700_000_000, 1_700_000_000))
    (tmp_path / "~boat.kicad_sch.lck").touch()
    main(["export", str(drawing), "--to", str(tmp_path / "out"), "--as", "html"])
    text = index_of(tmp_path / "out")
    assert time.strftime("%Y-%m-%d %H:%M:%S", time.localtime(1_700_000_000)) in text
    assert "KiCad has this drawing open" in text
    assert [page.name for page in (tmp_path / "out").glob("*.html") if "2023-11-1" in page.read_text("utf-8")] == [
        "index.html"
    ]
    (tmp_path / "boat.craft.toml").write_text("")
    main(["export", str(drawing), "--to", str(tmp_path / "out"), "--as", "html"])
    assert "2023-11-1" not in index_of(tmp_path / "out"), "the craft file is newer"


def test_a_craft_without_files_has_no_time(tmp_path):
    export_documents(build_of(*RADIO), tmp_path, only=["index"])
    assert "as saved on" not in index_of(tmp_path)
