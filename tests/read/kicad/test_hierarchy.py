"""The sheets of a drawing, their paths and order, and what is wrong with them.

How KiCad orders and names sheets: its netlist of the same drawing (kicad-cli 9.0.8, element `sheet`).
"""

from __future__ import annotations

import json
import subprocess
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from drawing.schematic_text import LIBRARY, ROOT_UUID, SYMBOL, WIRE, schematic, sheet
from tabside.errors import TabsideError
from tabside.model.natural import natural
from tabside.read import load_hierarchy

BELOW = schematic(WIRE, uuid="99999999")


def project(folder: Path, files: dict[str, str]) -> Path:
    """Files of a project; the first one is the root."""
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder / next(iter(files))


def said(root: Path) -> str:
    with pytest.raises(TabsideError) as raised:
        load_hierarchy(root)
    return str(raised.value)


def test_one_sheet_is_a_hierarchy(tmp_path: Path):
    root = project(tmp_path, {"boat.kicad_sch": schematic(WIRE)})
    hierarchy = load_hierarchy(str(root))
    (only,) = hierarchy.sheets
    assert hierarchy.root_path == str(root)
    assert (only.path, only.names, only.depth, only.symbol, only.parent) == (f"/{ROOT_UUID}", "/", 0, None, None)
    assert hierarchy.warnings == ()


def test_sheets_are_found_below_sheets_and_each_file_is_read_once(tmp_path: Path):
    middle = sheet("inner", "deep/inner.kicad_sch", "i").replace(f"/{ROOT_UUID}", f"/{ROOT_UUID}/a")
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(
                sheet("left", "half.kicad_sch", "a", page="3"),
                sheet("right {slash} r", "half.kicad_sch", "b", page="2"),
            ),
            "half.kicad_sch": schematic(middle, uuid="h"),
            "deep/inner.kicad_sch": BELOW,
        },
    )
    sheets = load_hierarchy(root).sheets
    assert [(s.names, s.path.removeprefix(f"/{ROOT_UUID}"), s.depth, s.parent, s.page) for s in sheets] == [
        ("/", "", 0, None, "1"),
        ("/right / r/", "/b", 1, 0, "2"),
        ("/right / r/inner/", "/b/i", 2, 1, ""),
        ("/left/", "/a", 1, 0, "3"),
        ("/left/inner/", "/a/i", 2, 3, "2"),
    ]
    assert sheets[1].file is sheets[3].file
    assert sheets[2].file is sheets[4].file
    assert sheets[2].file.path == str(tmp_path / "deep" / "inner.kicad_sch")


def test_sheets_without_pages_are_ordered_by_place(tmp_path: Path):
    places = {"c": (200, 10), "a": (10, 90), "b": (10, 100)}
    lists = [sheet(name, "s.kicad_sch", name, at=at, page="") for name, at in places.items()]
    root = project(tmp_path, {"boat.kicad_sch": schematic(*lists), "s.kicad_sch": BELOW})
    assert [s.names for s in load_hierarchy(root).sheets] == ["/", "/a/", "/b/", "/c/"]


def test_pages_of_kicad_6_stand_in_the_root(tmp_path: Path):
    bare = sheet("a", "s.kicad_sch", "a", page="") + sheet("b", "s.kicad_sch", "b", page="")
    table = '(path "/a" (page "3")) (path "/b" (page "2")) (path "/"\n'
    text = schematic(bare, version=20211123).replace('(path "/"\n', table)
    root = project(tmp_path, {"boat.kicad_sch": text, "s.kicad_sch": BELOW})
    assert [(s.names, s.page) for s in load_hierarchy(root).sheets] == [("/", "1"), ("/b/", "2"), ("/a/", "3")]


@pytest.mark.kicad("cli", "demos")
def test_demo_sheets_have_kicads_names_and_paths(kicad_cli, kicad_demos, tmp_path: Path):
    compared = 0
    for root in kicad_demos:
        hierarchy = load_hierarchy(root)
        if len(hierarchy.sheets) == 1:
            continue
        netlist = tmp_path / "netlist.xml"
        command = [kicad_cli, "sch", "export", "netlist", "--format", "kicadxml", "-o", netlist, root]
        subprocess.run(command, check=True, capture_output=True)
        theirs = [(s.get("name"), s.get("tstamps")) for s in ET.parse(netlist).iter("sheet")]
        top = hierarchy.sheets[0].path
        in_page_order = sorted(hierarchy.sheets, key=lambda s: natural(s.page))
        assert [(s.names, s.path.removeprefix(top) + "/") for s in in_page_order] == theirs, root
        compared += 1
    assert compared


