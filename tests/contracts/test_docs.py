"""The documentation fetches nothing from outside, and its Markdown is safe."""

from __future__ import annotations

import pytest

from athwart_docs import docstrings, fetched_from_outside, pages

SCHEME = "https" + "://"


@pytest.mark.parametrize(
    "html",
    [
        f'<script async="async" src="{SCHEME}cdn.example/mathjax.js"></script>',
        f'<link rel="stylesheet" href="{SCHEME}cdn.example/style.css" />',
        '<img alt="x" src="//cdn.example/x.png">',
        f"<style>@import url('{SCHEME}cdn.example/font.css')</style>",
    ],
)
def test_a_page_that_would_fetch_is_caught(html: str) -> None:
    assert fetched_from_outside(html)


@pytest.mark.parametrize(
    "html",
    [
        f'<a href="{SCHEME}example.org">a link to follow</a>',
        '<script src="_static/own.js"></script>',
        '<link rel="stylesheet" href="_static/own.css" />',
    ],
)
def test_links_and_own_files_are_no_fetch(html: str) -> None:
    assert fetched_from_outside(html) == []


def test_style_sheets_are_looked_into() -> None:
    assert fetched_from_outside(f"a {{ background: url({SCHEME}cdn.example/a.png) }}", style=True)


def test_prose_is_kept_as_written() -> None:
    assert pages.prose("a_b * c < d, :func:`~x.y` and ``e_f``") == "a\\_b \\* c \\< d, ``x.y`` and ``e_f``"
    assert pages.cell("a | b\nc") == "a \\| b c"


def test_sections_of_a_docstring_are_found() -> None:
    def documented() -> None:
        """Summary.

        What is left out.

        Parameters
        ----------
        run, back : Lengths of the
            two ways. [m]
        panel : Name of the panel.

        Notes
        -----
        A note.
        """

    doc = docstrings.read(documented)
    assert (doc.summary, doc.body, doc.sections["Notes"]) == ("Summary.", "What is left out.", "A note.")
    assert {p.name: (p.text, p.unit) for p in doc.parameters.values()} == {
        "run": ("Lengths of the two ways.", "m"),
        "back": ("Lengths of the two ways.", "m"),
        "panel": ("Name of the panel.", ""),
    }
