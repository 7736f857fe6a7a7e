"""Kinds of electrical connectors in a case: each is plugged only to its own."""

from __future__ import annotations

from enum import Enum

__all__ = ["ConnectorKind"]


class ConnectorKind(Enum):
    """A kind of plug and socket; ``value`` is the word of files and findings.

    Kinds that look alike and may not be joined are kinds of their own: 5 V and 12 V
    light, and internal USB of 9, 19 and 20 contacts.
    """

    # Looked up very often: an enum would hash its name, in Python.
    __hash__ = object.__hash__

    MAIN = "24-pin"
    PROCESSOR = "8-pin processor power"
    CARD_8 = "8-pin card power"
    CARD_6 = "6-pin card power"
    CARD_16 = "12V-2x6"  # 16 contacts; 12VHPWR in the older guide
    DRIVE_POWER = "drive power"
    DRIVE_DATA = "drive data"
    FAN_3 = "3-pin fan"
    FAN_4 = "4-pin fan"
    LIGHT_5V = "5 V light"  # 3 contacts, addressable
    LIGHT_12V = "12 V light"  # 4 contacts
    USB_9 = "9-pin USB"
    USB_19 = "19-pin USB"
    USB_20 = "20-pin USB"
    FRONT_PANEL = "front panel"
    AUDIO = "audio"