@pytest.mark.parametrize("written", ["sub/s.kicad_sch", "sub\\\\s.kicad_sch", "./sub/../sub/s.kicad_sch"])
def test_file_is_relative_to_the_file_that_holds_the_sheet(tmp_path: Path, written):
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(sheet("a", written, "a")),
            "sub/s.kicad_sch": schematic(sheet("b", "below.kicad_sch", "b"), uuid="s"),
            "sub/below.kicad_sch": BELOW,
        },
    )
    assert [s.names for s in load_hierarchy(root).sheets] == ["/", "/a/", "/a/b/"]


def test_a_sheet_may_name_a_file_in_another_folder_of_the_project(tmp_path: Path):
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(sheet("a", "sub/s.kicad_sch", "a")),
            "sub/s.kicad_sch": schematic(sheet("b", "../other/below.kicad_sch", "b"), uuid="s"),
            "other/below.kicad_sch": BELOW,
        },
    )
    assert len(load_hierarchy(root).sheets) == 3


def test_variables_in_a_file_name(tmp_path: Path):
    files = {
        "boat.kicad_sch": schematic(sheet("a", "${WHERE}/s.kicad_sch", "a")),
        "sub/s.kicad_sch": schematic(sheet("b", "${KIPRJMOD}/below.kicad_sch", "b"), uuid="s"),
        "below.kicad_sch": BELOW,
        "boat.kicad_pro": json.dumps({"text_variables": {"WHERE": "sub"}}),
    }
    root = project(tmp_path, files)
    assert [s.names for s in load_hierarchy(root).sheets] == ["/", "/a/", "/a/b/"]
    (tmp_path / "boat.kicad_pro").unlink()
    assert "a variable not known here" in said(root)


# The sheet's list begins in line 12 of the root file, behind one tab.
@pytest.mark.parametrize(
    ("written", "words"),
    [
        pytest.param("nothing.kicad_sch", "nothing.kicad_sch, which does not exist", id="missing"),
        pytest.param("", "names no file", id="no name"),
        pytest.param("boat.kicad_sch", "includes itself", id="itself"),
        pytest.param("./sub/../boat.kicad_sch", "includes itself", id="itself by a detour"),
        pytest.param("../elsewhere.kicad_sch", "outside of the project's folder", id="outside"),
        pytest.param("sub/../../elsewhere.kicad_sch", "outside of the project's folder", id="outside by a detour"),
        pytest.param("/etc/hosts", "by an absolute path", id="absolute path that exists"),
        pytest.param("/nowhere/s.kicad_sch", "by an absolute path", id="absolute path that does not exist"),
        pytest.param("C:\\\\boats\\\\s.kicad_sch", "by an absolute path", id="absolute path of another system"),
        pytest.param("\\\\\\\\server\\\\s.kicad_sch", "by an absolute path", id="path of another machine"),
        pytest.param("${HOME}/s.kicad_sch", "a variable not known here", id="unknown variable"),
    ],
)
def test_a_sheet_that_cannot_be_is_one_line_at_its_place(tmp_path: Path, written, words):
    root = project(tmp_path / "project", {"boat.kicad_sch": schematic(sheet("a", written, "a"))})
    (tmp_path / "elsewhere.kicad_sch").write_text(BELOW)
    line = said(root)
    assert line.startswith(f'{root}:12:2: sheet "/a/" names ')
    assert words in line


def test_a_sheet_that_includes_itself_through_another_is_one_line(tmp_path: Path):
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(sheet("a", "s.kicad_sch", "a")),
            "s.kicad_sch": schematic(sheet("b", "t.kicad_sch", "b"), uuid="s"),
            "t.kicad_sch": schematic(sheet("c", "s.kicad_sch", "c"), uuid="t"),
        },
    )
    line = said(root)
    assert line.startswith(f'{tmp_path / "t.kicad_sch"}:12:2: sheet "/a/b/c/" names s.kicad_sch, which includes itself')


def test_a_sheet_that_includes_itself_through_a_link_is_one_line(tmp_path: Path):
    root = project(tmp_path, {"boat.kicad_sch": schematic(sheet("a", "link.kicad_sch", "a"))})
    (tmp_path / "link.kicad_sch").symlink_to(root)
    assert "includes itself" in said(root)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        pytest.param(b"", ":1:1: the file is empty", id="empty"),
        pytest.param(b"(kicad_sch (version 20250114) (label", ":1:37: the file ends before (label", id="cut off"),
        pytest.param(b"\xff", ":1:1: is not UTF-8", id="no text"),
        pytest.param(None, ": is a folder", id="folder"),
    ],
)
def test_a_damaged_sheet_is_named_with_its_file(tmp_path: Path, content, words):
    root = project(tmp_path, {"boat.kicad_sch": schematic(sheet("a", "s.kicad_sch", "a"))})
    below = tmp_path / "s.kicad_sch"
    if content is None:
        below.mkdir()
    else:
        below.write_bytes(content)
    line = said(root)
    assert line.startswith(f"{below}{words}")
    assert line.endswith(f'(sheet "/a/" of {root})')


