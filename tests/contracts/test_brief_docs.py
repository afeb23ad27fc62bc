"""The brief is described completely: in words, in the JSON Schema, on the reference page; and the examples keep to it."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from athwart.design.brief import Brief
from athwart.design.brief_words import WORDS
from athwart.resources import example, example_names, text
from athwart.store.briefs import leaf_paths
from athwart.store.schema import SCHEMA_FILE, brief_schema, reference, schema_text, sections
from athwart.store.wording import fields_of

ROOT = Path(__file__).parents[2]


def test_every_field_has_its_words_and_no_words_are_left_over() -> None:
    model = {section.__name__: set(fields_of(section)) for _, section in sections()}
    assert model == {name: set(words) for name, words in WORDS.items()}


def test_words_are_sentences() -> None:
    for name, words in WORDS.items():
        for key, sentence in words.items():
            assert sentence[0].isupper() or not sentence[0].isalpha(), (name, key)
            assert sentence.endswith("."), (name, key)


def test_the_schema_in_the_package_is_current() -> None:
    assert text(*SCHEMA_FILE) == schema_text(), "athwart new --schema > src/athwart/design/data/brief.schema.json"


def test_the_reference_page_is_current_and_complete() -> None:
    page = (ROOT / "docs" / "reference" / "brief.md").read_text(encoding="utf-8")
    assert page == reference(), "athwart new --fields > docs/reference/brief.md"
    for path in leaf_paths():
        assert f"| `{path.rsplit('.', 1)[-1].removesuffix('[]')}` |" in page, path


@pytest.mark.parametrize("name", example_names())
def test_the_first_line_of_an_example_leads_editors_to_the_schema(name: str) -> None:
    first = example(name).splitlines()[0]
    assert first.startswith("# yaml-language-server: $schema=")
    assert (ROOT / "examples" / first.partition("=")[2]).resolve() == ROOT.joinpath("src", "athwart", *SCHEMA_FILE).resolve()


@pytest.mark.parametrize("name", example_names())
def test_an_example_says_that_it_is_invented(name: str) -> None:
    assert "invented" in example(name)[:1200]


@pytest.mark.parametrize("name", example_names())
def test_the_examples_fit_the_schema(name: str) -> None:
    schema = brief_schema()
    document = YAML(typ="safe", pure=True).load(example(name))
    assert list(_misfits(document, schema, schema, "")) == []


def test_the_schema_refuses_what_the_reader_refuses() -> None:
    schema = brief_schema()
    document = YAML(typ="safe", pure=True).load(example("1-motor-yacht"))
    document["boat"]["beam"] = 4
    document["wind"].pop("is")
    document["dutty"] = {}
    document["supply"]["volts"] = ["12 V"]
    assert sorted(path for path, _ in _misfits(document, schema, schema, "")) == [
        ".boat.beam",
        ".dutty",
        ".supply.volts",
        ".wind.is",
    ]


def test_every_leaf_of_the_model_is_in_the_schema() -> None:
    definitions = {Brief.__name__: brief_schema(), **brief_schema()["$defs"]}
    for _, section in sections():
        assert set(definitions[section.__name__]["properties"]) == set(fields_of(section))
        assert definitions[section.__name__]["additionalProperties"] is False


_KEYWORDS = """$ref $defs $schema title description examples type properties required additionalProperties propertyNames items
prefixItems minItems maxItems enum const anyOf oneOf minimum maximum exclusiveMinimum minLength maxLength pattern"""
_KINDS: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str, datetime.date),  # YAML 1.1 tools make dates of dates
    "integer": (int,),
    "number": (int, float),
    "null": (type(None),),
}


def _misfits(value: Any, schema: dict[str, Any], root: dict[str, Any], path: str) -> Iterator[tuple[str, str]]:
    """What does not fit: the few keywords of JSON Schema that the brief's schema uses, and no others."""
    known = set(_KEYWORDS.split())
    assert set(schema) <= known, set(schema) - known
    if "$ref" in schema:
        yield from _misfits(value, root["$defs"][schema["$ref"].rsplit("/", 1)[1]], root, path)
    for word in ("anyOf", "oneOf"):
        if word in schema and all(list(_misfits(value, option, root, path)) for option in schema[word]):
            yield path, word
    if "type" in schema and not isinstance(value, _KINDS[schema["type"]]):
        yield path, f"{value!r} is no {schema['type']}"
    if ("enum" in schema and value not in schema["enum"]) or ("const" in schema and value != schema["const"]):
        yield path, f"{value!r} is no choice"
    if isinstance(value, dict):
        properties = schema.get("properties", {})
        yield from ((f"{path}.{key}", "missing") for key in schema.get("required", ()) if key not in value)
        for key, item in value.items():
            if key in properties:
                yield from _misfits(item, properties[key], root, f"{path}.{key}")
            elif schema.get("additionalProperties") is False:
                yield f"{path}.{key}", "unknown"
            elif isinstance(schema.get("additionalProperties"), dict):
                yield from _misfits(item, schema["additionalProperties"], root, f"{path}.{key}")
    if isinstance(value, list):
        for number, item in enumerate(value):
            inner = schema["prefixItems"][number] if "prefixItems" in schema else schema.get("items", {})
            yield from _misfits(item, inner, root, f"{path}[{number}]")
