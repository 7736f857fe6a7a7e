"""Rules of coolers beside the usual ones: hoses, plates behind the board."""

from __future__ import annotations

from typing import Final

from layout.parts.form.form import Role
from layout.questions.clearances.cures import Cure, among, in_case
from layout.questions.clearances.picks import COOLER, ON_FRONT
from layout.questions.clearances.rule import Rule, of
from layout.questions.findings.remedy import Remedy

__all__ = ["COOLER_RULES"]

COOLER_RULES: Final = (
    Rule(
        name="block-over-board-parts",
        a=(of(Role.PUMP_BLOCK),),
        b=(of(Role.REGULATOR_HEATSINK, Role.REAR_CONNECTORS),),
        need_mm=1.0,
        why="the pump block must go down beside the heatsinks round the socket",
        remedy=Remedy(
            others="turn the pump block, or take a smaller one or lower heatsinks"
        ),
    ),
    Rule(
        name="rear-fan-to-board-parts",
        a=(of(Role.FAN, Role.RADIATOR, on="rear"),),
        b=(of(Role.REGULATOR_HEATSINK),),
        need_mm=1.0,
        why="the rear fan must pass the cover over the connectors, and heatsinks",
        remedy=Remedy("take a thinner rear fan", "leave out the rear fan"),
        cures=(
            Cure(Remedy("take another mount for the radiator"), among(Role.RADIATOR)),
        ),
        nearest_only=True,
    ),
    Rule(
        name="top-fans-to-rear-fan",
        a=(of(Role.FAN, on="top"),),
        b=(of(Role.FAN, Role.RADIATOR, on="rear"),),
        need_mm=1.0,
        why="fans at the top and at the rear must go in and out past one another",
        remedy=Remedy(others="leave out one of the fans at the top, or the rear fan"),
        cures=(
            Cure(
                Remedy(
                    "take another mount for the radiator",
                    "leave out one of the fans at the top",
                ),
                among(Role.RADIATOR),
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="top-fans-to-front",
        a=(of(Role.FAN, on="top"),),
        b=(ON_FRONT,),
        need_mm=1.0,
        why="fans at the top and at the front must go in and out past one another",
        remedy=Remedy(others="leave out one of the fans at the top or at the front"),
        cures=(
            Cure(
                Remedy(
                    "take a radiator a size shorter at the front",
                    "leave out one of the fans at the top",
                ),
                among(Role.RADIATOR),
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="hoses-to-board-parts",
        a=(of(Role.HOSE),),
        b=(
            of(Role.MEMORY, Role.CARD, Role.CARD_PLUG, Role.REGULATOR_HEATSINK),
            of(Role.BOARD_CONNECTOR, Role.REAR_CONNECTORS, Role.DRIVE),
        ),
        need_mm=2.0,
        why="a hose must not rub on what it passes, and modules and card must come out",
        remedy=Remedy(
            "turn the radiator end for end",
            "turn the pump block so that its hoses leave elsewhere",
        ),
        nearest_only=True,
    ),
    Rule(
        name="hoses-to-walls",
        a=(of(Role.HOSE),),
        b=(
            of(Role.SIDE_PANEL, Role.TOP, Role.FLOOR, Role.FRONT, Role.REAR),
            of(Role.TRAY, Role.SHROUD, Role.FAN, Role.CAGE, Role.SUPPLY),
            *COOLER,
        ),
        need_mm=1.0,
        why="a hose needs its least bend before it meets anything, or it kinks",
        remedy=Remedy(
            "turn the radiator end for end", "take a radiator with its ports elsewhere"
        ),
        nearest_only=True,
    ),
    Rule(
        name="back-plate-to-tray",
        a=(of(Role.BACK_PLATE),),
        b=(of(Role.TRAY),),
        need_mm=1.0,
        why="a plate that touches the tray bends the board and may short it",
        remedy=Remedy(
            others="take a case cut out behind the socket, or a cooler without a plate"
        ),
    ),
    # A low cooler draws its air from the panel's side; a tower's fans look along it.
    Rule(
        name="cooler-breathes",
        a=(of(Role.COOLER_VENT),),
        b=(
            of(Role.SIDE_PANEL, Role.CARD, Role.SUPPLY, Role.CAGE, Role.DRIVE),
            of(Role.RADIATOR, Role.BLOCK),
        ),
        need_mm=10.0,
        why="a low cooler's fan must have something to breathe",
        remedy=Remedy(
            "take a lower cooler",
            "take a slim fan, or clear what is before the fan",
        ),
        cures=(
            Cure(
                Remedy(
                    "take a lower cooler",
                    "take a slim fan, or a perforated side panel",
                ),
                in_case,
            ),
        ),
        nearest_only=True,
    ),
)
