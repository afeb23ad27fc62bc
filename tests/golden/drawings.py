"""The drawings kept as text, and how to keep them anew: ``python -m tests.golden.drawings`` after looking at the pictures."""

from __future__ import annotations

from pathlib import Path

from athwart.papers.elevation import elevation
from athwart.papers.network_drawing import network_drawing
from athwart.papers.one_line import one_line
from athwart.papers.recorder import record
from tests.properties.proposal_strategies import BankShape, Shape, UnitShape, proposal_of

FOLDER = Path(__file__).parent / "drawings"
SYSTEMS = {
    "one-unit": Shape(),
    "bow-and-stern": Shape(
        units=(UnitShape(), UnitShape(role="stern", bank=1)), banks=(BankShape(), BankShape(isolated=True)), shore=False
    ),
    "shared-bank": Shape(
        units=(UnitShape(), UnitShape(role="stern", stop="latching")), banks=(BankShape(parallel=2),), helms=3, nodes=1
    ),
}


def drawn() -> dict[str, str]:
    """File name -> text of every sheet of the systems above."""
    made = {}
    for name, shape in SYSTEMS.items():
        proposal = proposal_of(shape)
        for scene in (*one_line(proposal), *network_drawing(proposal), *elevation(proposal)):
            made[f"{name}-{scene.name}.txt"] = record(scene)
    return made


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.glob("*.txt"):
        old.unlink()
    for file, text in drawn().items():
        (FOLDER / file).write_text(text, encoding="utf-8")
