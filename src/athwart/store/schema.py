"""The brief described from its model: JSON Schema for editors, a reference page for people."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any, get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from athwart.design.brief import Brief
from athwart.design.brief_words import WORDS
from athwart.store.briefs import default_text
from athwart.store.wording import fields_of, hint_of, words_of

SCHEMA_FILE = ("design", "data", "brief.schema.json")


def brief_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a brief."""
    schema = Brief.model_json_schema(by_alias=True)
    for name, entry in ((Brief.__name__, schema), *schema["$defs"].items()):
        for key, field in entry.get("properties", {}).items():
            note = field.pop("description", "")
            field["description"] = WORDS[name][key] + (f" {note[0].upper()}{note[1:]}." if note else "")
            field.pop("default", None)
            field.pop("title", None)
            _yes_no(field)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def _yes_no(field: dict[str, Any]) -> None:
    """Editors read yes and no as text; a brief takes them as well as true and false."""
    for option in (field, *field.get("anyOf", ())):
        if option.get("type") == "boolean":
            option.pop("type")
            option["enum"] = [True, False, "yes", "no"]


def schema_text() -> str:
    """The schema as it is kept in the package."""
    return json.dumps(brief_schema(), indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def sections() -> Iterator[tuple[str, type[BaseModel]]]:
    """Every section of a brief with its path, in the order of the file."""
    yield from _sections(Brief, "", set())


def _sections(model: type[BaseModel], path: str, seen: set[type[BaseModel]]) -> Iterator[tuple[str, type[BaseModel]]]:
    if model in seen:
        return
    seen.add(model)
    yield path, model
    for key, field in fields_of(model).items():
        inner, many = _inner(field)
        if inner is not None:
            yield from _sections(inner, f"{path}.{key}{many}" if path else f"{key}{many}", seen)


def _inner(field: FieldInfo) -> tuple[type[BaseModel] | None, str]:
    """The section inside a field, and the sign for many of it."""
    hint = hint_of(field)[0]
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return hint, ""
    for argument in get_args(hint):
        if isinstance(argument, type) and issubclass(argument, BaseModel):
            return argument, "[ ]" if getattr(hint, "__origin__", None) is tuple else ".*"
    return None, ""


def reference() -> str:
    """The reference page of the brief as Markdown: every section, every field, what it takes and its default."""
    parts = [_HEAD]
    for path, model in sections():
        title = f"`{path}`" if path else "Top level"
        rows = [
            f"| `{key}` | {WORDS[model.__name__][key]} | {_takes(field)} | {_default(field)} |"
            for key, field in fields_of(model).items()
        ]
        parts.append("\n".join([f"## {title}", "", "| key | means | takes | if left out |", "| --- | --- | --- | --- |", *rows]))
    return "\n\n".join(parts) + "\n"


def _takes(field: FieldInfo) -> str:
    inner, many = _inner(field)
    if inner is not None:
        return {"": "a section", "[ ]": "a list of sections", ".*": "sections by identity"}[many]
    return words_of(hint_of(field)).replace("|", "\\|")


def _default(field: FieldInfo) -> str:
    if field.is_required():
        return "must be given"
    if field.default in (None, "", ()) or field.default == {}:
        return "–"
    if isinstance(field.default, BaseModel):
        return "its defaults"
    return default_text(field.default, field)


_HEAD = """# The brief, field by field

Made from the program (`athwart new --fields`), so page and program agree. [How to write a brief](../how-to-brief.md) explains the
ideas; the files in `examples/` show whole ones.

Every quantity is text with its unit: `14.2 m`, `46 ft 7 in`, `70 mm2`, `2/0 AWG`, `25 kn`, `-5 °C`. A field left out is
"not given", unless the last column names a default; defaults that were used are printed with the answer. `[ ]` means a list,
`*` a thruster's identity."""
