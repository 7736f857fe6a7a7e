from __future__ import annotations

from pathlib import Path

from layout.standards import sources

ROOM = Path(sources.__file__).parent


def _documents() -> dict[str, str]:
    return {
        name: getattr(sources, name) for name in sources.__all__ if name != "READ_AT"
    }


def test_every_document_has_the_place_where_it_was_read() -> None:
    assert set(sources.READ_AT) == set(_documents().values())
    assert all(place.strip() for place in sources.READ_AT.values())


def test_no_document_goes_by_two_names() -> None:
    documents = _documents()
    assert len(set(documents.values())) == len(documents)


def test_every_document_is_cited() -> None:
    tables = "".join(
        path.read_text(encoding="utf-8")
        for path in ROOM.glob("*.py")
        if path.name != "sources.py"
    )
    assert [name for name in _documents() if name not in tables] == []
