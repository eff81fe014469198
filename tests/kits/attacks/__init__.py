"""Crafts drawn to break the verdict: harmful ones and sound ones that look like them."""

from __future__ import annotations

from attacks import (
    craft_kinds,
    fresh_look,
    kicad_symbols,
    later,
    mixtures,
    on_the_bench,
    parts_between,
    power,
    signals,
    sound,
    third_look,
)

HARMFUL = (
    *power.TEXT,
    *power.UNDECIDED,
    *power.PACKS,
    *power.RAILS,
    *power.INPUTS,
    *signals.LEVELS,
    *signals.BUSES,
    *signals.MOTORS,
    *signals.TERMINATORS,
    *power.MORE,
    *signals.MORE,
    *later.HARMFUL,
    *mixtures.HARMFUL,
    *third_look.HARMFUL,
    *on_the_bench.HARMFUL,
    *fresh_look.HARMFUL,
    *craft_kinds.HARMFUL,
    *kicad_symbols.HARMFUL,
    *parts_between.HARMFUL,
)
SOUND = (
    *sound.TEXT,
    *sound.SEEN_ON_DRAWINGS,
    *sound.PACKS,
    *sound.RAILS,
    *sound.MOTORS,
    *sound.SIGNALS,
    *sound.MORE,
    *later.SOUND,
    *mixtures.SOUND,
    *third_look.SOUND,
    *on_the_bench.SOUND,
    *fresh_look.SOUND,
    *craft_kinds.SOUND,
    *kicad_symbols.SOUND,
    *parts_between.SOUND,
)
ALL = (*HARMFUL, *SOUND)
