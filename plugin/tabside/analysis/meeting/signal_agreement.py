"""Whether two signal contacts agree: the same line, and somebody to drive it."""

from __future__ import annotations

from tabside.analysis import harm
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome, agreed, clash, not_judged
from tabside.facts.labels.pairs import pair_rule_between
from tabside.model.craft import Contact
from tabside.model.roles import Direction, Role
from tabside.words.contacts import role_words, with_article

ANY = "any"
_MEETS = {"tx": "rx", "rx": "tx", "rts": "cts", "cts": "rts"}

# One wire for both directions; a full UART drives or hears it through its TX or RX (common practice, no source).
_HALF_DUPLEX = {"vtx_control", "half_duplex", "smartport", "fport", "single_wire"}

# A strip's input is often named like a UART's (common practice, no source).
_STRIP_INPUTS = {"DIN", "DI", "IN", "DATA"}


def agree_signals(a: Contact, b: Contact) -> Agreement:
    """Two signals: group and line match, and they do not both drive or both listen.

    Source: the table of role pairs for the pairs that it lists; for the rest common practice, no source.
    """
    x, y = a.role, b.role
    led = _led(x, y) or _led(y, x)
    if led is not None:
        return led
    if ANY in (x.group, y.group):
        if x.name == y.name == "signal_any" and x.index is not None and x.label.strip() == y.label.strip():
            return not_judged("one end carries the name of the other")
        if _poles(x, y) in (("+", "-"), ("-", "+")):
            return not_judged("the plus of a pair meets a minus")
        return _by_direction(x, y, agreed("a signal of any kind"))
    if _single_wire(x, y) or _single_wire(y, x):
        return agreed("one wire for both directions")
    if _strip(x, y) or _strip(y, x):
        return agreed("an LED strip's input")
    if "rs232" in (x.group, y.group):
        return _rs232(x, y)
    if "pair" in (x.group, y.group):
        return _pair(x, y)
    if x.group == y.group == "spi" and {x.line, y.line} & {"sdi", "sdo"}:
        return _serial_data(x, y)
    listed = _listed(x, y)
    if listed is not None:
        return listed
    if x.group != y.group:
        return clash(_meeting(x, y), harm.DEAD_LINK, Cause.LINES)
    if x.group == "uart" and x.line in _MEETS:
        return _uart(x, y)
    if x.group == "motor" or x.name == y.name == "motor_signal":
        return _motors(x, y)
    if x.line and y.line and x.line != y.line and x.group != "video":
        return clash(_meeting(x, y), harm.DEAD_LINK, Cause.LINES)
    return _by_direction(x, y, agreed("the same line"))


def _poles(x: Role, y: Role) -> tuple[str, str]:
    return x.label.strip()[-1:], y.label.strip()[-1:]


def _pair(x: Role, y: Role) -> Agreement:
    """A and B of a bus or of an encoder: each meets its own letter, whatever the other end calls the pair."""
    if {x.group, y.group} <= {"pair", "rs485", "encoder", "hall"}:
        return agreed("the same line of a pair") if x.line == y.line else _crossed(x, y)
    return not_judged("what the lines A and B carry is not known")


def _crossed(x: Role, y: Role) -> Agreement:
    return clash(f"line {x.line.upper()} on line {y.line.upper()} of a pair", harm.DEAD_LINK, Cause.LINES)


def _serial_data(x: Role, y: Role) -> Agreement:
    """SDI meets SDO; beside MISO or MOSI the name does not say whose side it is seen from."""
    if {x.line, y.line} <= {"sdi", "sdo"}:
        return _by_direction(x, y, agreed("data output on data input"))
    if "sck" in (x.line, y.line) or "cs" in (x.line, y.line):
        return clash(_meeting(x, y), harm.DEAD_LINK, Cause.LINES)
    return agreed("data of the bus")


_STRIP_OUTPUTS = {"DOUT", "DO", "DATA OUT", "DATA_OUT", "LED_OUT", "LEDOUT", "D_OUT"}
_STRIP_NAMES = _STRIP_INPUTS | {"LED_IN", "DATA_IN", "DATA IN", "DIN_LED"}


