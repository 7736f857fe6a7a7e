"""The parts command: every kind, every field, as a table and as JSON."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner, Result

from layout.answers.kinds import kind_as_json, kind_as_text, list_as_text
from layout.cli import app
from layout.parts.form.reading import of
from layout.parts.kinds.described import DESCRIBED, described

WIDE = 2000
"""So wide that no name is broken."""


def run(*words: str) -> Result:
    return CliRunner().invoke(app, ["parts", *words])


@pytest.mark.parametrize("kind", DESCRIBED)
def test_every_field_reading_and_size_of_a_kind_is_told(kind: str) -> None:
    page = described(kind)
    told = kind_as_text(page, width=WIDE)
    lines = [line.split("  ")[0] for line in told.splitlines()]
    assert [each.name for each in page.fields if each.name not in lines] == []
    for readings in of(DESCRIBED[kind]).values():
        assert [name for name in readings.names if f"'{name}'" not in told] == []
    for table in page.published:
        assert f"Published, {table.title}:" in told
        assert [row.name for row in table.rows if row.name not in lines] == []
    assert max(map(len, kind_as_text(page, width=100).splitlines())) <= 100


@pytest.mark.parametrize("kind", DESCRIBED)
def test_the_object_of_a_kind_holds_the_same(kind: str) -> None:
    page = described(kind)
    told = json.loads(json.dumps(kind_as_json(page), allow_nan=False))
    assert [each["field"] for each in told["fields"]] == [f.name for f in page.fields]
    assert [each["title"] for each in told["published"]] == [
        table.title for table in page.published
    ]
    for each, field in zip(told["fields"], page.fields, strict=True):
        assert each["required"] is field.required
        assert (each["measured_from"] is None) == (field.readings is None)


def test_a_default_and_a_reading_are_told_with_their_figures() -> None:
    told = kind_as_text(described("tower cooler"), width=WIDE)
    assert "'board surface', board's top to the highest point" in told
    assert "take off 7.781 ± 0.335" in told
    assert "plug reach  " in kind_as_text(described("card"), width=WIDE)
    assert "plug width  " in kind_as_text(described("card"), width=WIDE)
    assert "20 ± 5 *" in kind_as_text(described("card"), width=WIDE)
    fields = kind_as_json(described("card"))["fields"]
    (height,) = (each for each in fields if each["field"] == "height")
    assert height["default"]["mm"] == 111.15
    assert [each["add_mm"] for each in height["measured_from"]["others"]] == [
        7.75,
        12.75,
        104.86,
    ]


def test_the_list_names_every_kind() -> None:
    told = list_as_text(map(described, DESCRIBED), width=100)
    assert [kind for kind in DESCRIBED if f"\n{kind} " not in f"\n{told}"] == []


def test_the_command_takes_a_kind_of_two_words() -> None:
    ended = run("tower", "cooler", "--json")
    assert ended.exit_code == 0
    assert json.loads(ended.stdout)["kind"] == "tower cooler"
    assert run("tower cooler", "--json").stdout == ended.stdout


def test_without_a_kind_it_lists_them_all() -> None:
    assert run().stdout.startswith("kind")
    kinds = json.loads(run("--json").stdout)["kinds"]
    assert [each["kind"] for each in kinds] == list(DESCRIBED)


def test_an_unknown_kind_is_answered_with_the_known_ones() -> None:
    ended = run("toaster")
    assert (ended.exit_code, ended.stdout) == (2, "")
    assert "found 'toaster'" in ended.stderr
    assert "liquid cooler" in ended.stderr
