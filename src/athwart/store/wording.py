"""Mistakes in our own words: what pydantic found wrong with a brief, said to a person who has the file open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from difflib import get_close_matches
from types import UnionType
from typing import Annotated, Any, Literal, TypeAlias, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from athwart.design.brief import Brief, Headings
from athwart.design.fields import Angle, Quantity
from athwart.errors import InputError, Mistake
from athwart.store.outline import Loc, Outline

READ_MOST = 60
HEADINGS = get_args(Headings)[0]  # as pydantic keeps it: the choice without its discriminator


def path_text(loc: Loc) -> str:
    """A path as people write it: ``thrusters[0].tunnel.x``."""
    text = ""
    for part in loc:
        text += f"[{part}]" if isinstance(part, int) else f".{part}" if text else str(part)
    return text


def fields_of(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """The fields of a section by the key in the file."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def _origin(annotation: Any) -> Any:
    return get_origin(annotation)


Hint: TypeAlias = tuple[Any, tuple[Any, ...]]


def _unfold(annotation: Any, metadata: tuple[Any, ...] = ()) -> Hint:
    """An annotation without ``Annotated`` and ``| None``, with its metadata."""
    while True:
        if annotation == HEADINGS:
            return annotation, metadata
        if _origin(annotation) is Annotated:
            inner, *more = get_args(annotation)
            annotation, metadata = inner, (*metadata, *more)
        elif _origin(annotation) in (Union, UnionType):
            inner = [arg for arg in get_args(annotation) if arg is not type(None)]
            if len(inner) != 1:
                return annotation, metadata
            annotation = inner[0]
        else:
            return annotation, metadata


def hint_of(field: FieldInfo) -> Hint:
    """The type of a field."""
    return _unfold(field.annotation, tuple(field.metadata))


def hint_at(loc: Loc) -> Hint | None:
    """The type of the field at a path of a brief, or None."""
    hint: Hint = (Brief, ())
    for part in loc:
        annotation = hint[0]
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            field = fields_of(annotation).get(str(part))
            if field is None:
                return None
            hint = hint_of(field)
        elif _origin(annotation) is tuple:
            arguments = get_args(annotation)
            fixed = arguments[-1] is not Ellipsis and isinstance(part, int) and part < len(arguments)
            hint = _unfold(arguments[part if fixed and isinstance(part, int) else 0])
        elif _origin(annotation) is dict:
            hint = _unfold(get_args(annotation)[1])
        elif annotation == HEADINGS and isinstance(part, int):
            hint = _unfold(Angle)
        else:
            return None
    return hint


def allowed_at(loc: Loc) -> str:
    """What may stand at a path, in words."""
    hint = hint_at(loc)
    return words_of(hint) if hint else ""


def words_of(hint: Hint) -> str:
    """What a type takes, in words."""
    annotation, metadata = hint
    for mark in metadata:
        if isinstance(mark, Quantity):
            return mark.words
    if annotation == HEADINGS:
        return "all round, or a list of angles off the bow such as [55 deg, 90 deg]"
    if _origin(annotation) is Literal:
        choices = [str(value) for value in get_args(annotation)]
        return ("; " if any("," in choice for choice in choices) else ", ").join(choices)
    if _origin(annotation) is tuple:
        arguments = get_args(annotation)
        inner = words_of(_unfold(arguments[0]))
        if arguments[-1] is Ellipsis:
            return f"a list; each item: {inner}" if inner else "a list"
        return f"a list of {len(arguments)}; each: {inner}"
    if _origin(annotation) is dict:
        return "keys, each with its section"
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return f"a section with the keys {', '.join(fields_of(annotation))}"
    limits = _limits(metadata)
    return {bool: "yes or no", int: f"a whole number{limits}", float: f"a number{limits}", str: "words"}.get(annotation, "")


def _limits(metadata: tuple[Any, ...]) -> str:
    signs = (("gt", "more than"), ("ge", "from"), ("lt", "less than"), ("le", "to"))
    told = [
        f"{words} {value:g}" for sign, words in signs for mark in metadata if (value := getattr(mark, sign, None)) is not None
    ]
    return f" {' '.join(told)}" if told else ""


def mistakes_of(errors: Sequence[Mapping[str, Any]], outline: Outline, file: str) -> Iterator[Mistake]:
    """Pydantic's errors as mistakes with a place, in the order of the errors."""
    for error in errors:
        if error["type"] == "too_short" and any(_is_below(other["loc"], error["loc"]) for other in errors):
            continue  # items that could not be read are not counted; their own mistakes tell it
        yield _mistake(error, _known(error["loc"], outline.data), outline, file)


def _is_below(loc: tuple[str | int, ...], above: tuple[str | int, ...]) -> bool:
    return len(loc) > len(above) and loc[: len(above)] == above


def _known(loc: tuple[str | int, ...], data: Any) -> Loc:
    """A pydantic location without the names of union branches that it puts between keys."""
    kept: list[str | int] = []
    for number, part in enumerate(loc):
        is_last = number == len(loc) - 1
        is_inside = isinstance(data, dict) and part in data
        if is_inside or (isinstance(data, list) and isinstance(part, int) and part < len(data)):
            data = data[part]
        elif not (is_last and isinstance(data, dict) and part != "[key]"):
            continue
        kept.append(part)
    return tuple(kept)


