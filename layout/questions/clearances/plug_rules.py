"""The rules for the room behind plugs: which plugs, why, and what helps."""

from __future__ import annotations

import math
from typing import Final

from layout.build.placed import Build, PlacedBody
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.form import Role
from layout.parts.wiring.hookup import HEADERS, PINS
from layout.questions.clearances.cures import (
    Cure,
    among,
    caged,
    first_fitting,
    other_slot,
)
from layout.questions.findings.remedy import Remedy
from layout.values import dataclass

__all__ = ["BEND_RULES", "CARD_BEND", "HEADER_BEND", "PLUG_RULES", "PlugRule"]

HEADER_BEND: Final = "header-bend"
"""Name of the rule for headers of which a lead takes one of several."""
CARD_BEND: Final = "card-socket-bend"
"""Name of the rule for what a card has sockets for besides its own power."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugRule:
    """The room that the cables of some plugs need to bend.

    Parameters
    ----------
    on : Role
        The body that holds the plugs.
    kinds : frozenset of ConnectorKind
        Which of its plugs.
    asked_elsewhere : frozenset of Role
        Bodies that another rule asks of these plugs, or that hold them.
    elsewhere_mm : float
        How much room before the plugs that other rule asks: cables that need no more
        are left to it.
    remedy : Remedy
        What always helps; it names nothing but the plug and its part.
    cures : tuple of Cure
        What helps better, by what is in the way and in the machine, the best first.
    """

    name: str
    on: Role
    kinds: frozenset[ConnectorKind]
    why: str
    remedy: Remedy
    asked_elsewhere: frozenset[Role] = frozenset()
    elsewhere_mm: float = math.inf
    cures: tuple[Cure, ...] = ()

    @property
    def remedies(self) -> tuple[Remedy, ...]:
        """Return everything that may help."""
        return (*(each.remedy for each in self.cures), self.remedy)

    def remedy_before(
        self, build: Build, limit: PlacedBody, *, angled: bool = False
    ) -> Remedy:
        """Return what helps where a body of a machine is in the way.

        ``angled``: the plug is angled already.
        """
        found = first_fitting(self.cures, self.remedy, build, bodies=(limit,))
        return found.without("angled") if angled else found


def _kinds(*kinds: ConnectorKind) -> frozenset[ConnectorKind]:
    return frozenset(kinds)


_BEFORE_SUPPLY: Final = Remedy(
    "move the cage, or take a shorter supply", "take leads whose wires lie loose"
)
_BEFORE_STORAGE: Final = (
    Cure(Remedy("move the cage or take it out"), caged),
    Cure(Remedy("put the drive elsewhere"), among(Role.DRIVE)),
)
_ANGLED: Final = "take angled plugs or adapters ('angled plugs' of the board)"
_ON_PINS: Final = "take angled plugs there"
_ANGLED_TOO: Final = "angled plugs ('angled plugs' of the board)"
_ON_CARD_TOO: Final = "angled plugs ('plug shape: angled' in its 'header places')"
_ON_CARD: Final = f"take {_ON_CARD_TOO}"
_THINNER_FANS: Final = "take thinner fans, or another mount for them"
_THINNER_RADIATOR: Final = "take a thinner radiator, or another mount for it"


def _before_mount(others: str = "") -> tuple[Cure, ...]:
    """Return what helps a board's plug before fans or a radiator."""
    return (
        Cure(Remedy(f"{_THINNER_FANS}, or {_ANGLED_TOO}", others), among(Role.FAN)),
        Cure(
            Remedy(f"{_THINNER_RADIATOR}, or {_ANGLED_TOO}", others),
            among(Role.RADIATOR),
        ),
    )


