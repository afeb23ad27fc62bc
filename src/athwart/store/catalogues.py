"""A user's own equipment: a folder of CSV files, one a table, or an XLSX workbook, one sheet a table."""

from __future__ import annotations

from pathlib import Path

from athwart.catalogue.builtin import builtin
from athwart.catalogue.reading import SHEET_NAMES, Loaded, Sheet, csv_sheet, load, merge, workbook_sheets
from athwart.catalogue.records import Catalogue
from athwart.errors import CatalogueError, Mistake

LARGEST = 50_000_000
"""Bytes of one file; an equipment table is far smaller."""
WORKBOOKS = (".xlsx", ".xlsm")


def read_sheets(path: Path) -> tuple[Sheet, ...]:
    """The tables of a folder, a CSV file or a workbook; :class:`CatalogueError` where there is nothing to read."""
    try:
        if path.is_dir():
            files = sorted(entry for entry in path.iterdir() if entry.suffix.lower() == ".csv" and entry.is_file())
            if not files:
                raise _refused("no CSV file in this folder", path, ", ".join(f"{name}.csv" for name in SHEET_NAMES))
            return tuple(_csv(file) for file in files)
        suffix = path.suffix.lower()
        if path.stat().st_size > LARGEST:
            raise _refused(f"larger than {LARGEST / 1e6:.0f} MB", path, "an equipment table")
        if suffix in WORKBOOKS:
            with path.open("rb") as stream:
                return workbook_sheets(stream, str(path))
    except OSError as error:
        raise _refused(f"cannot be read: {error.strerror or error}", path) from None
    if suffix != ".csv":
        raise _refused("neither a folder of CSV files nor a workbook", path, "a folder, .csv or .xlsx")
    return (_csv(path),)


def read_catalogue(path: Path, *, good_rows_only: bool = False, base: Catalogue | None = None) -> Loaded:
    """A user's own catalogue; ``base`` is the one it extends."""
    return load(read_sheets(path), path.name, good_rows_only=good_rows_only, base=base)


def catalogue_for(own: Path | None, only_own: bool = False) -> Catalogue:
    """The catalogue to work with: the built-in one, the user's own on top of it, or the user's own alone."""
    if own is None:
        return builtin()
    if only_own:
        return read_catalogue(own).catalogue
    return merge(builtin(), read_catalogue(own, base=builtin()).catalogue)


def _csv(path: Path) -> Sheet:
    if path.stat().st_size > LARGEST:
        raise _refused(f"larger than {LARGEST / 1e6:.0f} MB", path, "an equipment table")
    try:
        with path.open(encoding="utf-8-sig", newline="") as stream:
            return csv_sheet(path.stem, stream, str(path))
    except UnicodeDecodeError as error:
        raise _refused(f"byte {error.start} is not UTF-8 text", path, "CSV saved as UTF-8") from None
    except OSError as error:
        raise _refused(f"cannot be read: {error.strerror or error}", path) from None


def _refused(message: str, path: Path, allowed: str = "") -> CatalogueError:
    return CatalogueError(f"{path}: {message}", (Mistake(message, str(path), allowed=allowed),))
