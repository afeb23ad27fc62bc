"""Sphinx extension of athwart: pages made from the program, and a guard against anything fetched from outside."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from athwart_docs import pages

if TYPE_CHECKING:
    from sphinx.application import Sphinx

_FETCHED = re.compile(
    r"""<(?:script|img|iframe|source|embed|object|link(?![^>]*rel="(?:canonical|author|license)"))\b[^>]*?"""
    r"""(?:src|href|data)\s*=\s*["']?(?P<address>(?:https?:)?//[^"'\s>]+)""",
    re.IGNORECASE,
)
_STYLE = re.compile(r"""(?:@import\s+(?:url\()?|url\()\s*["']?(?P<address>(?:https?:)?//[^"')\s]+)""", re.IGNORECASE)


def fetched_from_outside(text: str, *, style: bool = False) -> list[str]:
    """Addresses a browser would fetch by itself when it shows this page or style sheet."""
    found = [match["address"] for match in _STYLE.finditer(text)]
    return found if style else found + [match["address"] for match in _FETCHED.finditer(text)]


def _generate(app: Sphinx) -> None:
    pages.write_all(Path(app.srcdir) / "_generated")


def _guard(app: Sphinx, exception: Exception | None) -> None:
    from sphinx.errors import ExtensionError

    if exception is not None or app.builder.format != "html":
        return
    for path in sorted(Path(app.outdir).rglob("*")):
        if path.suffix in (".html", ".css"):
            found = fetched_from_outside(path.read_text(encoding="utf-8"), style=path.suffix == ".css")
            if found:
                raise ExtensionError(f"{path.relative_to(app.outdir)} would fetch from outside: {', '.join(found)}")


def setup(app: Sphinx) -> dict[str, bool]:
    """Called by Sphinx."""
    app.connect("builder-inited", _generate)
    app.connect("build-finished", _guard)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
