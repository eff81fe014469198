"""Our symbol library and project template: sound for KiCad, and read by Tabside as they are meant."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from fnmatch import fnmatchcase
from pathlib import Path

import pytest

from drawing.drawing_kit import KICAD_9
from slow_cases import slow
from tabside.craft_reading import read_craft
from tabside.facts.families import family, family_by_text
from tabside.facts.footprints import match_footprint
from tabside.kicad.symbols import COMMON, library_symbols, library_text
from tabside.model.craft import Kind
from tabside.model.findings import Severity
from tabside.read.craft.file import settings_from_text
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import find, head_of, text_at, text_of
from tabside.rules import check_craft

ROOT = Path(__file__).parents[2]
TEMPLATE = ROOT / "plugin" / "tabside" / "kicad" / "template" / "tabside_craft"
SYMBOLS = {symbol.name: symbol for symbol in library_symbols()}
NINE = library_text((9, 0))
TABLE = '(sym_lib_table (version 7) (lib (name "Tabside")(type "KiCad")(uri "{}")(options "")(descr "")))'


def nodes(text=NINE):
    return {text_at(node, 1): node for node in parse(text) if head_of(node) == "symbol"}


def pins(node):
    (inner,) = [child for child in node if head_of(child) == "symbol" and text_at(child, 1).endswith("_1_1")]
    return [child for child in inner if head_of(child) == "pin"]


def test_every_family_and_kind_is_there():
    names = set(SYMBOLS)
    assert names >= {"Splice", "Fuse_in_line", "Pads_01", "Pads_12", "Captive_bare_03", "Receptacle_JST_GH_06"}
    for family_id in COMMON:
        ways = {s.ways for s in SYMBOLS.values() if family_by_text(s.fields.get("Family", "")) == family(family_id)}
        assert ways == {n for n in family(family_id).circuits if 2 <= n <= 12}, family_id


@pytest.mark.parametrize("version", [(6, 0), (10, 0), *slow([(7, 0), (8, 0), (9, 0)])])
def test_pins_are_numbered_and_lie_on_kicads_grid(version):
    # Source: KiCad library convention S4.1, pins on a grid of 100 mil (from memory).
    found = nodes(library_text(version))
    assert set(found) == set(SYMBOLS)
    for name, node in found.items():
        ends = [tuple(float(word) for word in find(pin, "at")[1:3]) for pin in pins(node)]
        assert [text_of(pin, "number") for pin in pins(node)] == [str(n + 1) for n in range(SYMBOLS[name].ways)]
        assert all(abs(value / 2.54 - round(value / 2.54)) < 1e-9 for end in ends for value in end), name
        assert len(set(ends)) == len(ends)


def test_each_symbol_carries_its_fields():
    for name, node in nodes().items():
        fields = {text_at(child, 1): text_at(child, 2) for child in node if head_of(child) == "property"}
        assert fields["Reference"] == SYMBOLS[name].letters and fields["Value"] == name
        assert fields["Description"] and fields["ki_keywords"]
        for field, value in SYMBOLS[name].fields.items():
            assert fields[field] == value
        if name.startswith(("Receptacle_", "Captive_", "Pads_")):
            assert {"Board", "Kind", "Signals", "Gives", "Takes"} <= set(fields)
            Kind(fields["Kind"])  # a word that Tabside knows


@pytest.mark.kicad("footprints")
def test_the_footprint_filters_find_footprints_that_take_these_plugs(kicad_footprints):
    names = {path.stem for path in kicad_footprints.glob("*.pretty/*.kicad_mod")}
    for symbol in SYMBOLS.values():
        if not symbol.footprints or "Family" not in symbol.fields:
            continue
        found = [name for name in names if fnmatchcase(name, symbol.footprints)]
        facts = [match_footprint(name) for name in found]
        read = {(each.family, each.ways) for each in facts if each is not None}
        assert (family_by_text(symbol.fields["Family"]).id, symbol.ways) in read, symbol.name
        assert {family_id for family_id, _ in read} == {family_by_text(symbol.fields["Family"]).id}, symbol.name


@pytest.mark.kicad
@pytest.mark.parametrize("version", [(6, 0), *slow([(7, 0), (8, 0), (9, 0)])])
def test_kicad_reads_the_library_of_every_version_alike(version, kicad_cli, tmp_path):
    upgraded = {}
    for each in {version, (9, 0)}:
        source, target = tmp_path / f"{each[0]}.kicad_sym", tmp_path / f"{each[0]}-new.kicad_sym"
        source.write_text(library_text(each), encoding="utf-8")
        done = run(kicad_cli, "sym", "upgrade", "--force", "-o", target, source, home=tmp_path)
        assert done.returncode == 0 and "rror" not in done.stderr, done.stderr
        upgraded[each] = target.read_text(encoding="utf-8")
    assert upgraded[version] == upgraded[9, 0]
    assert set(nodes(upgraded[9, 0])) == set(SYMBOLS)


@pytest.mark.kicad
def test_kicad_draws_every_symbol(kicad_cli, tmp_path):
    (tmp_path / "tabside.kicad_sym").write_text(NINE, encoding="utf-8")
    done = run(kicad_cli, "sym", "export", "svg", "-o", tmp_path / "out", tmp_path / "tabside.kicad_sym", home=tmp_path)
    assert done.returncode == 0, done.stderr
    assert {path.stem.removesuffix("_unit1") for path in (tmp_path / "out").glob("*.svg")} == set(SYMBOLS)


@pytest.mark.kicad
def test_kicads_rules_check_has_nothing_to_say_of_the_template(kicad_cli, tmp_path):
    """Nor does it find a symbol of the template that differs from the library's."""
    project = tmp_path / "gull"
    shutil.copytree(TEMPLATE, project)
    (tmp_path / "tabside.kicad_sym").write_text(NINE, encoding="utf-8")
    table = project / "sym-lib-table"
    ours = re.search(r"\(lib .*\)\)", TABLE.format(tmp_path / "tabside.kicad_sym"))[0]
    table.write_text(table.read_text(encoding="utf-8").rstrip().removesuffix(")") + f"  {ours}\n)\n", encoding="utf-8")
    report = tmp_path / "erc.rpt"
    run(kicad_cli, "sch", "erc", "-o", report, project / "tabside_craft.kicad_sch", home=tmp_path)
    assert "ERC messages: 0  Errors 0  Warnings 0" in report.read_text(encoding="utf-8")
    changed = NINE.replace('"Signals" ""', '"Signals" "x"')  # the check can fail
    (tmp_path / "tabside.kicad_sym").write_text(changed.replace("(length 3.81)", "(length 2.54)"), encoding="utf-8")
    run(kicad_cli, "sch", "erc", "-o", report, project / "tabside_craft.kicad_sch", home=tmp_path)
    assert "lib_symbol_mismatch" in report.read_text(encoding="utf-8")


