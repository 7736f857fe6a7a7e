"""Rules of what lies on the board: drives, the chipset's heatsink."""

from __future__ import annotations

from typing import Final

from layout.parts.board.board_m2 import BEHIND_BOARD
from layout.parts.form.form import Role
from layout.questions.clearances.cures import Cure, among
from layout.questions.clearances.picks import COOLER
from layout.questions.clearances.rule import Picked, Rule, of
from layout.questions.findings.remedy import Remedy

__all__ = ["BOARD_RULES"]

_M2_ON: Final = Picked(frozenset({Role.M2_DRIVE}), elsewhere=BEHIND_BOARD)

BOARD_RULES: Final = (
    Rule(
        name="cooler-over-m2",
        a=(*COOLER, of(Role.PUMP_BLOCK)),
        b=(_M2_ON,),
        need_mm=1.0,
        why="a drive's heatsink must pass under the cooler",
        remedy=Remedy(others="take a lower heatsink, or put the drive elsewhere"),
        nearest_only=True,
    ),
    Rule(
        name="card-over-board-parts",
        a=(of(Role.CARD),),
        b=(_M2_ON, of(Role.CHIPSET_HEATSINK)),
        need_mm=1.0,
        why="a card must pass the heatsinks of drive and chipset under it",
        remedy=Remedy(
            others="put the card elsewhere, or take a board with a lower heatsink"
        ),
        cures=(
            Cure(
                Remedy(
                    others="take a lower heatsink for the drive, or put it elsewhere"
                ),
                among(Role.M2_DRIVE),
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="m2-behind-board",
        a=(Picked(frozenset({Role.M2_DRIVE}), where=frozenset({BEHIND_BOARD})),),
        b=(of(Role.TRAY, Role.STANDOFF),),
        need_mm=0.5,
        why="a drive behind the board must not touch the tray",
        remedy=Remedy(others="take a bare drive, or a place on the board"),
        nearest_only=True,
    ),
)
