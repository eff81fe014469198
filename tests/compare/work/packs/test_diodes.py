"""A diode in a wire: each joint says which end of it, and no end is guessed.

KiCad's own symbols name the pins A and K (libraries of KiCad 9); the band marks the cathode: common practice.
"""

from __future__ import annotations

from msgspec.structs import replace

from compare.work.test_making_way import alone, built, pack, rail, regulator
from crafts.craft_kit import plug
from tabside.compare import compare_crafts
from tabside.model.craft import Kind
from tabside.prove import measurement


def behind_a_diode():
    diode = plug("D1", ["FED", "6V"], value="1N5822", lib_id="Device:D", names=["K", "A"])
    return built(pack(), regulator(), diode, rail("FED"))


def unnamed(craft):
    """The same with pins that are only numbered."""
    part = craft.terminations["D1"]
    bare = replace(part, contacts=tuple(replace(contact, pin_name=contact.number) for contact in part.contacts))
    return replace(craft, terminations={**craft.terminations, "D1": bare})


def test_each_joint_says_which_end():
    new = behind_a_diode()
    assert new.terminations["D1"].kind is Kind.INLINE
    found = compare_crafts(alone(), new)
    words = [step.words for work in found.work for step in work.steps]
    assert any("solder" in each and "D1" in each and each.endswith("1, cathode (band)") for each in words)
    assert any("solder" in each and "D1" in each and each.endswith("2, anode") for each in words)
    (row,) = [row for row in found.measure if row.test is measurement.Test.PART]
    assert "cathode (K), contact 1" in row.expect


def test_an_unnamed_end_is_not_guessed():
    found = compare_crafts(alone(), unnamed(behind_a_diode()))
    words = [step.words for work in found.work for step in work.steps]
    assert not any("cathode" in each or "anode" in each for each in words)
    (row,) = [row for row in found.measure if row.test is measurement.Test.PART]
    assert "the drawing does not say" in row.expect
