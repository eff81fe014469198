"""Contacts and their roles in a person's words."""

from __future__ import annotations

from tabside.model.craft import Contact, Craft
from tabside.model.roles import Direction, Role, RoleClass

# Words for roles whose name alone would not be understood, or has a better word in the trade.
_WORDS = {
    "uart_tx": "UART output (TX)",
    "uart_rx": "UART input (RX)",
    "uart_rts": "UART RTS output",
    "uart_cts": "UART CTS input",
    "esc_telemetry": "telemetry input",
    "current_sense": "current sensing input",
    "voltage_sense": "voltage sensing input",
    "i2c_sda": "I2C data line (SDA)",
    "i2c_scl": "I2C clock line (SCL)",
    "can_h": "CAN high line",
    "can_l": "CAN low line",
    "video": "video line",
    "video_in": "video input",
    "video_out": "video output",
    "sbus": "receiver's serial line",
    "ppm": "PPM line",
    "rssi": "signal-strength input",
    "led": "LED strip's data line",
    "vtx_control": "video control line",
    "camera_control": "camera control line",
    "buzzer_minus": "switched buzzer contact",
    "buzzer_plus": "buzzer supply",
    "signal_any": "signal",
    "swdio": "debug data line",
    "swclk": "debug clock line",
    "usb_dm": "USB data minus",
    "usb_dp": "USB data plus",
    "esc_signal": "ESC signal input",
    "rs485_a": "RS-485 line A",
    "rs485_b": "RS-485 line B",
    "pair_a": "line A of a pair",
    "pair_b": "line B of a pair",
    "encoder_a": "encoder line A",
    "encoder_b": "encoder line B",
    "hall_a": "Hall sensor line A",
    "hall_b": "Hall sensor line B",
    "hall_c": "Hall sensor line C",
    "spi_cs": "chip select",
    "spi_sdi": "serial data input (SDI)",
    "spi_sdo": "serial data output (SDO)",
    "pps": "PPS line",
    "rpm": "RPM line",
    "trigger": "trigger input",
    "echo": "echo output",
    "analog_in": "analog input",
}


def role_words(role: Role) -> str:
    """The role without an article: "battery", "5 V supply", "telemetry input", "motor 3 signal"."""
    match role.cls:
        case RoleClass.GROUND | RoleClass.SHIELD:
            return role.cls.value
        case RoleClass.SUPPLY:
            if role.battery:
                return "battery"
            if role.name == "cell_tap":
                return f"balance tap {role.index}"
            return f"{role.volts} supply" if role.volts else "supply"
        case RoleClass.PHASE:
            return "motor phase"
        case RoleClass.AMBIGUOUS:
            readings = dict.fromkeys(role_words(reading) for reading in role.readings)
            return " or ".join(readings) or "contact of unclear name"
        case RoleClass.UNKNOWN:
            return "contact of unknown function"
    if role.name == "motor_signal":
        return f"motor {role.index} signal" if role.index is not None else "motor signal"
    if role.name == "esc_telemetry" and role.direction is Direction.DRIVES:
        return "telemetry output"
    return _WORDS.get(role.name) or f"{role.name.replace('_', ' ')} line"


def with_article(words: str) -> str:
    if words in ("ground", "battery"):
        return words
    number = words.split(" ")[0].split(".")[0]
    spoken_vowel = (
        words[:1].lower() in "aeio"
        or words.startswith(("SBUS", "RSSI", "LED", "ESC", "RS-", "RPM"))
        or number in ("11", "18")
        or (number.isdecimal() and number[0] == "8")
    )
    return f"{'an' if spoken_vowel else 'a'} {words}"


def name_of(craft: Craft, contact: Contact) -> str:
    """The contact as a person finds it: "pilot/J3:6 (GND)"."""
    label = f" ({contact.label})" if contact.label else ""
    return f"{termination_name(craft, contact.termination)}:{contact.number}{label}"


def termination_name(craft: Craft, reference: str) -> str:
    """ "pilot/J3"; the reference alone where it stands in for the board."""
    board = craft.terminations[reference].board
    return reference if board == reference else f"{board}/{reference}"


def link_name(craft: Craft, ends: tuple[str, str]) -> str:
    return f"{termination_name(craft, ends[0])} - {termination_name(craft, ends[1])}"


def begun(text: str) -> str:
    """As a sentence begins: "Cable C1 in"."""
    return text[:1].upper() + text[1:]


def plural(number: int, thing: str) -> str:
    """ "wire" for one, "wires" for any other number."""
    return thing if number == 1 else f"{thing}s"


def counted(number: int, thing: str) -> str:
    """ "1 wire", "3 wires"."""
    return f"{number} {plural(number, thing)}"


def listed(texts: list[str], most: int = 6) -> str:
    """ "a, b and c"; beyond `most` the rest is counted."""
    if len(texts) > most:
        return ", ".join(texts[:most]) + f" and {len(texts) - most} more"
    return texts[0] if len(texts) == 1 else ", ".join(texts[:-1]) + " and " + texts[-1]
