"""The one reader of the package's own data files."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def text(*parts: str) -> str:
    """A data file of the package as text, by its path below the package folder."""
    return files("athwart").joinpath(*parts).read_text(encoding="utf-8")


def data(*parts: str) -> bytes:
    """A data file of the package as bytes."""
    return files("athwart").joinpath(*parts).read_bytes()


def names(*parts: str) -> tuple[str, ...]:
    """Names of the files in a data folder of the package, sorted."""
    return tuple(sorted(entry.name for entry in files("athwart").joinpath(*parts).iterdir() if entry.is_file()))


def example_names() -> tuple[str, ...]:
    """Names of the example briefs, for instance ``1-motor-yacht``, in order."""
    return tuple(sorted(entry.name.removesuffix(".yaml") for entry in _examples().iterdir() if entry.name.endswith(".yaml")))


def example(name: str) -> str:
    """The text of an example brief by its name."""
    return _examples().joinpath(f"{name}.yaml").read_text(encoding="utf-8")


def _examples() -> Traversable:
    """The folder of the examples: in an installed package inside it, in a checkout at the root of the repository."""
    inside = files("athwart").joinpath("examples")
    return inside if inside.is_dir() else Path(str(files("athwart"))).parent.parent / "examples"
