"""The craft as a whole: its name, revision and hash, and its parts."""

from crafts.craft_kit import changed, craft, drawing, plug, two_pin
from tabside.model.craft import CraftSettings
from tabside.wiring import build_craft


def test_the_craft_file_names_the_craft_then_the_title_then_the_file():
    assert craft(plug("J1", "a"), settings=CraftSettings(name="Pond skater")).name == "Pond skater"
    assert craft(plug("J1", "a"), title="Reed boat").name == "Reed boat"
    assert craft(plug("J1", "a"), title="", root="boat").name == "boat"


def test_the_revision_is_the_drawings():
    assert craft(plug("J1", "a"), revision="B").revision == "B"


def test_the_hash_changes_with_any_file_and_with_the_craft_file_only():
    drawn = changed(drawing(plug("J1", "a")), files=(("a.kicad_sch", "1" * 64), ("b.kicad_sch", "2" * 64)))
    base = build_craft(drawn).drawing_hash
    assert len(base) == 12
    assert build_craft(changed(drawn, files=drawn.files[::-1])).drawing_hash == base
    assert build_craft(changed(drawn, files=(drawn.files[0], ("b.kicad_sch", "3" * 64)))).drawing_hash != base
    assert build_craft(drawn, CraftSettings(file_hash="x")).drawing_hash != base


def test_parts_carry_what_the_bom_needs():
    made = craft(plug("J1", "V GND"), two_pin("C1", "V", "GND", value="470u", in_bom=False, dnp=True, footprint="X:Y"))
    (part,) = made.parts
    assert (part.value, part.footprint, part.in_bom, part.dnp, part.nets) == ("470u", "X:Y", False, True, ("GND", "V"))


def test_terminations_come_in_natural_order():
    made = craft(plug("J10", "a"), plug("J2", "b"), two_pin("F1", "a", "b"), plug("J1", "c"))
    assert list(made.terminations) == ["F1", "J1", "J2", "J10"]


def test_an_empty_drawing_is_an_empty_craft():
    made = craft()
    assert not made.terminations and not made.leads and not made.links and not made.cables