def test_sheets_multiply_up_to_a_limit(tmp_path: Path):
    files = {}
    for level in range(20):
        below = f"{level + 1}.kicad_sch"
        files[f"{level}.kicad_sch"] = schematic(sheet("a", below, "a"), sheet("b", below, "b"), uuid=str(level))
    files["20.kicad_sch"] = BELOW
    assert "more than 10000 sheets" in said(project(tmp_path, files))


def test_sheets_lie_within_one_another_up_to_a_limit(tmp_path: Path):
    files = {
        f"{level}.kicad_sch": schematic(sheet("a", f"{level + 1}.kicad_sch", "a"), uuid=str(level))
        for level in range(101)
    }
    files["101.kicad_sch"] = BELOW
    line = said(project(tmp_path, files))
    assert "more than 100 sheets deep" in line
    assert line.startswith(f"{tmp_path / '100.kicad_sch'}:12:2: ")


def test_sheets_of_equal_name_are_warned_of(tmp_path: Path):
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(sheet("a", "s.kicad_sch", "1"), sheet("a", "s.kicad_sch", "2")),
            "s.kicad_sch": BELOW,
        },
    )
    (warning,) = load_hierarchy(root).warnings
    assert '2 sheets are named "/a/"' in warning


def test_aliases_of_all_files_and_of_the_project_count(tmp_path: Path):
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(sheet("a", "s.kicad_sch", "1"), '\t(bus_alias "A" (members "1" "2"))\n'),
            "s.kicad_sch": schematic('\t(bus_alias "B" (members "3"))\n', uuid="s"),
            "boat.kicad_pro": json.dumps({"schematic": {"bus_aliases": {"C": ["4", "5"]}}}),
        },
    )
    assert load_hierarchy(root).bus_aliases == {"A": ("1", "2"), "B": ("3",), "C": ("4", "5")}


def test_several_top_level_sheets(tmp_path: Path):
    # several roots that no sheet symbol reaches; names as seen in KiCad 10.0.7
    listed = [
        {"filename": "motors.kicad_sch", "name": "motors", "uuid": "m"},
        {"filename": "boat.kicad_sch", "name": "boat", "uuid": ROOT_UUID},
    ]
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": schematic(LIBRARY, SYMBOL),
            "motors.kicad_sch": schematic(sheet("inner", "s.kicad_sch", "i"), uuid="m"),
            "s.kicad_sch": BELOW,
            "boat.kicad_pro": json.dumps({"schematic": {"top_level_sheets": listed}}),
        },
    )
    assert [(s.names, s.path, s.parent) for s in load_hierarchy(root).sheets] == [
        ("/boat/", f"/{ROOT_UUID}", None),
        ("/motors/", "/m", None),
        ("/motors/inner/", "/m/i", 1),
    ]


def test_a_root_that_its_project_does_not_list_is_read_alone_with_a_warning(tmp_path: Path):
    listed = [{"filename": f"{name}.kicad_sch", "name": name, "uuid": name} for name in ("x", "y")]
    root = project(
        tmp_path,
        {
            "boat.kicad_sch": BELOW,
            "boat.kicad_pro": json.dumps({"schematic": {"top_level_sheets": listed}}),
        },
    )
    hierarchy = load_hierarchy(root)
    assert [s.names for s in hierarchy.sheets] == ["/"]
    assert "none of the top-level sheets" in hierarchy.warnings[0]


def test_text_variables_of_the_project(tmp_path: Path):
    variables = {"CRAFT": "Pond skater"}
    root = project(tmp_path, {"boat.kicad_sch": BELOW, "boat.kicad_pro": json.dumps({"text_variables": variables})})
    assert load_hierarchy(root).text_variables == variables


@pytest.mark.parametrize(
    ("content", "words"),
    [
        pytest.param(b'{"a": 1,\n  }', ":2:3: ", id="not JSON"),
        pytest.param(b"", ":1:1: ", id="empty"),
        pytest.param(b"[]", "it holds no object", id="a list"),
        pytest.param(b'{"text_variables": {"A": 5}}', "text_variables.A: text is expected", id="number"),
        pytest.param(b'{"schematic": {"bus_aliases": {"A": "B"}}}', "members of A are no list", id="alias"),
        pytest.param(b'{"schematic": {"top_level_sheets": 5}}', "top_level_sheets is no list", id="sheets"),
        pytest.param(b'{"a": "\xff"}', "utf-8", id="no text"),
        pytest.param(b"[" * 100_000, "", id="nested without end"),
    ],
)
def test_a_damaged_project_file_is_warned_of(tmp_path: Path, content, words):
    root = project(tmp_path, {"boat.kicad_sch": BELOW})
    (tmp_path / "boat.kicad_pro").write_bytes(content)
    (warning,) = load_hierarchy(root).warnings
    assert warning.startswith(str(tmp_path / "boat.kicad_pro"))
    assert words in warning
    assert warning.endswith("goes on without the project's text variables and bus aliases")
