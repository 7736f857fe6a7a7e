"""Kinds of connectors: each has one word, and files can write it."""

from __future__ import annotations

from layout.files.tree import Scalar
from layout.files.words import choice
from layout.parts.form.connector import ConnectorKind


def test_every_kind_is_read_by_its_own_word() -> None:
    for kind in ConnectorKind:
        written = Scalar(kind.value, quoted=False, line=1)
        assert choice(written, kinds=ConnectorKind) is kind


def test_what_may_not_be_joined_is_never_one_kind() -> None:
    alike = [
        {ConnectorKind.LIGHT_5V, ConnectorKind.LIGHT_12V},
        {ConnectorKind.PROCESSOR, ConnectorKind.CARD_8},
        {ConnectorKind.USB_9, ConnectorKind.USB_19, ConnectorKind.USB_20},
    ]
    for kinds in alike:
        assert len({kind.value for kind in kinds}) == len(kinds)
