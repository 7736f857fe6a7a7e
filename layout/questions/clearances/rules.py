"""The rules: which bodies need room between them, how much, why, and who says so."""

from __future__ import annotations

from typing import Final

from layout.parts.form.form import BEHIND_TRAY, Role
from layout.questions.clearances.board_rules import BOARD_RULES
from layout.questions.clearances.card_rules import CARD_RULES
from layout.questions.clearances.cooler_rules import COOLER_RULES
from layout.questions.clearances.cures import (
    Cure,
    among,
    behind_socket,
    both,
    caged,
    can_raise,
    other_slot,
)
from layout.questions.clearances.picks import (
    ANYWHERE,
    COOLER,
    ON_FRONT,
    RISING,
    SHROUD,
    STORAGE,
)
from layout.questions.clearances.rule import Picked, Rule, of
from layout.questions.clearances.supply_rules import SUPPLY_RULES
from layout.questions.findings.remedy import Remedy

__all__ = ["NO_INTERFERENCE", "RULES", "Picked", "Rule"]


NO_INTERFERENCE: Final = "no-interference"
"""Name of the rule for every pair that no other rule names."""

_FARTHER: Final = "take a case whose mount lies farther from the board"
"""Along either axis: more room over the board, or a row farther from the tray."""


RULES: Final = (
    *BOARD_RULES,
    *COOLER_RULES,
    *CARD_RULES,
    *SUPPLY_RULES,
    Rule(
        name="panel-over-cooler",
        a=(*COOLER, of(Role.PUMP_BLOCK)),
        b=(of(Role.SIDE_PANEL),),
        need_mm=2.0,
        why="the panel must close without pressing on the cooler",
        remedy=Remedy("take a lower cooler", "take a wider case"),
    ),
    Rule(
        name="cooler-over-memory",
        a=COOLER,
        b=(of(Role.MEMORY),),
        need_mm=1.0,
        why="a fan must not rest on the memory, and modules must come out",
        remedy=Remedy(
            "take lower memory", "take a cooler with more room over the memory"
        ),
        cures=(
            Cure(
                Remedy(
                    "take lower memory, or raise the fan",
                    "move the fan to the cooler's other side",
                ),
                can_raise,
            ),
        ),
    ),
    Rule(
        name="cooler-over-board-parts",
        a=COOLER,
        b=(of(Role.REGULATOR_HEATSINK, Role.REAR_CONNECTORS),),
        need_mm=1.0,
        why="fins and fan must pass the heatsinks and connectors round the socket",
        remedy=Remedy(others="take a cooler with higher or narrower fins"),
    ),
    Rule(
        name="cooler-beside-card",
        a=COOLER,
        b=(of(Role.CARD, Role.CARD_BRACKET),),
        need_mm=2.0,
        why="the card must slide in past the cooler",
        remedy=Remedy(others="take a cooler that is narrower towards the card"),
        cures=(
            Cure(
                Remedy(
                    "use a lower slot",
                    "take a cooler that is narrower towards the card",
                ),
                other_slot,
            ),
        ),
    ),
    Rule(
        name="cooler-under-top",
        a=COOLER,
        b=(of(Role.FAN, Role.RADIATOR, on="top"),),
        need_mm=2.0,
        why="what hangs from the top must not rest on the cooler",
        remedy=Remedy(
            "take thinner fans at the top", "leave out the fan over the cooler"
        ),
        cures=(
            Cure(
                Remedy("take a thinner radiator at the top, or another mount for it"),
                among(Role.RADIATOR),
            ),
        ),
    ),
    Rule(
        name="cooler-before-rear-fan",
        a=COOLER,
        b=(of(Role.FAN, Role.RADIATOR, on="rear"),),
        need_mm=3.0,
        why="the rear fan must go in and out past the cooler",
        remedy=Remedy(
            "take a thinner rear fan", "take a cooler that is shallower to the rear"
        ),
        cures=(
            Cure(
                Remedy("take a thinner radiator at the rear, or another mount for it"),
                among(Role.RADIATOR),
            ),
        ),
    ),
    Rule(
        name="radiator-ends",
        a=(of(Role.RADIATOR, on="front"),),
        b=(of(Role.FLOOR, Role.TOP), *SHROUD),
        need_mm=1.0,
        why="a radiator is longer than its fans by both end tanks",
        remedy=Remedy(
            others="take a radiator a size shorter, or mount it farther from the end"
        ),
    ),
    Rule(
        name="top-radiator-ends",
        a=(of(Role.RADIATOR, on="top"),),
        b=(of(Role.FRONT, Role.REAR), of(Role.FAN, on="rear"), ON_FRONT),
        need_mm=1.0,
        why="a radiator is longer than its fans by both end tanks",
        remedy=Remedy(
            others="take a radiator a size shorter, or mount it farther from the end"
        ),
    ),
    Rule(
        name="mount-to-board",
        a=(of(Role.FAN, Role.RADIATOR, on=ANYWHERE),),
        b=RISING,
        need_mm=1.0,
        why="fans and radiators must pass the board and what rises from it",
        remedy=Remedy("take thinner fans, or another mount for them", _FARTHER),
        cures=(
            Cure(
                Remedy(
                    "take a thinner radiator, lower memory, or another mount", _FARTHER
                ),
                both(among(Role.RADIATOR), among(Role.MEMORY)),
            ),
            Cure(
                Remedy("take thinner fans, lower memory, or another mount", _FARTHER),
                among(Role.MEMORY),
            ),
            Cure(
                Remedy("take a thinner radiator, or another mount for it", _FARTHER),
                among(Role.RADIATOR),
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="cage-to-front-fans",
        a=STORAGE,
        b=(ON_FRONT,),
        need_mm=3.0,
        why="the fans must go in and out past cage and drives",
        remedy=Remedy(
            "put the drive elsewhere", "take a shorter drive, or leave out the fan"
        ),
        cures=(
            Cure(Remedy("move the cage or take it out"), caged),
            Cure(
                Remedy(
                    "put the drive elsewhere, or take another mount for the radiator"
                ),
                among(Role.RADIATOR),
            ),
        ),
    ),
    Rule(
        name="board-to-cut-out",
        a=(of(Role.BOARD),),
        b=(of(Role.CUT_OUT),),
        need_mm=5.0,
        why="cables must pass the cut-out beside the board's edge",
        remedy=Remedy(
            others="take a smaller board, or a case with its cut-outs farther out"
        ),
        cures=(
            Cure(
                Remedy(
                    others="it lies behind the socket: write 'cables: no' of it in the "
                    "case file, or take a smaller board"
                ),
                behind_socket,
            ),
        ),
    ),
    Rule(
        name="drive-behind-tray",
        a=(Picked(frozenset({Role.DRIVE}), where=frozenset({BEHIND_TRAY})),),
        b=(of(Role.BACK_PANEL),),
        need_mm=2.0,
        why="the back panel must close without pressing on the drive",
        remedy=Remedy("put the drive elsewhere", "take a thinner drive"),
    ),
    Rule(
        name="room-behind-tray",
        a=(of(Role.TRAY),),
        b=(of(Role.BACK_PANEL),),
        need_mm=15.0,
        why="the thickest cable must lie behind the tray with the back panel closed",
        remedy=Remedy(
            others="lead the thickest cable elsewhere, or take a case with more room"
        ),
        # Without a hole for cables in the tray none is led behind it.
        only_with=frozenset({Role.CUT_OUT}),
    ),
)
