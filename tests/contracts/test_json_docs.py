"""Every key of the JSON answer is documented, and every number says its unit."""

from __future__ import annotations

from tests.contracts import _json_keys

UNITLESS = {
    "schema",
    "number",
    "found",
    "asked",
    "band",
    "margin",
    "relative_sigma",
    "thrust_relative_sigma",
    "chance_of_holding",
    "lane",
    "in_parallel",
    "series",
    "parallel",
    "instance",
    "load",
    "price",
    "figure",
    "allowed",
    "immersion_factor",
    "tunnel_share",
    "success_share",
    "low_share",
    "high_share",
    "cover_diameters",
}


def test_the_page_of_keys_is_current() -> None:
    assert _json_keys.PAGE.read_text(encoding="utf-8") == _json_keys.page(), "run: python -m tests.contracts._json_keys"


def test_every_number_carries_its_unit_or_has_none() -> None:
    bare = [
        key
        for key, value in _json_keys.all_keys().items()
        if isinstance(value, float) and not _json_keys.unit_of(key) and key.rsplit(".", 1)[-1] not in UNITLESS
    ]
    assert not bare
