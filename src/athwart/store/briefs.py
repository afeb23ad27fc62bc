"""Brief files: read with every mistake in its place, changed without touching what stands around the change.

The text is the boat. A :class:`BriefFile` keeps it beside the model it means; saving replaces the characters of the changed
values and nothing else, so comments, order and layout stay as the owner wrote them.
"""

from __future__ import annotations

import os
import stat
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from athwart.design.brief import Brief
from athwart.design.consistency import clashes
from athwart.design.fields import Quantity
from athwart.design.requirements.need import impossible
from athwart.errors import BriefError, Mistake
from athwart.store.amend import amended, loc_of
from athwart.store.outline import SIZE_MOST, Outline, outline
from athwart.store.wording import fields_of, located, mistakes_of, path_text
from athwart.units import show


@dataclass(frozen=True)
class BriefFile:
    """A brief, the text it was read from and where everything stands in it."""

    brief: Brief
    text: str
    doc: Outline
    file: str = ""

    @cached_property
    def origins(self) -> dict[str, tuple[int, str]]:
        """Path of every value given -> its line and the text as typed."""
        return {path_text(loc): (place.line, place.node.text) for loc, place in self.doc.leaves()}

    @cached_property
    def defaults(self) -> tuple[tuple[str, str], ...]:
        """Path and printed value of every default that applies."""
        return defaults_used(self)

    def placed(self, error: BriefError) -> BriefError:
        """The same mistakes at their lines, for what shows itself only with a catalogue: a part aboard that no row matches."""
        return BriefError(str(error), tuple(self._placed(mistake) for mistake in error.mistakes))

    def _placed(self, mistake: Mistake) -> Mistake:
        """At the value meant; the search names a part of a lane without saying whether it is aboard or fixed."""
        if mistake.line is not None or not mistake.path:
            return mistake
        locs = [loc_of(prefix + mistake.path) for prefix in ("", "fixed.", "aboard.")]
        loc = next((loc for loc in locs if self.doc.at(loc) is not None), None)
        if loc is None:
            return replace(mistake, file=self.file)
        return located(mistake.message, loc, self.doc, self.file, read=mistake.read, allowed=mistake.allowed)

    @cached_property
    def digest(self) -> str:
        """Fingerprint of the text, printed on every paper."""
        return sha256(self.text.encode("utf-8")).hexdigest()


def read_brief(path: str | os.PathLike[str]) -> BriefFile:
    """Read a brief file; :class:`BriefError` carries every mistake with line and column."""
    return parse_brief(_text_of(Path(path)), str(path))


def parse_brief(text: str, file: str = "") -> BriefFile:
    """Read a brief from text; ``file`` is only the name that mistakes show."""
    text = text.removeprefix("\ufeff")
    doc = outline(text, file)
    mistakes = list(doc.mistakes)
    brief: Brief | None = None
    if doc.data or not mistakes:
        try:
            brief = Brief.model_validate(doc.data)
        except ValidationError as error:
            found = mistakes_of(error.errors(include_url=False, include_input=False), doc, file)
            mistakes += _not_told(found, mistakes, bool(doc.mistakes))
        mistakes += [
            located(clash.message, clash.loc, doc, file, read=clash.read, allowed=clash.allowed) for clash in clashes(doc.data)
        ]
        if brief is not None and not mistakes:
            mistakes += [located(message, loc, doc, file) for loc, message in impossible(brief)]
    if mistakes or brief is None:
        mistakes.sort(key=lambda mistake: (mistake.line or 0, mistake.column or 0, mistake.path))
        raise BriefError(f"{file or 'brief'}: {len(mistakes)} mistakes", tuple(dict.fromkeys(mistakes)))
    return BriefFile(brief, text, doc, file)


def _not_told(found: Iterator[Mistake], told: list[Mistake], is_broken: bool) -> Iterator[Mistake]:
    """Mistakes that say something new: an empty value is told once; a section that could not be read is not also missing."""
    places = {(mistake.line, mistake.column) for mistake in told}
    for mistake in found:
        is_section = "." not in mistake.path and "[" not in mistake.path
        if is_broken and is_section and mistake.message == "this must be given":
            continue
        if mistake.path and any(mistake.path == other.path for other in told):
            continue
        if (mistake.line, mistake.column) not in places or mistake.message == "this must be given":
            yield mistake


