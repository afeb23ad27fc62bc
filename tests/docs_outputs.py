"""What README and documentation show of commands, made anew in one go: ``python -m tests.docs_outputs``.

Comments in a page say what the fence below them is. A page is played from top to bottom, in an empty folder with ``examples``:

- ``output of: athwart ...`` stands over a text fence with what the command prints. A line ``[...]`` stands for lines left out.
  Behind the command may stand ``2>&1`` (standard error is shown too) and ``; echo $?`` (the exit code is shown last).
- ``file: NAME`` stands over a fence with a whole file, which is put into the folder.
- ``change: NAME`` stands over a diff fence, which is applied to that file.

The picture of the README is the first sheet the program draws for example 1.
"""

from __future__ import annotations

import re
import shlex
import sys
from collections.abc import Iterator
from contextlib import chdir, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from functools import lru_cache
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory

from athwart.cli import main

ROOT = Path(__file__).parent.parent
PAGES = (ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md")), *sorted((ROOT / "docs" / "theory").glob("*.md")))
PICTURE = ROOT / "docs" / "pictures" / "one-line-example-1.svg"
CUT = "[...]"
BOTH, CODE = " 2>&1", "; echo $?"
MARK = re.compile(r"<!-- (?:output of|file|change): ")
STEP = re.compile(
    r"<!-- (?P<kind>output of|file|change): (?P<what>.+?) -->\n```(?P<fence>text|yaml|diff)\n(?P<text>.*?)^```$",
    re.DOTALL | re.MULTILINE,
)


@dataclass(frozen=True, slots=True)
class Shown:
    """A block of a page and what its command prints today; ``at`` is where the block's text lies in the page."""

    command: str
    text: str
    now: str
    at: tuple[int, int]


def printed(command: str, folder: Path = ROOT) -> str:
    """What a command prints on standard output, run in a folder."""
    line, with_code = (command.removesuffix(CODE), True) if command.endswith(CODE) else (command, False)
    line, with_errors = (line.removesuffix(BOTH), True) if line.endswith(BOTH) else (line, False)
    words = shlex.split(line)
    if words[0] != "athwart":
        raise ValueError(f"not a command of this program: {command}")
    out, apart, code = StringIO(), StringIO(), 0
    with chdir(folder), redirect_stdout(out), redirect_stderr(out if with_errors else apart):
        try:
            main(words[1:])
        except SystemExit as ended:
            code = ended.code if isinstance(ended.code, int) else 1
    lines = [line.rstrip() for line in out.getvalue().splitlines()] + ([str(code)] if with_code else [])
    return "".join(f"{line}\n" for line in lines)


def changed(text: str, diff: str) -> str:
    """A text with a change applied: lines with a minus go, lines with a plus come, the others stand around them."""
    lines = diff.splitlines(keepends=True)
    old, new = ("".join(line[1:] for line in lines if line[:1] in (" ", sign)) for sign in "-+")
    if text.count(old) != 1:
        raise ValueError(f"stands {text.count(old)} times in the file, not once:\n{old}")
    return text.replace(old, new)


def steps(page: str) -> list[re.Match[str]]:
    """Every comment of a page with its fence, in order."""
    return list(STEP.finditer(page))


def played(page: str) -> Iterator[Shown]:
    """A page from top to bottom: every block that shows what a command prints."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "examples").symlink_to(ROOT / "examples")
        for step in steps(page):
            kind, what, text = step["kind"], step["what"], step["text"]
            if kind == "output of":
                yield Shown(what, text, printed(what, folder), step.span("text"))
            else:
                file = folder / what
                file.parent.mkdir(parents=True, exist_ok=True)
                whole = text if kind == "file" else changed(file.read_text(encoding="utf-8"), text)
                file.write_text(whole, encoding="utf-8")


@lru_cache
def shown_in(page: Path) -> tuple[Shown, ...]:
    """The blocks of a page; each page is played once."""
    return tuple(played(page.read_text(encoding="utf-8")))


def differs(shown: str, now: str) -> str:
    """What a block shows that is not printed, in order; empty where they agree."""
    left = now.splitlines()
    parts = [part.splitlines() for part in shown.split(CUT + "\n")]
    for number, part in enumerate(parts):
        first, last = number == 0, number == len(parts) - 1
        if first and last:
            places = range(1) if part == left else range(0)
        elif first:
            places = range(1)
        elif last:
            places = range(len(left) - len(part), len(left) - len(part) + 1)
        else:
            places = range(len(left) - len(part) + 1)
        at = next((place for place in places if place >= 0 and left[place : place + len(part)] == part), None)
        if at is None:
            return next((line for line in part if line not in left), "\n".join(part or left))
        left = left[at + len(part) :]
    return ""


def renewed(shown: str, now: str) -> str:
    """The block with today's lines; where lines are left out the lines kept are found by their first and last words."""
    lines_now = now.splitlines(keepends=True)
    if CUT not in shown:
        return now
    kept, at = [], 0
    parts = [part.splitlines(keepends=True) for part in shown.split(CUT + "\n")]
    for number, lines in enumerate(parts):
        last = number == len(parts) - 1
        if not lines:
            kept.append("")
        elif number > 0 and last:  # up to the end, as many lines as before
            kept.append("".join(lines_now[max(at, len(lines_now) - len(lines)) :]))
        else:
            start = _like(lines[0], lines_now, at) if number else 0
            at = _like(lines[-1], lines_now, start) + 1
            kept.append("".join(lines_now[start:at]))
    return (CUT + "\n").join(kept)


def _like(line: str, now: list[str], start: int) -> int:
    """The first line from ``start`` on that begins like a line shown, with as many of its letters as can be had, six at least."""
    line = line.rstrip()
    for length in range(len(line), min(6, len(line)) - 1, -1):
        for index in range(start, len(now)):
            if now[index].startswith(line[:length]):
                return index
    raise ValueError(f"no line like {line!r} is printed any more")


def made_anew(page: str) -> str:
    """A page with every block renewed."""
    out, last = "", 0
    for block in played(page):
        out += page[last : block.at[0]] + renewed(block.text, block.now)
        last = block.at[1]
    return out + page[last:]


def picture() -> str:
    """The first sheet of the one-line diagram of example 1."""
    from athwart.papers.one_line import one_line
    from athwart.papers.svg import svg
    from tests.unit.papers.made import EXAMPLES, proposal_of

    return svg(one_line(proposal_of(EXAMPLES[0]))[0])


def regenerate() -> None:
    """Write every page and the picture anew, and name those that changed."""
    files = [(path, made_anew(path.read_text(encoding="utf-8"))) for path in PAGES] + [(PICTURE, picture())]
    for path, fresh in files:
        if path.read_text(encoding="utf-8") != fresh:
            path.write_text(fresh, encoding="utf-8")
            sys.stdout.write(f"{path.relative_to(ROOT)}\n")


if __name__ == "__main__":
    regenerate()
