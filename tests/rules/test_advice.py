"""What a finding advises is followed by machine, and the drawing is checked again: no advice makes a fault silent.

Each harmful drawing of the attack suite is mended as its findings say, one finding at a time.  Logic.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from functools import cache

import pytest
from msgspec.structs import replace

from attacks import HARMFUL, SOUND
from attacks.attack_kit import Attack, craft_of, some_of, symbols_of
from crafts.craft_kit import Symbol, craft, splice
from slow_cases import slow
from tabside.model.findings import Finding, Severity, Verdict
from tabside.read.craft.file import settings_from_text
from tabside.rules import check_craft

STRETCH = (
    Attack(
        "12 V of three plugs reaches an ADC",
        """
        hub/J1 ph | 12V=V, GND=G
        lamp/J3 ph | 12V=V, GND=G
        pilot/J2 ph | ADC=V, GND=G
    """,
    ),
    Attack(
        "the battery of three plugs reaches an unknown pin",
        """
        hub/J1 ph | VBAT=V, GND=G
        lamp/J3 ph | VBAT=V, GND=G
        pilot/J2 ph | QXZ=V, GND=G
    """,
    ),
    Attack(
        "5 V of three plugs reaches 3V3",
        """
        hub/J1 ph | 5V=V, GND=G
        lamp/J3 ph | 5V=V, GND=G
        pilot/J2 ph | 3V3=V, GND=G
    """,
    ),
)
MIRRORED = (
    Attack(
        "a telemetry plug copied from its other side",
        """
        otter/J4 gh | 5V=a, TX=b, RX=c, CTS=d, RTS=e, GND=f
        ferry/J7 gh | GND=a, CTS=b, RTS=c, TX=d, RX=e, 5V=f
    """,
    ),
    Attack(
        "a four-way plug with a third board on its rails",
        """
        otter/J4 sh | 3V3=V, SCL=b, SDA=c, GND=GND
        ferry/J7 sh | GND=V, SDA=b, SCL=c, 3V3=GND
        heron/J9 sh | 3V3=V, GND=GND
        rails GND
    """,
    ),
    Attack(
        "a power module's six ways",
        """
        module/J1 gh | 5V=a, 5V=b, CURRENT=c, VOLTAGE=d, GND=e, GND=f
        otter/J2 gh | GND=a, GND=b, VOLTAGE=c, CURRENT=d, 5V=e, 5V=f
    """,
    ),
)


@cache
def verdict_as_drawn(attack: Attack) -> Verdict:
    return check_craft(craft_of(attack))


def verdict_of(attack: Attack, symbols: list[Symbol]) -> Verdict:
    _, labels = symbols_of(attack.drawing)
    said = f'battery = "{attack.battery}"\n' if attack.battery else ""
    settings = settings_from_text(f"[craft]\n{said}{attack.accept}".encode(), "x.craft.toml")
    used = {net for symbol in symbols for _, net in symbol.nets}
    return check_craft(
        craft(*symbols, labels={net: text for net, text in labels.items() if net in used}, settings=settings)
    )


def faults(verdict: Verdict) -> list[Finding]:
    return [each for each in verdict.findings if each.severity is not Severity.NOTE and each.accepted is None]


def net_of(symbols: list[Symbol], contact: str) -> str:
    reference, number = contact.split(":")
    return next(dict(symbol.nets)[number] for symbol in symbols if symbol.reference == reference)


def moved(symbols: list[Symbol], nets: dict[str, str]) -> list[Symbol]:
    """The symbols with these contacts ("J1:2") on other nets; "" leaves one open."""
    return [
        replace(
            symbol,
            nets=tuple((number, nets.get(f"{symbol.reference}:{number}", net)) for number, net in symbol.nets),
        )
        for symbol in symbols
    ]


def contacts_in(text: str) -> list[str]:
    """The contacts that a text names: "pilot/J3:6 (GND)" is J3:6."""
    return [f"{ref}:{number}" for ref, number in re.findall(r"(?:\A|[\s/])([A-Z]+\d+):(\w+)", text)]


@pytest.mark.parametrize("attack", [*STRETCH, *some_of(HARMFUL)], ids=lambda attack: attack.name)
def test_a_splice_where_one_is_advised_hides_nothing(attack):
    """`cavity-shared` advises a splice: drawn so, what does not belong on the net is still told."""
    symbols, _ = symbols_of(attack.drawing)
    before = verdict_as_drawn(attack)
    crowded = [each for each in before.findings if each.rule in ("cavity-shared", "pad-crowded")]
    if not crowded and attack not in STRETCH:
        pytest.skip("nothing is crowded")
    nets = {where.net for each in crowded for where in each.where} or {"V"}
    spliced = [*symbols, *(splice(f"J9{n}", net) for n, net in enumerate(sorted(net for net in nets if net)))]
    after = verdict_of(attack, spliced)
    others = [each for each in faults(after) if each.rule not in ("cavity-shared", "pad-crowded", "board-unknown")]
    assert others, "the fault is silent behind the splice"


@pytest.mark.parametrize("attack", some_of(HARMFUL), ids=lambda attack: attack.name)
def test_swapping_what_is_called_swapped_clears_it(attack):
    symbols, _ = symbols_of(attack.drawing)
    for finding in verdict_as_drawn(attack).findings:
        if finding.rule == "swapped-pair" and finding.fix.startswith("Connect "):
            a, b, c, d = contacts_in(finding.fix)[:4]
            met = [
                net for symbol in symbols for _, net in symbol.nets if net in {net_of(symbols, a), net_of(symbols, c)}
            ]
            if len(met) > 4:
                continue  # a third board is on these nets: which of them is wrong the drawing does not say
            after = verdict_of(attack, moved(symbols, {a: net_of(symbols, b), c: net_of(symbols, d)}))
            assert not [each for each in after.findings if each.rule == "swapped-pair"]
            assert worst(after) <= worst(verdict_as_drawn(attack))


def turned(symbols: list[Symbol], reference: str, *, names: bool) -> list[Symbol]:
    """The symbols with the wires of one plug in the other order, or with its names so (`names`)."""
    found = []
    for symbol in symbols:
        if symbol.reference != reference:
            found.append(symbol)
        elif names:
            fields = dict(symbol.fields)
            fields["Signals"] = ", ".join(fields["Signals"].split(", ")[::-1])
            found.append(replace(symbol, fields=fields))
        else:
            numbers, nets = [number for number, _ in symbol.nets], [net for _, net in symbol.nets]
            found.append(replace(symbol, nets=tuple(zip(numbers, nets[::-1], strict=True))))
    return found


@pytest.mark.parametrize("names", [False, True], ids=["the wires", "the pinout"])
@pytest.mark.parametrize("attack", [*MIRRORED, *some_of(HARMFUL)], ids=lambda attack: attack.name)
def test_either_cure_of_a_mirrored_plug_clears_it(attack, names):
    symbols, _ = symbols_of(attack.drawing)
    before = verdict_as_drawn(attack)
    mirrored = [each for each in before.findings if each.rule == "mirrored"]
    assert mirrored or attack not in MIRRORED
    for finding in mirrored:
        assert "in the other order" in finding.fix and "correct Signals" in finding.fix
        assert finding.link is not None
        told = [end for end in finding.link if f"/{end} is mirrored" in finding.message]
        for end in told or finding.link:
            after = verdict_of(attack, turned(symbols, end, names=names))
            assert not [each for each in after.findings if each.rule in ("mirrored", "shifted", "swapped-pair")]
            assert not [each for each in faults(after) if each.severity is Severity.ERROR and each.link == finding.link]
            assert worst(after) <= worst(before)


@pytest.mark.parametrize("attack", some_of(HARMFUL), ids=lambda attack: attack.name)
def test_taking_a_contact_off_its_net_ends_its_finding_and_makes_nothing_worse(attack):
    symbols, _ = symbols_of(attack.drawing)
    before = verdict_as_drawn(attack)
    for finding in before.findings:
        taken = re.search(r"[Tt]ake (\S+?:\w+)(?: \([^)]*\))? off", finding.fix)
        if taken is None or finding.severity is not Severity.ERROR:
            continue
        (contact,) = contacts_in(f" {taken[1]}")
        after = verdict_of(attack, moved(symbols, {contact: ""}))
        key = tuple(contact.split(":"))
        still = [
            e for e in faults(after) if e.rule == finding.rule and (e.where[0].termination, e.where[0].contact) == key
        ]
        assert not still
        # A part whose only way back went over it has none then, which is told: what is needed next, not what was made.
        told_next = {"no-return"} if "ground on" in finding.message else set()
        assert worst(after, but=told_next) <= worst(before)


@pytest.mark.parametrize("attack", some_of(HARMFUL), ids=lambda attack: attack.name)
def test_leaving_one_source_out_ends_two_sources(attack):
    symbols, _ = symbols_of(attack.drawing)
    before = verdict_as_drawn(attack)
    for finding in before.findings:
        if finding.rule == "two-sources" and finding.fix.startswith("Leave one"):
            named = [f"{where.termination}:{where.contact}" for where in finding.where]
            after = verdict_of(attack, moved(symbols, dict.fromkeys(named[1:], "")))
            assert not [each for each in faults(after) if each.rule == "two-sources"]


def worst(verdict: Verdict, *, but: Collection[str] = ()) -> int:
    errors = (each for each in faults(verdict) if each.severity is Severity.ERROR and each.rule not in but)
    return max((each.harm for each in errors), default=0)


@pytest.mark.parametrize("attacks", [SOUND[::6], *slow([SOUND])], ids=len)
def test_sound_drawings_need_no_advice(attacks):
    assert all(not verdict_of(attack, symbols_of(attack.drawing)[0]).count(Severity.ERROR) for attack in attacks)