def _mistake(error: Mapping[str, Any], loc: Loc, outline: Outline, file: str) -> Mistake:
    kind, context = str(error["type"]), error.get("ctx") or {}
    if kind == "extra_forbidden":
        return _unknown_key(loc, outline, file)
    if kind == "missing":
        place = outline.key_at(loc[:-1]) or outline.at(loc[:-1])
        line, column = (place.line, place.column) if place else (1, 1)
        return Mistake("this must be given", file, line, column, path_text(loc), allowed=allowed_at(loc))
    if kind == "between_fields":
        place = outline.key_at((*loc, context["at"])) if context["at"] else None
        place = place or outline.key_at(loc) or outline.at(loc)
        line, column = (place.line, place.column) if place else (1, 1)
        return Mistake(str(context["says"]), file, line, column, path_text((*loc, context["at"]) if context["at"] else loc))
    message, allowed = _said(kind, context, loc)
    return located(message, loc, outline, file, allowed=allowed)


def _said(kind: str, context: Mapping[str, Any], loc: Loc) -> tuple[str, str]:
    """Message and what is allowed, by the type of the error."""
    cause = context.get("error")
    if isinstance(cause, InputError) and cause.mistakes:
        return cause.mistakes[0].message, cause.mistakes[0].allowed or allowed_at(loc)
    if isinstance(cause, InputError):
        return str(cause), allowed_at(loc)
    if kind == "quantity_range":
        return "outside what a boat of 6 to 40 m can have", str(context["span"])
    if kind in ("string_too_long", "too_long"):
        return "too long", f"at most {context['max_length']}"
    if kind in ("string_too_short", "too_short"):
        return "too short", f"at least {context['min_length']}"
    if kind == "string_pattern_mismatch":
        return "not of the form that is needed", _PATTERNS.get(str(context["pattern"]), str(context["pattern"]))
    return _WORDS.get(kind, "not understood"), allowed_at(loc)


_WORDS = {
    "literal_error": "not one of the choices",
    "union_tag_invalid": "not one of the choices",
    "bool_parsing": "neither yes nor no",
    "bool_type": "neither yes nor no",
    "int_parsing": "not a whole number",
    "int_parsing_size": "too large",
    "int_type": "not a whole number",
    "int_from_float": "not a whole number",
    "float_parsing": "not a number",
    "float_type": "not a number",
    "finite_number": "not a number",
    "greater_than": "too small",
    "greater_than_equal": "too small",
    "less_than": "too large",
    "less_than_equal": "too large",
    "string_type": "words are needed here",
    "string_unicode": "text in UTF-8 is needed here",
    "quantity_type": "one value is needed here",
    "not_printable": "control characters cannot stand in a name or a text",
    "tuple_type": "a list is needed here",
    "list_type": "a list is needed here",
    "dict_type": "a section is needed here",
    "model_type": "a section is needed here",
    "model_attributes_type": "a section is needed here",
}
_PATTERNS = {
    r"^[a-z][a-z0-9 -]*$": "small letters, digits, blanks and hyphens, beginning with a letter, for example bow",
    r"^[A-Z]+-\d\d$": "the code of a finding, for example CABLE-03",
    r"^[A-Z0-9.]{1,8}$": "capitals and digits, for example A or B2",
    r"^\d{4}-\d{2}-\d{2}$": "a date as year-month-day, for example 2026-05-01",
    r"^[A-Z]+-\d{3}$": "capitals, a hyphen and three digits, for example A-001",
}


def _unknown_key(loc: Loc, outline: Outline, file: str) -> Mistake:
    hint = hint_at(loc[:-1]) if len(loc) > 1 else (Brief, ())
    known = list(fields_of(hint[0])) if hint and isinstance(hint[0], type) and issubclass(hint[0], BaseModel) else []
    near = get_close_matches(str(loc[-1]), known, n=1)
    message = f"no such key here{f'; did you mean {near[0]}?' if near else ''}"
    place = outline.key_at(loc)
    line, column = (place.line, place.column) if place else (1, 1)
    return Mistake(message, file, line, column, path_text(loc), str(loc[-1])[:READ_MOST], ", ".join(known))


def located(message: str, loc: Loc, outline: Outline, file: str, *, read: str = "", allowed: str = "") -> Mistake:
    """A mistake at a value of the file; what is read there is shown."""
    place = outline.at(loc) or outline.key_at(loc)
    if place is None:
        return Mistake(message, file, 1, 1, path_text(loc), read, allowed)
    node = place.node
    read = read or (node.text if node.kind == "scalar" else f"a {'list' if node.kind == 'sequence' else 'section'}")
    cut = read if len(read) <= READ_MOST else read[: READ_MOST - 1] + "…"
    return Mistake(message, file, place.line, place.column, path_text(loc), cut, allowed)
