"""What is said of a kind is what its dataclass declares, all of it."""

from __future__ import annotations

import dataclasses

import pytest

from layout.parts.case.case import Case
from layout.parts.form.connector import ConnectorKind
from layout.parts.form.reading import of, word_of
from layout.parts.kinds.described import DESCRIBED, FieldPage, described
from layout.parts.kinds.kinds import KINDS
from layout.parts.kinds.published import PUBLISHED
from layout.standards import boards, fans, processors, radiators, supplies
from layout.standards.figure import Figure, Standing


def field(kind: str, name: str) -> FieldPage:
    return next(each for each in described(kind).fields if each.name == name)


def test_every_kind_is_described_and_the_case_with_them() -> None:
    assert list(DESCRIBED) == ["case", *KINDS]
    assert DESCRIBED["case"] is Case


@pytest.mark.parametrize("kind", DESCRIBED)
def test_every_field_is_there_once_with_its_meaning(kind: str) -> None:
    page = described(kind)
    declared = [word_of(each.name) for each in dataclasses.fields(DESCRIBED[kind])]
    assert [each.name for each in page.fields if not each.inside] == declared
    names = [each.name for each in page.fields]
    assert len(names) == len(set(names))
    assert page.summary.endswith((".", "yet."))
    for each in page.fields:
        assert each.meaning
        assert each.right != "a value"


@pytest.mark.parametrize("kind", DESCRIBED)
def test_bounds_choices_and_readings_are_those_declared(kind: str) -> None:
    readings = of(DESCRIBED[kind])
    for each in dataclasses.fields(DESCRIBED[kind]):
        told = field(kind, word_of(each.name))
        assert told.meaning == each.metadata["meaning"]
        assert told.readings == readings.get(told.name)
        if told.unit == "mm":
            assert f"{each.metadata['least_mm']:g} to" in told.right
        if "least" in each.metadata:
            assert f"from {each.metadata['least']}" in told.right


def test_what_lies_inside_a_mapping_is_told_by_its_way() -> None:
    assert field("liquid cooler", "radiator.thickness").unit == "mm"
    assert field("case", "mounts.NAME.takes[].size").right.startswith("a whole number")
    assert field("case", "side panel.material").right == "one of glass, steel"
    assert field("block", "solids").right.startswith("a list, each a mapping of two")


def test_a_default_keeps_its_source_and_standing() -> None:
    default = field("case", "behind tray").default
    assert isinstance(default, Figure)
    assert (default.mm, default.plus_minus_mm, default.assumed) == (20.0, 5.0, True)
    assert default.standing is Standing.PRACTICE
    assert field("card", "length").required
    assert field("supply", "length").default is None


@pytest.mark.parametrize(
    ("kind", "title", "names"),
    [
        ("board", "forms", list(boards.FORMS)),
        ("board", "sockets", list(processors.SOCKETS)),
        ("supply", "forms", list(supplies.FORMS)),
        ("fan", "frames", [str(size) for size in fans.FRAMES]),
        ("radiator", "classes", [str(size) for size in radiators.CLASSES]),
    ],
)
def test_published_sizes_come_from_the_standards(
    kind: str, title: str, names: list[str]
) -> None:
    (table,) = (each for each in described(kind).published if each.title == title)
    assert [row.name for row in table.rows] == names
    assert all(row.figures for row in table.rows)


def test_a_published_figure_is_told_by_its_fields_word() -> None:
    (forms, *_) = described("board").published
    (atx, *_) = forms.rows
    assert dict(atx.figures)["height"] == boards.FORMS["ATX"].height
    (sockets,) = described("processor").published
    holes = [word for word, _ in sockets.rows[0].figures]
    assert holes == ["stack", "cooler holes", "cooler holes"]


def test_sizes_are_published_of_known_kinds_alone() -> None:
    assert set(PUBLISHED) <= set(DESCRIBED)


@pytest.mark.parametrize(
    ("kind", "name", "refused"),
    [
        ("card", "plug kind", "24-pin"),
        ("supply", "leads[].plug", "audio"),
        ("supply", "leads[].socket", "4-pin fan"),
        ("board", "adapters[].kind", "audio"),
        ("board", "header places[].kind", "24-pin"),
    ],
)
def test_of_plugs_those_alone_are_told_that_a_file_may_name(
    kind: str, name: str, refused: str
) -> None:
    told = field(kind, name).right.removeprefix("one of ").split(", ")
    assert refused not in told
    assert 1 < len(told) < len(ConnectorKind)
