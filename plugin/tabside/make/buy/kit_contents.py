"""What comes with kits and whole packs that are bought, in numbers and in words."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.make.options.activities import BuyContacts, BuyHousings, BuyKit, BuyListed
from tabside.make.options.supply import bought_in_kits
from tabside.make.options.things import Listed
from tabside.make.solve.choice import CraftChoice
from tabside.model.craft import Craft
from tabside.words.contacts import counted


def said(*words: str) -> str:
    return "; ".join(filter(None, words))


def kits_bought(choices: CraftChoice) -> dict[BuyKit, int]:
    return {deed: count for deed, count in choices.bought.items() if isinstance(deed, BuyKit)}


def from_kits(craft: Craft, choices: CraftChoice, kind: str, n: int, missing: int) -> tuple[int, str]:
    """How many of the missing pieces come with kits that are bought, and which these are."""
    kits = kits_bought(choices)
    come = min(missing, bought_in_kits(craft.settings, kits)[kind, n])
    names = [
        kit.name
        for k, kit in enumerate(craft.settings.stock_kits)
        if BuyKit(k) in kits and any((item.kind, item.index) == (kind, n) for item in kit.items)
    ]
    return come, f"{come} in the kit {', '.join(names)}" if come else ""


def from_kits_alike(
    craft: Craft, choices: CraftChoice, kind: str, alike: Iterable[int], missing: int, gone: int = 0
) -> tuple[int, str]:
    """As `from_kits`, over all entries of the stock that are the same thing; `gone`: what others took of it."""
    found = [from_kits(craft, choices, kind, n, missing + gone) for n in alike]
    come = max(0, min(sum(count for count, _ in found) - gone, missing))
    return come, ", ".join(dict.fromkeys(words for _, words in found if words)) if come else ""


def packs_of_listed(choices: CraftChoice, thing: Listed, pack: int) -> str:
    """What whole packs of something of the stock's list come to: "; 2 bags of 10"."""
    count = choices.bought.get(BuyListed(thing), 0)
    return f"; {_packs(count, pack)}" if count and pack > 1 else ""


def packs_of(bought: Iterable[tuple[BuyContacts | BuyHousings, int]]) -> str:
    return ", ".join(_packs(count, deed.pack) for deed, count in bought if deed.pack != 1)


def _packs(count: int, pack: int) -> str:
    return f"{counted(count, 'bag')} of {pack}"
