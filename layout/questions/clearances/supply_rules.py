"""Rules of supplies: their way in, their leads, their air."""

from __future__ import annotations

from typing import Final

from layout.parts.form.form import BEHIND_TRAY, Role
from layout.questions.clearances.cures import Cure, among, caged, in_case
from layout.questions.clearances.picks import ANYWHERE, COOLER, SHROUD, STORAGE
from layout.questions.clearances.rule import Picked, Rule, of
from layout.questions.findings.remedy import Remedy
from layout.standards.supplies import VENT_CLEARANCE

__all__ = ["SUPPLY_RULES"]

_CAGE: Final = Remedy("move the cage, take it out, or take a shorter supply")
_GRILLE: Final = "case/perforated back panel"

SUPPLY_RULES: Final = (
    Rule(
        name="supply-to-cage",
        a=(of(Role.SUPPLY),),
        b=STORAGE,
        need_mm=2.0,
        why="the supply must slide in past cage and drives",
        remedy=Remedy("put the drive elsewhere, or take a shorter supply"),
        cures=(Cure(_CAGE, caged),),
    ),
    Rule(
        name="leads-to-cage",
        a=(of(Role.SUPPLY_LEADS),),
        b=(*STORAGE, of(Role.FAN, Role.RADIATOR, on="front, floor")),
        need_mm=15.0,
        why="the leads must bend away behind their plugs",
        remedy=Remedy("take a shorter supply, thinner fans, or another mount for them"),
        cures=(
            Cure(_CAGE, caged),
            Cure(
                Remedy("put the drive elsewhere, or take a shorter supply"),
                among(Role.DRIVE),
            ),
            Cure(
                Remedy("take a shorter supply, or another mount for the radiator"),
                among(Role.RADIATOR),
            ),
        ),
    ),
    Rule(
        name="supply-under-shroud",
        a=(of(Role.SUPPLY),),
        b=SHROUD,
        need_mm=1.0,
        why="the supply must slide in under the shroud",
        remedy=Remedy(others="take a supply of a lower form"),
    ),
    Rule(
        name="supply-to-board",
        a=(of(Role.SUPPLY, Role.SUPPLY_LEADS),),
        b=(
            of(Role.BOARD, Role.MEMORY, Role.BOARD_CONNECTOR, Role.CARD),
            *COOLER,
            of(Role.PUMP_BLOCK),
        ),
        need_mm=3.0,
        why="the supply must go in and out past the board and what stands on it",
        remedy=Remedy(
            others="take a smaller supply, or a case with more room between the two"
        ),
        nearest_only=True,
    ),
    Rule(
        name="supply-to-fans",
        a=(of(Role.SUPPLY),),
        b=(of(Role.FAN, Role.RADIATOR, on=f"{ANYWHERE}, back panel"),),
        need_mm=3.0,
        why="the supply must go in and out past the fans",
        remedy=Remedy(
            "take thinner fans, or another mount for them", "take a smaller supply"
        ),
        cures=(
            Cure(
                Remedy(
                    "take a thinner radiator, or another mount for it",
                    "take a smaller supply",
                ),
                among(Role.RADIATOR),
            ),
        ),
        nearest_only=True,
    ),
    Rule(
        name="supply-behind-tray",
        a=(Picked(frozenset({Role.SUPPLY}), where=frozenset({BEHIND_TRAY})),),
        b=(of(Role.BACK_PANEL), Picked(frozenset({Role.GRILLE}), named=_GRILLE)),
        need_mm=1.0,
        why="the back panel must close without pressing on the supply",
        remedy=Remedy(
            others="take a smaller supply, or a case with a wider second chamber"
        ),
        nearest_only=True,
    ),
    # The rear panel is beside the vent of a supply screwed to it, never before it.
    Rule(
        name="supply-vent",
        a=(of(Role.SUPPLY_VENT),),
        b=(of(*(role for role in Role if role.stops_air and role is not Role.REAR)),),
        need_mm=VENT_CLEARANCE.mm,
        why="objects near a supply's vent choke its fan",
        source=VENT_CLEARANCE.source,
        remedy=Remedy(
            "turn the supply's intake to the other side", "clear what is before its fan"
        ),
        cures=(Cure(Remedy("turn the supply's intake to the other side"), in_case),),
        nearest_only=True,
    ),
    Rule(
        name="mains-plug",
        a=(of(Role.SUPPLY_INLET),),
        b=(of(*(role for role in Role if role.is_matter)),),
        need_mm=30.0,
        why=(
            "an angled mains plug and its cable go in before the inlet; a straight one "
            "wants twice as much"
        ),
        remedy=Remedy(others="clear what is before the supply's mains inlet"),
        cures=(
            Cure(
                Remedy(
                    others="set the supply farther from the wall where the case lets "
                    "you, or use a flatter angled plug"
                ),
                in_case,
            ),
        ),
        nearest_only=True,
    ),
)
