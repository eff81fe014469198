"""Listed verdicts on pairs of roles."""

from __future__ import annotations

import pytest

from tabside.facts.labels.pairs import listed_pairs, pair_rule, pair_rule_between
from tabside.facts.labels.roles import read_label

# Typed from the table of role pairs, whose sources stand beside each row there.
VERDICTS = [
    ("uart_tx", "uart_rx", "ok"),
    ("uart_tx", "uart_tx", "error"),
    ("uart_rx", "uart_rx", "error"),
    ("uart_rts", "uart_cts", "ok"),
    ("uart_rts", "uart_rts", "error"),
    ("uart_cts", "uart_cts", "error"),
    ("esc_telemetry", "uart_rx", "ok"),
    ("esc_telemetry", "uart_tx", "error"),
    ("i2c_sda", "i2c_sda", "ok"),
    ("i2c_sda", "i2c_scl", "error"),
    ("can_h", "can_l", "error"),
    ("spi_mosi", "spi_mosi", "ok"),
    ("spi_miso", "spi_mosi", "error"),
    ("sbus", "uart_rx", "conditional"),
    ("crsf_tx", "uart_rx", "ok"),
    ("motor_signal", "esc_signal", "ok"),
    ("battery", "power_5v", "hazard"),
    ("power_9_12v", "power_5v", "hazard"),
    ("battery", "ground", "hazard"),
    ("power_out", "power_out", "hazard"),
    ("power_in", "power_in", "warn"),
    ("rs232_tx", "uart_rx", "hazard"),
    ("video_out", "video_in", "ok"),
    ("ground", "ground", "ok"),
    ("current_sense", "voltage_sense", "error"),
    ("vtx_control", "uart_tx", "ok"),  # common practice, no source
    ("battery", "i2c_sda", "hazard"),  # by the row for any signal
    ("battery", "signal_any", "hazard"),
]


@pytest.mark.parametrize(("a", "b", "verdict"), VERDICTS)
def test_a_listed_pair_has_its_verdict_in_either_order(a, b, verdict):
    rule = pair_rule(a, b)
    assert rule is not None
    assert rule.verdict == verdict
    assert rule.why
    assert pair_rule(b, a) == rule


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("power_5v", "power_5v"),  # two 5 V contacts are an ordinary lead; two sources of 5 V are not
        ("uart_tx", "i2c_sda"),
        ("ground", "i2c_sda"),
        ("battery", "phase"),
        ("battery", "battery"),
        ("unknown", "unknown"),
        ("battery", "unknown"),
        ("no such role", "uart_tx"),
    ],
)
def test_a_pair_that_is_not_listed_has_no_verdict(a, b):
    assert pair_rule(a, b) is None


def test_a_row_about_two_stated_sources_is_asked_for_by_its_name():
    rule = pair_rule("power_5v (source)", "power_5v (source)")
    assert rule is not None and rule.verdict == "hazard"


def test_telemetry_that_listens_may_meet_a_tx():
    heard = read_label("RX4", ["CUR", "M1", "M2"])
    assert heard.name == "esc_telemetry"
    assert pair_rule_between(heard, read_label("TX")).verdict == "ok"
    assert pair_rule_between(read_label("RX"), heard).verdict == "error"
    assert pair_rule_between(read_label("TLM"), read_label("TX")).verdict == "error"
    assert pair_rule_between(read_label("TLM"), read_label("RX")).verdict == "ok"


def test_every_row_has_a_verdict_of_the_five():
    assert {rule.verdict for _, _, rule in listed_pairs()} <= {"ok", "error", "hazard", "warn", "conditional"}
