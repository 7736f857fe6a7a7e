from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from layout.files.errors import InputError
from layout.files.tree import Fields, Items, Scalar, inner, parse, plain

FILE = Path("build.yaml")


def refused(text: str) -> InputError:
    with pytest.raises(InputError, match=r"^build\.yaml") as caught:
        parse(text, FILE)
    return caught.value


def test_every_value_keeps_its_text_and_line() -> None:
    tree = parse("a: 010\nb:\n  - no\n  - 1:30\nc: {2026-11-25: 'x'}\n", FILE)
    assert tree.lines == {"a": 1, "b": 2, "c": 5}
    assert tree.values["a"] == Scalar("010", quoted=False, line=1)
    items = tree.values["b"]
    assert isinstance(items, Items)
    assert [item.line for item in items.items] == [3, 4]
    inside = tree.values["c"]
    assert isinstance(inside, Fields)
    assert inside.values["2026-11-25"] == Scalar("x", quoted=True, line=5)


def test_aliases_repeat_what_they_stand_for() -> None:
    tree = parse("a: &one [1, 2]\nb: *one\n", FILE)
    assert tree.values["a"] == tree.values["b"]


def test_a_byte_order_mark_and_comments_are_no_content() -> None:
    assert set(parse("\ufeff# a comment\na: 1\n", FILE).values) == {"a"}


@pytest.mark.parametrize(
    ("text", "line", "field", "found"),
    [
        ("", 1, None, "an empty file"),
        ("# nothing\n", 2, None, "an empty file"),
        ("~", 1, None, "an empty file"),
        ("- 1\n- 2", 1, None, "a list"),
        ("just words", 1, None, "just words"),
        ("---\na: 1\n---\nb: 2\n", 3, None, "a second document"),
        ("a: 1\nb: 2\na: 3\n", 3, "a", "the key a second time (first on line 1)"),
        ("p:\n  q: {r: 1, r: 2}", 2, "p.q.r", "the key a second time"),
        ("a: b: c", 1, None, "not YAML"),
        ("a: 1\n\tb: 2", 2, None, "not YAML"),
        ("a: [1, 2", 1, None, "not YAML"),
        ("x: 1\na: 'open\n", 3, None, "not YAML"),
        ("x: 1\na: \x01", 2, None, "0x01"),
        ("%YAML 9.9\n---\na: 1", 1, None, "not YAML"),
        ("a: &x [*x]", 1, "a[0]", "*x inside itself"),
        ("a: *x", 1, "a", "*x without its anchor"),
        ("b: 1\na: !!python/object:os.system x", 2, "a", "the tag"),
        ("a: !!float 12", 1, "a", "the tag"),
        ("? [a]\n: 1", 1, None, "a key that is no plain word"),
        ("'': 1", 1, None, "a key that is empty"),
        ("a: &x {b: 1}\nc: {<<: *x}", 2, "c", "merge key"),
        ("a: " + "[" * 40 + "]" * 40, 1, "a" + "[0]" * 19, "20 levels"),
        ("a: " + "[" * 400_000, 1, None, "nesting depth"),
    ],
)
def test_what_is_refused(
    text: str, line: int, *, field: str | None, found: str
) -> None:
    error = refused(text)
    assert (error.line, error.field) == (line, field)
    assert found in error.found


def test_every_repeated_key_is_told_at_once() -> None:
    error = refused("a: 1\na: 2\nb: 1\nb: 2\n")
    assert [each.line for each in error.each] == [2, 4]


def test_an_alias_bomb_is_refused_before_it_grows() -> None:
    levels = "abcdefghi"
    lines = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    lines += [
        f"{new}: &{new} [{', '.join([f'*{old}'] * 9)}]" for old, new in pairwise(levels)
    ]
    error = refused("\n".join(lines))
    assert "values once aliases are written out" in error.found


def test_a_chain_of_aliases_cannot_dig_deeper_than_a_file_may() -> None:
    lines = ["a0: &a0 [1]"]
    lines += [f"a{n}: &a{n} [[[*a{n - 1}]]]" for n in range(1, 400)]
    assert "levels" in refused("\n".join(lines)).found


def test_lines_of_paths() -> None:
    tree = parse("a:\n  b:\n  c:\n    - 1\n    -\n", FILE)
    assert inner(tree, ("a", "b"))[1] == 2
    assert inner(tree, ("a", "c", 0)) == (Scalar("1", quoted=False, line=4), 4)
    assert inner(tree, ("a", "not there")) == (None, 1)


def test_plain_keeps_the_scalars() -> None:
    one = Scalar("1", quoted=False, line=1)
    assert plain(parse("a: [1]", FILE)) == {"a": [one]}
