"""Sphinx: the hand-written pages beside this file and those that the extension makes from the program."""

import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE / "_ext"), str(HERE.parent / "src"), str(HERE.parent)]

import athwart  # noqa: E402 the path is set just above

project = "athwart"
author = "the athwart contributors"
copyright = "the athwart contributors, Apache-2.0"  # noqa: A001 Sphinx calls it so
release = athwart.__version__
language = "en_GB"

extensions = ["myst_parser", "athwart_docs"]
myst_enable_extensions = ["deflist", "colon_fence"]
myst_heading_anchors = 3
exclude_patterns = ["_build", "_ext"]

html_theme = "furo"
html_title = "athwart"
html_show_sphinx = False
html_copy_source = False
html_static_path: list[str] = []
html_theme_options = {"sidebar_hide_name": False}
