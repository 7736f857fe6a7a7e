"""The rules for the room behind plugs: which plugs, why, and what helps."""

from __future__ import annotations

import math
from typing import Final

from layout.parts.connector import ConnectorKind
from layout.parts.form import Role
from layout.parts.hookup import PINS
from layout.values import dataclass

__all__ = ["PLUG_RULES", "PlugRule"]


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
    before : tuple of (Role, str)
        What helps instead where a body of that role is in the way.
    """

    name: str
    on: Role
    kinds: frozenset[ConnectorKind]
    why: str
    remedy: str
    asked_elsewhere: frozenset[Role] = frozenset()
    elsewhere_mm: float = math.inf
    before: tuple[tuple[Role, str], ...] = ()

    @property
    def remedies(self) -> tuple[str, ...]:
        """Return everything that may help, the usual remedy first."""
        return (self.remedy, *(told for _, told in self.before))

    def remedy_before(self, role: Role) -> str:
        """Return what helps where a body of a role is in the way."""
        return dict(self.before).get(role, self.remedy)


def _kinds(*kinds: ConnectorKind) -> frozenset[ConnectorKind]:
    return frozenset(kinds)


_BEFORE_SUPPLY: Final = (
    "move the cage, take a shorter supply, or leads whose wires lie loose"
)
_MORE_ROOM_OVER: Final = "a case with more room over the board"

PLUG_RULES: Final = (
    PlugRule(
        name="card-plug-bend",
        on=Role.CARD_PLUG,
        kinds=_kinds(ConnectorKind.CARD_6, ConnectorKind.CARD_8, ConnectorKind.CARD_16),
        why="a cable bent too soon behind its plug strains contacts, which overheat",
        remedy="take an angled plug ('plug shape: angled'), a lower card or a wider "
        "case",
    ),
    PlugRule(
        name="main-power-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.MAIN),
        why="the thickest cable must turn between the board's edge and what is there",
        remedy="take a shallower board, thinner front fans or another mount for them",
    ),
    PlugRule(
        name="processor-power-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.PROCESSOR),
        why="the cable must turn under the top's fans or radiator",
        remedy="take thinner fans or radiator at the top, or another mount for them",
        before=(
            (
                Role.SUPPLY,
                "take a smaller supply, or a case with more room over the board",
            ),
            (Role.TOP, f"take {_MORE_ROOM_OVER}"),
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
        why="the cables at the board's lower edge must turn over the shroud",
        remedy="take angled plugs there, or a case with more room under the board",
        before=(
            (Role.CARD, "use a higher slot for the card"),
            (Role.FAN, "take thinner fans on the floor, or none there"),
        ),
    ),
    PlugRule(
        name="internal-usb-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.USB_19, ConnectorKind.USB_20),
        why="the stiff cable must turn over its plug",
        remedy="take an angled adapter, thinner front fans or another mount for them",
    ),
    PlugRule(
        name="header-bend",
        on=Role.BOARD,
        kinds=PINS,
        why="a plug's cable must turn over its header",
        remedy="plug it into another header, or take an angled adapter",
    ),
    PlugRule(
        name="board-data-bend",
        on=Role.BOARD_CONNECTOR,
        kinds=_kinds(ConnectorKind.DRIVE_DATA),
        why="plugs that lie at the board's front edge need the room before it",
        remedy="take angled data plugs, a shallower board or thinner front fans",
    ),
    PlugRule(
        name="drive-plug-bend",
        on=Role.DRIVE,
        kinds=_kinds(ConnectorKind.DRIVE_DATA, ConnectorKind.DRIVE_POWER),
        why="the drive's plugs must lie inside the closed panel",
        remedy="take angled plugs ('plug: angled') or another place for the drive",
        asked_elsewhere=frozenset({Role.CAGE, Role.DRIVE}),
    ),
    PlugRule(
        name="supply-lead-bend",
        on=Role.SUPPLY_LEADS,
        kinds=_kinds(
            ConnectorKind.MAIN,
            ConnectorKind.PROCESSOR,
            ConnectorKind.CARD_8,
            ConnectorKind.DRIVE_POWER,
        ),
        why="the leads must turn away behind their plugs, under the shroud",
        remedy="take a shorter supply, or one with its leads fixed",
        # leads-to-cage asks about what stands before the supply, and for 15 mm.
        asked_elsewhere=frozenset({Role.CAGE, Role.DRIVE, Role.FAN, Role.RADIATOR}),
        elsewhere_mm=15.0,
        before=(
            (Role.CAGE, _BEFORE_SUPPLY),
            (Role.DRIVE, _BEFORE_SUPPLY),
            (Role.SHROUD, "take a supply of a lower form, or one with its leads fixed"),
        ),
    ),
)
