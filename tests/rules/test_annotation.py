"""What KiCad would drop or merge in silence, and fields that cannot be read."""

from __future__ import annotations

import pytest

from crafts.craft_kit import plug
from crafts.finding_kit import findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.annotation import annotation


def test_a_symbol_that_is_not_annotated():
    found = findings_of(annotation, plug("J?", "A B", board="one", annotated=False), plug("J1", "A B", board="two"))
    assert "not-annotated" in rules(found)
    assert all(each.severity is Severity.ERROR and each.fix for each in found)


def test_one_reference_twice():
    found = findings_of(annotation, plug("J1", "A B", board="one"), plug("J1", "A B", board="two"))
    assert "reference-duplicate" in rules(found)


def test_a_field_that_cannot_be_read():
    found = findings_of(annotation, plug("J1", "A B", board="one", signals="5V, GND", takes="5Q"))
    assert rules(found) == ["field-unclear"]
    assert "5Q" in found[0].message
    assert found[0].where[0].termination == "J1"


def test_a_face_that_nothing_ties_to_contact_numbers():
    found = findings_of(annotation, plug("J1", "A B", board="one", signals="5V, GND", seen_from="printed"))
    assert [(each.rule, each.severity) for each in found] == [("view-unknown", Severity.WARNING)]


def test_quiet_for_a_sound_drawing():
    assert not findings_of(
        annotation,
        plug("J1", "A B", board="one", signals="5V, GND", takes="5V 0.2A"),
        plug("J2", "A B", board="two", signals="5V, GND", gives="5V 1A"),
    )


@pytest.mark.parametrize(
    ("fields", "severity"),
    [
        ({"tabs": "left"}, "warning"),
        ({"entry": "back"}, "warning"),
        ({"gives": "lots"}, "error"),
        ({"takes": "5Q"}, "error"),
        ({"kind": "socket"}, "error"),
    ],
)
def test_a_field_that_only_says_how_a_plug_looks_warns(fields, severity):
    found = findings_of(annotation, plug("J1", "A G", board="a", signals="5V, GND", family="JST SH", **fields))
    assert [finding.severity.value for finding in found] == [severity]


def test_a_level_that_cannot_be_read_is_an_error():
    (found,) = findings_of(annotation, plug("J1", "a b", signals="TX, GND", level_max="low"))
    assert (found.rule, found.severity) == ("field-unclear", Severity.ERROR)
