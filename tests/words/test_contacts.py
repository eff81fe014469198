"""Roles in a person's words."""

import pytest

from tabside.words.contacts import with_article


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("ground", "ground"),
        ("5 V supply", "a 5 V supply"),
        ("8 to 12 V supply", "an 8 to 12 V supply"),
        ("11.1 V supply", "an 11.1 V supply"),
        ("1.8 V supply", "a 1.8 V supply"),
        ("18 V supply", "an 18 V supply"),
        ("12 V supply", "a 12 V supply"),
        ("UART output (TX)", "a UART output (TX)"),
        ("I2C clock line (SCL)", "an I2C clock line (SCL)"),
        ("LED line", "an LED line"),
        ("telemetry input", "a telemetry input"),
    ],
)
def test_the_article_goes_by_what_is_spoken(words, said):
    assert with_article(words) == said
