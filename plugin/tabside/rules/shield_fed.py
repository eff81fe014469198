"""A supply on a shield or a mounting pin."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contact
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, ShieldPin
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check
from tabside.words.contacts import name_of


@check("role-clash", severity=Severity.ERROR)
def shield_fed(judgement: Judgement) -> Iterator[Finding]:
    """No supply is on a connector's shield or mounting pins.

    They are no contacts and get no wire, but they are metal, and on most boards they touch ground: what lies on them
    is shorted.  Example: the pin SH of a USB connector on the net of VBUS.

    Fix: take the pin off that net; leave it open, or connect it to ground.
    Accept: a shield that the board keeps apart, as its maker's drawing shows.
    Passes: a shield on ground, on nothing, or on other shields.
    Fails: a pin MP, SH or S on a net with a supply or the battery.
    Source: logic; MP and SH are the pin numbers of KiCad's connector symbols.
    """
    for shield in judgement.craft.shields:
        fed_by = _supply_on(judgement, shield)
        if fed_by is not None:
            yield _finding(judgement, shield, fed_by)


def _supply_on(judgement: Judgement, shield: ShieldPin) -> Contact | str | None:
    """A contact that says that its net is a supply, or a rail's name on the net."""
    supply = next((contact for contact in judgement.on_whole_run(shield.net_id) if contact.role.is_supply), None)
    names = judgement.craft.net_names.get(shield.net_id, ())
    return supply or next((name for name in names if read_label(name).is_supply), None)


def _finding(judgement: Judgement, shield: ShieldPin, fed_by: Contact | str) -> Finding:
    craft, pin = judgement.craft, f"{shield.reference}:{shield.number}"
    if isinstance(fed_by, str):
        what, where = f'is on a net named "{fed_by}"', []
    else:
        what, where = f"is on the net of {name_of(craft, fed_by)}", [at_contact(craft, fed_by)]
    battery = not isinstance(fed_by, str) and fed_by.role.battery
    return Finding(
        rule="role-clash",
        severity=Severity.ERROR,
        message=f"The shield or mounting pin {pin} {what}: {'battery' if battery else 'a supply'} on metal that most"
        " boards connect to ground.",
        fix="Take it off that net: leave it open, or connect it to ground.",
        where=(Where(termination=shield.reference, net=shield.net, place=shield.place), *where),
        harm=harm.PACK_SHORT if battery else harm.SUPPLY_SHORT,
    )