def _text_of(path: Path) -> str:
    """The text of a file; every way it cannot be had is a mistake of its own."""
    file = str(path)
    try:
        if path.stat().st_size > SIZE_MOST:
            raise BriefError(
                f"{file}: too large", (Mistake("the file is too large for a brief", file, 1, 1, allowed="at most 1 MB"),)
            )
        raw = path.read_bytes()
    except OSError as error:
        reason = error.strerror or "the file cannot be read"
        raise BriefError(f"{file}: {reason}", (Mistake(reason, file),)) from error
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        before = raw[: error.start]
        line, column = before.count(b"\n") + 1, error.start - before.rfind(b"\n")
        mistake = Mistake("not text in UTF-8", file, line, column, read=f"byte 0x{raw[error.start]:02X}", allowed="text in UTF-8")
        raise BriefError(f"{file}: not UTF-8", (mistake,)) from error


# ---- changing
def changed(file: BriefFile, changes: Mapping[str, str]) -> BriefFile:
    """The brief with values changed or added, by path; everything else keeps its characters. Nothing is written."""
    text = file.text
    for path, value in changes.items():
        text = amended(text, path, value, file.file)
    return parse_brief(text, file.file)


def save_brief(
    file: BriefFile, changes: Mapping[str, str] | None = None, path: str | os.PathLike[str] | None = None
) -> BriefFile:
    """Write a brief with changes to ``path`` (default: where it was read from); all of it or nothing.

    A brief that the changes make unreadable raises :class:`BriefError` and leaves the file as it was.
    """
    result = changed(file, changes or {})
    target = Path(path if path is not None else file.file)
    write_whole(target, result.text.encode("utf-8"))
    return BriefFile(result.brief, result.text, result.doc, str(target))


def write_whole(target: Path, raw: bytes) -> None:
    """Replace a file in one step: a reader sees the old bytes or the new ones, whatever happens in between."""
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(raw)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(name, stat.S_IMODE(target.stat().st_mode) if target.exists() else 0o644)
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


# ---- defaults
def defaults_used(file: BriefFile) -> tuple[tuple[str, str], ...]:
    """Values not given whose defaults apply, as path and printed value, in the order of the model."""
    return tuple(_defaults(file.brief, "", file.brief))


def _defaults(model: BaseModel, path: str, given_by: BaseModel | None) -> Iterator[tuple[str, str]]:
    for name, field in type(model).model_fields.items():
        key, value = field.alias or name, getattr(model, name)
        inner = f"{path}.{key}" if path else key
        is_given = given_by is not None and name in given_by.model_fields_set
        if isinstance(value, BaseModel):
            yield from _defaults(value, inner, value if is_given else None)
        elif isinstance(value, tuple) and any(isinstance(item, BaseModel) for item in value):
            for number, item in enumerate(value):
                yield from _defaults(item, f"{inner}[{number}]", item)
        elif isinstance(value, dict):
            for name_of, item in value.items():
                yield from _defaults(item, f"{inner}.{name_of}", item)
        elif not is_given and value not in (None, "", ()):
            yield inner, default_text(value, field)


def default_text(value: Any, field: FieldInfo) -> str:
    """A default as a person would type it."""
    for mark in field.metadata:
        if isinstance(mark, Quantity):
            return show(value, mark.kind, plain=True)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}"
    return str(value)


def leaf_paths(model: type[BaseModel] = Brief, path: str = "") -> Iterator[str]:
    """Every leaf a brief can have, with ``[]`` for a position and ``*`` for a thruster's identity."""
    for key, field in fields_of(model).items():
        inner, annotation = f"{path}.{key}" if path else key, field.annotation
        yield from _leaves_of(annotation, inner)


def _leaves_of(annotation: Any, path: str) -> Iterator[str]:
    arguments = [argument for argument in get_args(annotation) if argument is not type(None)]
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield from leaf_paths(annotation, path)
    elif get_origin(annotation) is dict:
        yield from _leaves_of(arguments[1], f"{path}.*")
    elif get_origin(annotation) is tuple and isinstance(arguments[0], type) and issubclass(arguments[0], BaseModel):
        yield from _leaves_of(arguments[0], f"{path}[]")
    elif len(arguments) == 1 and isinstance(arguments[0], type) and issubclass(arguments[0], BaseModel):
        yield from _leaves_of(arguments[0], path)
    else:
        yield path
