"""The built-in catalogue: invented makers and parts, to show and to test; not for construction.

The tables are the CSV files beside this module. Makers are made-up words, parts are named by newtons, watts and sizes; the
figures are such as physics allows, which :mod:`.plausibility` holds them to.
"""

from __future__ import annotations

from functools import cache
from io import StringIO

from athwart import resources
from athwart.catalogue.reading import csv_sheet, load
from athwart.catalogue.records import Catalogue

NAME = "built-in catalogue, invented, not for construction"
FOLDER = ("catalogue", "data")


@cache
def builtin() -> Catalogue:
    """The built-in catalogue."""
    files = [name for name in resources.names(*FOLDER) if name.endswith(".csv")]
    sheets = [csv_sheet(name.removesuffix(".csv"), StringIO(resources.text(*FOLDER, name)), name) for name in files]
    return load(sheets, NAME).catalogue