PLUG_RULES: Final = (
    PlugRule(
        name="card-plug-bend",
        on=Role.CARD_PLUG,
        kinds=_kinds(ConnectorKind.CARD_6, ConnectorKind.CARD_8, ConnectorKind.CARD_16),
        why="a cable bent too soon behind its plug strains contacts, which overheat",
        remedy=Remedy(
            "take an angled plug ('plug shape: angled')", "take another card"
        ),
        cures=(
            Cure(
                Remedy(
                    "take an angled plug ('plug shape: angled'), or a lower card",
                    "take a wider case",
                ),
                among(Role.SIDE_PANEL),
            ),
        ),
    ),
    PlugRule(
        name="main-power-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.MAIN),
        why="the thickest cable must turn between the board's edge and what is there",
        remedy=Remedy(
            _ANGLED, "take a shallower board, or a case with more room beside the board"
        ),
        cures=(*_before_mount("take a shallower board"), *_BEFORE_STORAGE),
    ),
    PlugRule(
        name="processor-power-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.PROCESSOR),
        why="the cable must turn over the board's upper edge",
        remedy=Remedy(_ANGLED, "take a case with more room over the board"),
        cures=(
            *_before_mount(),
            Cure(
                Remedy(
                    _ANGLED,
                    "take a smaller supply, or a case with more room over the board",
                ),
                among(Role.SUPPLY),
            ),
            Cure(
                Remedy(_ANGLED, "take a cooler that is narrower there"),
                among(Role.COOLER, Role.COOLER_FAN),
            ),
        ),
    ),
    PlugRule(
        name="lower-edge-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(
            ConnectorKind.AUDIO,
            ConnectorKind.FAN_4,
            ConnectorKind.FRONT_PANEL,
            ConnectorKind.USB_9,
        ),
        why="the cables at the board's lower edge must turn over what is under it",
        remedy=Remedy(_ON_PINS, "take a case with more room under the board"),
        cures=(
            Cure(Remedy("use another slot for the card"), other_slot),
            Cure(
                Remedy("take a thinner card, or angled plugs there"),
                among(Role.CARD),
            ),
            Cure(
                Remedy("take thinner fans on the floor", "leave out the fan there"),
                among(Role.FAN, on="floor"),
            ),
            Cure(
                Remedy("take thinner fans on the shroud", "leave out the fan there"),
                among(Role.FAN, on="shroud"),
            ),
        ),
    ),
    PlugRule(
        name="internal-usb-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.USB_19, ConnectorKind.USB_20),
        why="the stiff cable must turn over its plug",
        remedy=Remedy(_ANGLED),
        cures=_before_mount(),
    ),
    PlugRule(
        name=HEADER_BEND,
        on=Role.BOARD,
        kinds=PINS,
        why="a plug's cable must turn over its header",
        remedy=Remedy("take angled plugs there", "use another header"),
    ),
    PlugRule(
        name=CARD_BEND,
        on=Role.CARD,
        kinds=HEADERS,
        why="a plug's cable must turn behind the card's socket",
        remedy=Remedy(_ON_CARD, "take a card with its sockets elsewhere"),
        cures=(
            Cure(Remedy(f"{_THINNER_FANS}, or {_ON_CARD_TOO}"), among(Role.FAN)),
            Cure(
                Remedy(f"{_THINNER_RADIATOR}, or {_ON_CARD_TOO}"),
                among(Role.RADIATOR),
            ),
            *_BEFORE_STORAGE,
        ),
    ),
    PlugRule(
        name="board-data-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.DRIVE_DATA),
        why="plugs that lie at the board's front edge need the room before it",
        remedy=Remedy(_ANGLED, "take a shallower board"),
        cures=(
            *_before_mount("take a shallower board"),
            *_BEFORE_STORAGE,
        ),
    ),
    PlugRule(
        name="drive-plug-bend",
        on=Role.DRIVE,
        kinds=_kinds(ConnectorKind.DRIVE_DATA, ConnectorKind.DRIVE_POWER),
        why="the drive's plugs must lie inside the closed panel",
        remedy=Remedy("put the drive elsewhere, or take angled plugs ('plug: angled')"),
        asked_elsewhere=frozenset({Role.CAGE, Role.DRIVE}),
    ),
    PlugRule(
        name="supply-lead-bend",
        on=Role.SUPPLY_LEADS,
        kinds=_kinds(
            ConnectorKind.MAIN,
            ConnectorKind.PROCESSOR,
            ConnectorKind.CARD_8,
            ConnectorKind.CARD_16,
            ConnectorKind.DRIVE_POWER,
        ),
        why="the leads must turn away behind their plugs",
        remedy=Remedy("take a shorter supply", "take a supply with its leads fixed"),
        # leads-to-cage asks about what stands before the supply, and for 15 mm; half
        # a millimetre more is no second row for one gap.
        asked_elsewhere=frozenset({Role.CAGE, Role.DRIVE, Role.FAN, Role.RADIATOR}),
        elsewhere_mm=15.5,
        cures=(
            Cure(_BEFORE_SUPPLY, caged),
            Cure(
                Remedy(
                    "put the drive elsewhere, or take a shorter supply",
                    "take leads whose wires lie loose",
                ),
                among(Role.DRIVE),
            ),
            Cure(
                Remedy(
                    others="take a supply of a lower form, or one with its leads fixed"
                ),
                among(Role.SHROUD),
            ),
        ),
    ),
)

BEND_RULES: Final = frozenset(each.name for each in PLUG_RULES)
"""Names of the rules that ask for room to bend."""
