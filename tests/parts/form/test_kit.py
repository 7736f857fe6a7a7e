"""Kits: which sockets their names mean, and where their ears reach."""

from __future__ import annotations

import pytest

from layout.parts.form.errors import PartError
from layout.parts.form.kit import Kit, Known, cooler_holes, is_for
from layout.standards.figure import given


def kit(socket: str, ears_to_mm: float | None = None) -> Kit:
    ears_to = None if ears_to_mm is None else given(ears_to_mm)
    return Kit(socket=socket, known=Known.SEEN, ears_to=ears_to)


@pytest.mark.parametrize(
    ("told", "socket", "meant"),
    [
        ("LGA1700", "LGA1700", True),
        ("lga 1700", "LGA1700", True),
        ("LGA-1700", "LGA1700", True),
        ("LGA115x", "LGA1151", True),
        ("LGA115x", "LGA1200", False),
        ("LGA20xx", "LGA2066", True),
        ("LGA1150/1155", "LGA1155", True),
        ("LGA115x/1200", "LGA1200", True),
        ("AM4/AM5", "AM5", True),
        ("AM4", "AM5", False),
        ("LGA170", "LGA1700", False),
        ("LGA1851", "LGA1700", False),  # the same holes, another height
        (".*", "AM5", False),
    ],
)
def test_a_kit_is_for_the_sockets_its_name_means(
    told: str, socket: str, *, meant: bool
) -> None:
    assert is_for(kit(told), socket) is meant


def test_holes_stand_about_the_sockets_centre() -> None:
    corners = {each.at_mm for each in cooler_holes("AM5")}
    assert corners == {(-27, -45), (27, -45), (27, 45), (-27, 45)}


def test_slotted_ears_run_outwards_from_the_kits_own_holes() -> None:
    (corner,) = (
        each for each in kit("LGA115x", 80).holes() if each.name == "upper front"
    )
    assert corner.at_mm == (37.5, 37.5)
    assert corner.to_mm == pytest.approx((40.0, 40.0))


def test_a_family_that_no_table_holds_has_no_holes() -> None:
    assert cooler_holes("LGA9999") == ()
    assert kit("LGA9999").holes() == ()


@pytest.mark.parametrize(
    ("socket", "ears_to_mm", "right"),
    [
        ("AM5", 96.0, "a square pattern"),
        ("LGA9999", 96.0, "a square pattern"),
        ("LGA1700", 77.0, "at least the socket's own 78 mm"),
    ],
)
def test_ears_that_cannot_be_are_refused(
    socket: str, ears_to_mm: float, right: str
) -> None:
    with pytest.raises(PartError, match=right):
        kit(socket, ears_to_mm)