def _led(strip: Role, other: Role) -> Agreement | None:
    """A strip's data output against what drives a strip as well: a controller's LED contact, another strip's output."""
    name, there = strip.label.strip().upper(), other.label.strip().upper()
    if name not in _STRIP_OUTPUTS or there in _STRIP_NAMES or other.direction is Direction.LISTENS:
        return None
    memories = name == there == "DO"  # a memory's data output goes to the controller's contact of the same name
    if other.name == "led" or (there in _STRIP_OUTPUTS and not memories):
        return clash("an LED output on a strip's data output: two outputs", harm.TWO_OUTPUTS, Cause.BOTH_DRIVE)
    return None


def _meeting(x: Role, y: Role) -> str:
    first, second = sorted((role_words(x), role_words(y)))
    return f"{with_article(first)} on {with_article(second)}"


def _single_wire(x: Role, y: Role) -> bool:
    return (x.name in _HALF_DUPLEX or x.group in _HALF_DUPLEX) and y.name in ("uart_tx", "uart_rx")


def _strip(x: Role, y: Role) -> bool:
    return x.name == "led" and y.name == "uart_rx" and y.label.strip().upper() in _STRIP_INPUTS


def _rs232(x: Role, y: Role) -> Agreement:
    """RS-232 levels burn a logic input; both ends of a straight cable carry the same names, seen from one of them."""
    if x.group != y.group:
        return clash(f"RS-232 levels (up to 15 V either way): {_meeting(x, y)}", harm.LINE_LEVELS, Cause.LINES)
    if x.line == y.line and x.direction is y.direction and x.direction in (Direction.DRIVES, Direction.LISTENS):
        return _by_direction(x, y, agreed(""))
    if x.line == y.line or _MEETS.get(x.line) == y.line:
        return agreed("RS-232 lines")
    return clash(_meeting(x, y), harm.DEAD_LINK, Cause.LINES)


def _listed(x: Role, y: Role) -> Agreement | None:
    """By the table of role pairs; None when it does not list the pair, or lists only the roles as such."""
    if x.name == y.name:
        return None
    rule = pair_rule_between(x, y)
    if rule is None:
        return None
    match rule.verdict:
        case "ok" | "conditional":
            return agreed(rule.why)
        case "hazard":
            return clash(f"{_meeting(x, y)}: {rule.why}", harm.LINE_LEVELS, Cause.LINES)
        case "error":
            both = Cause.BOTH_DRIVE if x.direction is y.direction is Direction.DRIVES else Cause.LINES
            rank = harm.TWO_OUTPUTS if both is Cause.BOTH_DRIVE else harm.DEAD_LINK
            return clash(f"{_meeting(x, y)}: {rule.why}", rank, both)
        case _:
            return Agreement(Outcome.WARN, f"{_meeting(x, y)}: {rule.why}", harm.DEAD_LINK, Cause.LINES)


def _uart(x: Role, y: Role) -> Agreement:
    if _MEETS.get(x.line) == y.line:
        return agreed("output drives input")
    if x.line != y.line:
        return clash(_meeting(x, y), harm.DEAD_LINK, Cause.LINES)
    name = x.line.upper()
    if x.line in ("tx", "rts"):
        return clash(f"{name} on {name}: two outputs", harm.TWO_OUTPUTS, Cause.CROSSING)
    return clash(f"{name} on {name}: nothing drives the line", harm.DEAD_LINK, Cause.CROSSING, nobody_drives=True)


def _motors(x: Role, y: Role) -> Agreement:
    if x.index is not None and y.index is not None and x.index != y.index:
        low, high = sorted((x.index, y.index))
        return Agreement(Outcome.WARN, f"motor {low} on motor {high}", harm.WRONG_MOTOR, Cause.MOTOR)
    return _by_direction(x, y, agreed("a motor's signal"))


def _by_direction(x: Role, y: Role, otherwise: Agreement) -> Agreement:
    if x.name == y.name == "esc_telemetry":
        return otherwise  # several ESCs may share one input
    if x.direction is not y.direction:
        return otherwise
    words = with_article(role_words(x)) if x.name == y.name else _meeting(x, y)
    if x.direction is Direction.DRIVES:
        return clash(f"{words} at both ends: two outputs", harm.TWO_OUTPUTS, Cause.BOTH_DRIVE)
    if x.direction is Direction.LISTENS:
        return clash(
            f"{words} at both ends: nothing drives the line", harm.DEAD_LINK, Cause.BOTH_LISTEN, nobody_drives=True
        )
    return otherwise
