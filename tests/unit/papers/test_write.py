"""Writing all papers: complete or not at all, and the same bytes each time."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from athwart.papers import write
from tests.unit.papers.made import brief_of, proposal_of

NAME = "1-motor-yacht"


def test_all_papers_land_in_the_folder_under_the_dossiers_number(tmp_path: Path) -> None:
    file = brief_of(NAME)
    written = write.write_papers(proposal_of(NAME), tmp_path / "papers", file.text, file.origins)
    names = [path.name for path in written]
    assert sorted(names) == sorted(path.name for path in (tmp_path / "papers").iterdir())
    number = file.brief.number
    assert all(name.startswith(f"{number}-") for name in names)
    for kind in ("dossier.pdf", "schedules.xlsx", "proposal.json", "brief.yaml"):
        assert f"{number}-{kind}" in names
    assert any(name.startswith(f"{number}-E1") and name.endswith(".svg") for name in names)
    assert any(name.startswith(f"{number}-E1") and name.endswith(".dxf") for name in names)
    assert (tmp_path / "papers" / f"{number}-brief.yaml").read_text(encoding="utf-8") == file.text
    found = json.loads((tmp_path / "papers" / f"{number}-proposal.json").read_text(encoding="utf-8"))
    assert found["boat"]["brief_sha256"] == file.digest


def test_the_same_input_gives_the_same_bytes_in_every_file() -> None:
    file = brief_of(NAME)
    once, again = (write.papers(proposal_of(NAME), file.text, file.origins) for _ in range(2))
    assert list(once) == list(again)
    assert [name for name in once if once[name] != again[name]] == []


def test_an_error_leaves_the_papers_that_were_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = brief_of(NAME)
    old = tmp_path / f"{file.brief.number}-dossier.pdf"
    old.write_bytes(b"old")

    def broken(*_: object) -> bytes:
        raise RuntimeError("no workbook today")

    monkeypatch.setattr(write, "workbook_of", broken)
    with pytest.raises(RuntimeError, match="no workbook"):
        write.write_papers(proposal_of(NAME), tmp_path, file.text, file.origins)
    assert old.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == [old.name]


def test_other_files_in_the_folder_are_left_alone(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    file = brief_of(NAME)
    write.write_papers(proposal_of(NAME), tmp_path, file.text, file.origins)
    assert (tmp_path / "notes.txt").read_text(encoding="utf-8") == "mine"


def test_another_run_of_python_gives_the_same_bytes() -> None:
    """Sets and dictionaries are ordered otherwise in each process: the order of nothing may depend on it."""
    script = (
        "from hashlib import sha256\n"
        "from athwart.papers.write import papers\n"
        "from tests.unit.papers.made import brief_of, proposal_of\n"
        f"file = brief_of({NAME!r})\n"
        f"made = papers(proposal_of({NAME!r}), file.text, file.origins)\n"
        "print([(name, sha256(data).hexdigest()) for name, data in made.items()])\n"
    )
    root = Path(__file__).parents[3]
    outputs = {
        subprocess.run(
            [sys.executable, "-c", script],
            cwd=root,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": f"{root / 'src'}{os.pathsep}{root}"},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("3", "4")  # a pair whose sets differ in order where it once mattered
    }
    assert len(outputs) == 1
    assert "dossier.pdf" in outputs.pop()
