"""Rules of cards: in a slot, hanging from a turned board, or on a riser."""

from __future__ import annotations

from typing import Final

from layout.geometry.space import Direction
from layout.parts.form.form import Role
from layout.questions.clearances.cures import (
    Cure,
    among,
    both,
    caged,
    in_case,
    other_slot,
    riser_card,
    under_riser_card,
)
from layout.questions.clearances.picks import (
    HANGING_CARD,
    LEVEL_CARD,
    ON_FRONT,
    SHROUD,
    STORAGE,
)
from layout.questions.clearances.rule import Rule, looking, of
from layout.questions.findings.remedy import Remedy

__all__ = ["CARD_RULES"]

CARD_RULES: Final = (
    Rule(
        name="card-breathes",
        a=(of(Role.CARD_VENT),),
        b=(
            of(Role.SHROUD, Role.FLOOR, Role.SIDE_PANEL, Role.BACK_PANEL),
            of(Role.CARD, Role.SUPPLY, Role.CAGE, Role.DRIVE, Role.BLOCK),
            of(Role.FAN, Role.RADIATOR, on="floor, shroud, panel side"),
        ),
        need_mm=20.0,
        why="the card's fans must have something to breathe",
        remedy=Remedy(others="clear what is before the card's fans"),
        cures=(
            Cure(
                Remedy("take a thinner card", "move the riser bracket from the panel"),
                both(riser_card, in_case),
            ),
            Cure(
                Remedy("use another slot, or take a thinner card"),
                both(other_slot, in_case),
            ),
            Cure(Remedy("take a thinner card"), in_case),
            Cure(
                Remedy("use another slot", "clear what is before the card's fans"),
                other_slot,
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="card-to-front",
        a=(LEVEL_CARD,),
        b=(of(Role.FRONT), ON_FRONT, *STORAGE),
        need_mm=5.0,
        why="a card is tilted into its slot and needs play at its far end",
        remedy=Remedy("take a shorter card", "clear what is before the card"),
        cures=(
            Cure(Remedy("take a shorter card", "take a deeper case"), in_case),
            Cure(
                Remedy("take a shorter card, or move the cage or take it out"),
                caged,
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="card-to-floor",
        a=(HANGING_CARD,),
        b=(
            of(Role.FLOOR, Role.SUPPLY, Role.SUPPLY_LEADS),
            of(Role.FAN, Role.RADIATOR, on="floor, shroud"),
            *SHROUD,
            *STORAGE,
        ),
        need_mm=5.0,
        why="a card is tilted into its slot and needs play at its far end",
        remedy=Remedy("take a shorter card", "clear what is under the card"),
        cures=(
            Cure(Remedy("take a shorter card", "take a higher case"), in_case),
            Cure(Remedy("take a shorter card, or move the cage or take it out"), caged),
        ),
        nearest_only=True,
    ),
    Rule(
        name="card-over-card",
        a=(of(Role.CARD),),
        b=(of(Role.CARD),),
        need_mm=5.0,
        why="a card hangs lower at its far end and must not rest on what is under it",
        remedy=Remedy("take a thinner card"),
        cures=(Cure(Remedy("put one of the cards into another slot"), other_slot),),
    ),
    Rule(
        name="card-to-panel",
        a=(
            looking(Direction.DOWN, Role.CARD, Role.CARD_PLUG),
            looking(Direction.REAR, Role.CARD, Role.CARD_PLUG),
        ),
        b=(of(Role.SIDE_PANEL),),
        need_mm=2.0,
        why="the panel must close without pressing on the card or its plug",
        remedy=Remedy("take a lower card", "take a wider case"),
        cures=(
            Cure(
                Remedy("take a lower card, or an angled plug", "take a wider case"),
                among(Role.CARD_PLUG),
            ),
        ),
    ),
    Rule(
        name="card-above-floor",
        a=(looking(Direction.DOWN, Role.CARD),),
        b=(
            of(Role.FLOOR),
            *SHROUD,
            of(Role.FAN, Role.RADIATOR, on="floor, shroud"),
        ),
        need_mm=5.0,
        why="a card hangs lower at its far end and must not rest on what is under it",
        remedy=Remedy("take a thinner card", "clear what is under the card"),
        cures=(
            Cure(
                Remedy("use a higher slot, or take a thinner card"),
                both(other_slot, in_case),
            ),
            Cure(Remedy("take a thinner card"), in_case),
            Cure(
                Remedy("use a higher slot", "clear what is under the card"), other_slot
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="support-to-others",
        a=(of(Role.CARD_SUPPORT),),
        b=(
            of(Role.SUPPLY, Role.SUPPLY_LEADS, Role.CAGE, Role.DRIVE, Role.M2_DRIVE),
            of(Role.FAN, Role.RADIATOR, Role.BOARD_CONNECTOR, Role.CARD_PLUG),
        ),
        need_mm=1.0,
        why="a card's support must pass what stands beside and under it",
        remedy=Remedy(
            others="move the support along the card, or take a post or bracket instead"
        ),
        cures=(
            Cure(Remedy(others="move the support along the card"), under_riser_card),
        ),
        nearest_only=True,
    ),
    Rule(
        name="riser-card-to-panel",
        a=(looking(Direction.PANEL, Role.CARD),),
        b=(of(Role.SIDE_PANEL),),
        need_mm=2.0,
        why="the panel must close without pressing on the card",
        remedy=Remedy("take a thinner card", "move the riser bracket from the panel"),
    ),
    Rule(
        name="riser-card-to-back-panel",
        a=(looking(Direction.TRAY, Role.CARD),),
        b=(of(Role.BACK_PANEL),),
        need_mm=2.0,
        why="the panel must close without pressing on the card",
        remedy=Remedy("take a thinner card", "move the riser bracket from the panel"),
    ),
    Rule(
        name="riser-card-over-board",
        a=(looking(Direction.PANEL, Role.CARD, Role.CARD_SLOT),),
        b=(of(Role.BOARD_CONNECTOR, Role.MEMORY, Role.REGULATOR_HEATSINK),),
        need_mm=5.0,
        why="plugs and cables of the board must pass behind a card on its riser",
        remedy=Remedy(others="move the riser bracket nearer to the panel"),
        nearest_only=True,
    ),
)
