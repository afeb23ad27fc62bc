"""The one reader of the package's own data files."""

from __future__ import annotations

from importlib.resources import files


def text(*parts: str) -> str:
    """A data file of the package as text, by its path below the package folder."""
    return files("athwart").joinpath(*parts).read_text(encoding="utf-8")


def data(*parts: str) -> bytes:
    """A data file of the package as bytes."""
    return files("athwart").joinpath(*parts).read_bytes()


def names(*parts: str) -> tuple[str, ...]:
    """Names of the files in a data folder of the package, sorted."""
    return tuple(sorted(entry.name for entry in files("athwart").joinpath(*parts).iterdir() if entry.is_file()))
