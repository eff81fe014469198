"""Design variants of KiCad 10.

Source: KiCad 10.0.7's bill of materials, `kicad-cli sch export bom --variant`: the last test asks it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import KICAD_10, Pin, Sheet, connector, multi_unit, power, probe
from programs.kicad_oracle import kicad_10_bom
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.model.drawing import Drawing
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json


def variant(name: str, *changes: str) -> str:
    return f' (variant (name "{name}") {" ".join(changes)})'


def field(name: str, value: str) -> str:
    return f'(field (name "{name}") (value "{value}"))'


def varied() -> Sheet:
    root, below = Sheet("root"), Sheet("below")
    root.place(
        probe(),
        (50.8, 50.8),
        reference="P1",
        value="plain",
        fields={"N": "one", "M": "m"},
        instance_extra=variant(
            "A", field("Value", "other"), field("N", "two"), field("New", "x"), field("Reference", "P9")
        )
        + variant("B", "(dnp yes)"),
    )
    root.place(probe(), (76.2, 50.8), reference="P2", dnp=True, instance_extra=variant("A", "(dnp no)"))
    root.place(probe(), (101.6, 50.8), reference="P3", instance_extra=variant("A", "(in_bom no)"))
    root.place(probe(), (127, 50.8), reference="P4", in_bom=False, instance_extra=variant("A", "(in_bom yes)"))
    root.place(power("VCC"), (50.8, 50.8), value="VCC", instance_extra=variant("A", field("Value", "VDD")))
    pair = multi_unit([[Pin("1", (0, 0), "A")], [Pin("2", (0, 0), "B")]], name="pair")
    root.place(pair, (152.4, 50.8), reference="U1", unit=1)
    root.place(pair, (152.4, 76.2), reference="U1", unit=2, instance_extra=variant("A", "(dnp yes)"))
    below.place(probe(), (50.8, 50.8), reference="Q1")
    root.sheet(below, "s1", (101.6, 101.6), fields={"Board": "one"})
    root.sheet(below, "s2", (101.6, 152.4), fields={"Board": "two"})
    return root


def written(folder: Path, project: dict[str, object] | None = None) -> Path:
    path = varied().write(folder, version=KICAD_10, project=project)
    text = path.read_text(encoding="utf-8")
    sheet_change = variant("A", "(dnp yes)", field("Board", "three"))
    changed = text.replace('(page "2"))', f'(page "2"){sheet_change})', 1)
    assert changed != text
    path.write_text(changed, encoding="utf-8")
    return path


def parts(drawing: Drawing) -> dict[str, tuple[str, bool, bool]]:
    """Value, in BOM, not fitted."""
    found: dict[str, tuple[str, bool, bool]] = {}
    for each in drawing.symbols:
        if not each.is_power:
            value, in_bom, dnp = found.get(each.reference, (each.value, True, False))
            found[each.reference] = (value, in_bom and each.in_bom, dnp or each.dnp)
    return found


def symbol(drawing: Drawing, reference: str):
    return next(each for each in drawing.symbols if each.reference == reference)


def test_without_a_variant_the_drawing_is_as_it_is(tmp_path):
    drawing = read_drawing(written(tmp_path))
    assert drawing.variant == ""
    assert parts(drawing)["P1"] == ("plain", True, False)
    assert parts(drawing)["P2"][2] and not parts(drawing)["Q1"][2]


def test_a_variant_changes_fields_and_flags(tmp_path):
    drawing = read_drawing(written(tmp_path), variant="A")
    said = parts(drawing)
    assert said["P1"] == ("other", True, False)
    assert [said[each][2] for each in ("P2", "U1", "Q1", "Q101")] == [False, True, True, False]
    assert [said[each][1] for each in ("P3", "P4")] == [False, True]
    fields = symbol(drawing, "P1").fields
    assert (fields["N"], fields["M"], fields["Value"], fields["Reference"]) == ("two", "m", "other", "P1")
    assert "New" not in fields  # a field that the symbol does not have: KiCad's BOM has none either


def test_a_sheets_fields_are_varied_too(tmp_path):
    drawing = read_drawing(written(tmp_path), variant="A")
    assert symbol(drawing, "Q1").sheet_fields[0]["Board"] == "three"
    assert symbol(drawing, "Q101").sheet_fields[0]["Board"] == "two"


def test_nets_do_not_depend_on_the_variant(tmp_path):
    root = written(tmp_path)
    assert nets_json(read_drawing(root, variant="A")) == nets_json(read_drawing(root))


def test_an_unknown_variant_is_one_line_with_the_names_there_are(tmp_path):
    root = written(tmp_path, project={"schematic": {"variants": [{"name": "C", "description": ""}]}})
    with pytest.raises(TabsideError, match=r'the drawing has no variant "a"; there are A, B, C$'):
        read_drawing(root, variant="a")  # as in KiCad, capitals count
    assert read_drawing(root, variant="C").variant == "C"  # named in the project, and changes nothing


def test_a_drawing_without_variants_says_so(tmp_path):
    sheet = Sheet("plain")
    sheet.place(probe(), (50.8, 50.8), reference="P1")
    with pytest.raises(TabsideError, match='no variant "A"; it has none'):
        read_drawing(sheet.write(tmp_path), variant="A")


def test_what_is_not_fitted_in_a_variant_has_no_leads_and_changed_fields_count(tmp_path):
    sheet = Sheet("harness")
    plugs = [
        sheet.place(
            connector(["TX", "GND"]),
            (50.8 + 50.8 * k, 50.8),
            reference=f"J{k + 1}",
            fields={"Board": f"board {k + 1}"},
            instance_extra=extra,
        )
        for k, extra in enumerate(("", variant("no camera", "(dnp yes)"), variant("swap", field("Board", "other"))))
    ]
    for plug in plugs:
        sheet.label("local", "A", plug.pin(1))
        sheet.label("local", "GND", plug.pin(2))
    root = sheet.write(tmp_path, version=KICAD_10)
    craft = read_craft(root, variant="no camera")
    assert {end for lead in craft.leads for end in lead.link} == {"J1", "J3"}  # J2 is not fitted
    assert read_craft(root).leads == ()  # three plugs on each net
    assert craft.name.endswith(", variant no camera")
    assert craft.drawing_hash != read_craft(root).drawing_hash
    assert read_craft(root, variant="swap").terminations["J3"].board == "other"


@pytest.mark.kicad("cli10")
@pytest.mark.parametrize("name", [None, "A", "B"])
def test_kicad_10_has_the_same_parts_in_its_bill_of_materials(name, tmp_path):
    root = written(tmp_path)
    theirs = kicad_10_bom(root, ("Value", "DNP", "N"), name)
    ours = parts(read_drawing(root, variant=name))
    assert set(theirs) == {reference for reference, (_, in_bom, _) in ours.items() if in_bom}
    for reference, row in theirs.items():
        assert (row["Value"], row["DNP"] == "DNP") == (ours[reference][0], ours[reference][2]), reference
    assert theirs["P1"]["N"] == symbol(read_drawing(root, variant=name), "P1").fields["N"]