def test_the_template_is_a_sound_craft():
    craft = read_craft(TEMPLATE / "tabside_craft.kicad_sch")
    verdict = check_craft(craft)
    assert (verdict.count(Severity.ERROR), verdict.count(Severity.WARNING)) == (0, 0)
    assert verdict.judged.not_judged == 0 and len(craft.leads) == 9
    kinds = {reference: each.kind for reference, each in craft.terminations.items()}
    assert kinds == {
        "J1": Kind.CAPTIVE,
        "J2": Kind.PAD,
        "J3": Kind.RECEPTACLE,
        "J4": Kind.RECEPTACLE,
        "F1": Kind.INLINE,
    }
    assert set(craft.held_boards) == {"pilot", "radio"} and craft.terminations["J3"].family == "jst_gh"


def test_the_templates_battery_wires_carry_what_the_fuse_lets_through():
    craft = read_craft(TEMPLATE / "tabside_craft.kicad_sch")
    pack = [lead for lead in craft.leads if "J1" in lead.link or "F1" in lead.link]
    assert {lead.gauge_awg for lead in pack} == {14} and len(pack) == 3


def test_the_templates_craft_file_is_valid_with_every_example_in_it():
    """An example is a comment that holds a table's head or a key."""
    lines = (TEMPLATE / "tabside_craft.craft.toml").read_text(encoding="utf-8").splitlines()
    examples = [re.sub(r"^# (?=\[|\w+ = )", "", line) for line in lines]
    assert examples != lines
    settings = settings_from_text("\n".join(examples).encode(), "tabside_craft.craft.toml")
    assert len(settings.stock_cables) == 1 and len(settings.stock_leads) == 1
    bare = [line.partition("#")[0] for line in lines]
    assert settings_from_text("\n".join(bare).encode(), "x").board_files == ("boards/*.board.toml",)


def test_symbols_placed_from_the_library_are_read_as_they_are_meant(tmp_path):
    """Each symbol alone on a sheet, with the fields that it brings."""
    texts = nodes_text()
    for name, symbol in SYMBOLS.items():
        reference = f"{symbol.letters}1"
        fields = {"Reference": reference, "Value": name, **symbol.fields}
        properties = "".join(f'(property "{k}" "{v}" (at 0 0 0))' for k, v in fields.items())
        node = texts[name].replace(f'(symbol "{name}"', f'(symbol "Tabside:{name}"', 1)
        text = (
            f'(kicad_sch (version {KICAD_9}) (generator "t") (uuid "r") (lib_symbols {node})'
            f'(symbol (lib_id "Tabside:{name}") (at 50.8 50.8 0) (unit 1) (uuid "s") {properties}'
            f'(instances (project "p" (path "/r" (reference "{reference}") (unit 1))))))'
        )
        root = tmp_path / "one.kicad_sch"
        root.write_text(text, encoding="utf-8")
        craft = read_craft(root)
        if name == "Fuse_in_line":
            assert not craft.terminations or craft.terminations[reference].kind is Kind.INLINE
            continue
        found = craft.terminations[reference]
        assert (found.kind.value, len(found.contacts)) == (symbol.fields["Kind"], symbol.ways), name
        if symbol.fields.get("Family"):
            assert found.family == family_by_text(symbol.fields["Family"]).id
        assert not craft.oddities, craft.oddities


def nodes_text():
    found = {}
    for piece in re.split(r"\n(?=\t\(symbol \")", NINE)[1:]:
        name = re.match(r'\t\(symbol "([^"]+)"', piece)[1]
        found[name] = piece.rstrip().removesuffix("\n)") if piece.rstrip().endswith("\n)") else piece
    return found


def run(kicad_cli, *arguments, home):
    command = [str(kicad_cli), *map(str, arguments)]
    environment = {**os.environ, "HOME": str(home)}
    return subprocess.run(command, capture_output=True, text=True, env=environment, check=False, timeout=120)
