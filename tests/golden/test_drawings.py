"""A drawing that changes is looked at by a person before it is kept (see :mod:`tests.golden.drawings`)."""

from __future__ import annotations

from tests.golden.drawings import FOLDER, drawn


def test_drawings_are_as_kept() -> None:
    kept = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.txt")}
    made = drawn()
    assert sorted(made) == sorted(kept)
    changed = [name for name in made if made[name] != kept[name]]
    assert changed == []
