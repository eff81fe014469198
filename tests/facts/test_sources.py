"""Grades read from source cells."""

from __future__ import annotations

import pytest

from tabside.facts.sources import Grade, grades_in_words, is_hard, read_source


@pytest.mark.parametrize(
    ("cell", "grade"),
    [
        ("[A] maker's datasheet, 4 pages", Grade.READ),
        ("[B] public repository", Grade.QUOTED),
        ("[C] trade page, undated", Grade.TRADE),
        ("[K] footprint library", Grade.KICAD),
        ("[P] common practice, no source", Grade.COMMON_PRACTICE),
        ("common practice, no source", Grade.COMMON_PRACTICE),
        ("[M] from memory, unverified", Grade.MEMORY),
        ("from memory, unverified", Grade.MEMORY),
        ("computed: formula; agrees with a table", Grade.COMPUTED),
        ("not found", Grade.NOT_FOUND),
        ("", Grade.NOT_FOUND),
        ("A", Grade.READ),
        ("words without a grade", Grade.MEMORY),
    ],
)
def test_the_grade_of_a_cell_is_read(cell, grade):
    assert read_source(cell).grade is grade


def test_only_read_quoted_and_measured_figures_may_raise_an_error():
    assert {grade for grade in Grade if is_hard(grade)} == {Grade.READ, Grade.QUOTED, Grade.KICAD}


def test_the_least_trusted_source_of_a_cell_counts():
    assert read_source("[A] datasheet; [C] trade page").grade is Grade.TRADE


def test_a_source_that_names_its_figure_counts_for_that_figure_only():
    source = read_source("AWG: [B] a repository (50079 AWG 26-28; 50058 AWG 28-32); OD (for one part): [M] from memory")
    assert source.grade_for("AWG") is Grade.QUOTED
    assert source.grade_for("OD") is Grade.MEMORY
    assert source.is_hard_for("AWG")
    assert not source.is_hard_for("OD")


def test_a_general_source_counts_for_figures_that_none_names():
    source = read_source("[A] datasheet; rating wire: [M] from memory, unverified")
    assert source.grade_for("current") is Grade.READ
    assert source.grade_for("rating wire") is Grade.MEMORY


def test_a_figure_that_no_source_names_gets_the_least_trusted_of_all():
    assert read_source("number: [B] a repository; range: [M] from memory").grade_for("AWG") is Grade.MEMORY


def test_semicolons_in_brackets_and_quotation_marks_do_not_part_sources():
    assert len(read_source('[B] page "a; b" (c; it states d); [A] datasheet').parts) == 2


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("[A] maker's data sheet", "maker's data sheet, read in the document"),
        ("[A] PS-43045, text read", "PS-43045, text read"),
        ("[B] a repository citing a sheet", "a repository citing a sheet"),
        ("[C] page on connectors", "page on connectors, trade page"),
        ("[K] KiCad footprint library 9.0.8", "KiCad footprint library 9.0.8"),
        ("[M] from memory, unverified", "from memory, unverified"),
        ("[P] common practice, no source", "common practice, no source"),
        (
            "[A] data sheet; steps: [P] common practice, no source",
            "data sheet, read in the document; steps: common practice, no source",
        ),
        ("A", "read in the document"),
        ("", "not found"),
    ],
)
def test_a_source_in_words_says_each_grade_once(cell, words):
    assert read_source(cell).words == words


def test_letters_within_a_remark_are_put_in_words():
    remark = "Mated height 2.00 mm [B]. Used first in 2015 [A DS-010]."
    assert grades_in_words(remark) == (
        "Mated height 2.00 mm (quoted from the document). Used first in 2015 (DS-010, read in the document)."
    )
