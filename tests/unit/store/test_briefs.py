"""Brief files: every mistake in its place, all at once; changes that touch nothing else."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from athwart.errors import BriefError, Mistake
from athwart.resources import example, example_names
from athwart.store.briefs import changed, defaults_used, parse_brief, read_brief, save_brief
from athwart.store.outline import DEPTH_MOST, SIZE_MOST

SMALL = """\
athwart: 1
name: Tarnelle  # made up
boat:
  kind: motor yacht, planing
  length_overall: 12 m
  length_waterline: 11 m
  beam: 4 m
  draught: 1 m
  displacement: 9.5 t
  hull_material: grp
  windage:
    - name: hull
      box: {from: 0 m, to: 12 m, bottom: 0 m, top: 1.5 m}
wind: {speed: 20 kn, read_at: on deck, is: gust}
supply:
  volts: 12 V
  batteries:
    - {name: house, use: house, volts: 12 V, capacity: 220 Ah}
layout:
  places:
    - {name: forepeak, x: 11 m}
    - {name: locker, x: 9 m}
  routes:
    - {between: [locker, forepeak], plus: 2.5 m}
thrusters:
  - identity: bow
    role: bow
    place: forepeak
    tunnel: {x: 11 m, axis_depth: 0.5 m}
bank:
  - {name: bow bank, feeds: [bow], place: locker}
"""


def mistakes(text: str) -> tuple[Mistake, ...]:
    with pytest.raises(BriefError) as caught:
        parse_brief(text, "b.yaml")
    return caught.value.mistakes


def only(text: str) -> Mistake:
    found = mistakes(text)
    assert len(found) == 1, [str(mistake) for mistake in found]
    return found[0]


def place(mistake: Mistake) -> tuple[int | None, int | None, str]:
    return mistake.line, mistake.column, mistake.path


# ---- reading
def test_the_small_brief_reads_in_si_and_keeps_its_text() -> None:
    file = parse_brief(SMALL)
    assert file.brief.boat.displacement == 9500.0
    assert file.brief.supply.batteries[0].capacity == 220 * 3600.0
    assert file.text == SMALL


@pytest.mark.parametrize("name", example_names())
def test_every_example_reads(name: str) -> None:
    assert parse_brief(example(name), name).brief.thrusters


def test_origins_tell_line_and_text_as_typed() -> None:
    origins = parse_brief(SMALL).origins
    assert origins["boat.displacement"] == (9, "9.5 t")
    assert origins["boat.windage[0].box.top"] == (13, "1.5 m")
    assert origins["bank[0].feeds[0]"] == (31, "bow")


def test_yes_and_no_are_read_as_words_where_words_are_meant() -> None:
    file = parse_brief(SMALL.replace("hull_material: grp", "hull_material: grp\n  petrol_aboard: no"))
    assert file.brief.boat.petrol_aboard == "no"


def test_yes_and_no_are_read_as_answers_where_answers_are_meant() -> None:
    assert parse_brief(SMALL + "duty: {quiet: yes}\n").brief.duty.quiet is True
    assert parse_brief(SMALL + "duty: {quiet: false}\n").brief.duty.quiet is False


# ---- one mistake at a time
def test_a_bare_number_is_told_its_units() -> None:
    mistake = only(SMALL.replace("beam: 4 m", "beam: 4"))
    assert place(mistake) == (7, 9, "boat.beam")
    assert mistake.read == "4"
    assert "m, cm, mm" in mistake.allowed
    assert "ft" in mistake.allowed


def test_a_knot_that_may_be_a_kilonewton_is_refused() -> None:
    mistake = only(SMALL.replace("20 kn", "20 KN"))
    assert place(mistake) == (14, 15, "wind.speed")
    assert "kilonewton" in mistake.message


def test_an_ambiguous_comma_is_refused() -> None:
    assert "ambiguous" in only(SMALL.replace("9.5 t", "1,250 kg")).message


def test_a_wrong_unit_is_told_which_are_right() -> None:
    mistake = only(SMALL.replace("draught: 1 m", "draught: 1 kg"))
    assert place(mistake) == (8, 12, "boat.draught")
    assert mistake.allowed


def test_an_unknown_key_is_shown_at_the_key_with_a_guess() -> None:
    mistake = only(SMALL + "dutty: {quiet: yes}\n")
    assert place(mistake) == (32, 1, "dutty")
    assert "did you mean duty?" in mistake.message


def test_a_missing_key_is_shown_at_its_section() -> None:
    mistake = only(SMALL.replace("  beam: 4 m\n", ""))
    assert place(mistake) == (3, 1, "boat.beam")
    assert "14.2 m" in mistake.allowed


def test_a_missing_section_is_told() -> None:
    text = SMALL.replace("wind: {speed: 20 kn, read_at: on deck, is: gust}\n", "")
    assert (only(text).path, only(text).message) == ("wind", "this must be given")


def test_a_wind_without_its_trap_labels_is_refused() -> None:
    found = mistakes(SMALL.replace(", read_at: on deck, is: gust", ""))
    assert [mistake.path for mistake in found] == ["wind.is", "wind.read_at"]
    assert "mean, gust" in found[0].allowed


def test_a_word_that_is_no_choice_is_told_the_choices() -> None:
    mistake = only(SMALL.replace("grp", "plastic"))
    assert (mistake.read, mistake.allowed) == ("plastic", "grp, steel, aluminium, wood")


def test_headings_are_all_round_or_a_list_of_angles() -> None:
    assert parse_brief(SMALL.replace("is: gust", "is: gust, headings: [55 deg, 90 deg]")).brief.wind.headings != "all round"
    mistake = only(SMALL.replace("is: gust", "is: gust, headings: [55 deg, often]"))
    assert mistake.path == "wind.headings[1]"
    mistake = only(SMALL.replace("is: gust", "is: gust, headings: beam"))
    assert (mistake.path, mistake.read) == ("wind.headings", "beam")
    assert "all round" in mistake.allowed


def test_a_list_where_a_value_is_needed_is_told() -> None:
    mistake = only(SMALL.replace("beam: 4 m", "beam: [4 m]"))
    assert (mistake.path, mistake.read) == ("boat.beam", "a list")


def test_a_value_where_a_section_is_needed_is_told() -> None:
    mistake = only(SMALL + "duty: often\n")
    assert (mistake.path, mistake.read) == ("duty", "often")
    assert "bursts_per_docking" in mistake.allowed


def test_an_empty_value_is_told_once() -> None:
    mistake = only(SMALL.replace("beam: 4 m", "beam:"))
    assert (place(mistake), mistake.message) == ((7, 3, "boat.beam"), "nothing is given here")


def test_a_size_beyond_all_boats_is_refused() -> None:
    mistake = only(SMALL.replace("beam: 4 m", "beam: 4 km"))
    assert "more than 0 m to 1" in mistake.allowed.replace("\N{NARROW NO-BREAK SPACE}", "").replace("\N{NO-BREAK SPACE}", " ")


def test_a_box_the_wrong_way_round_points_to_its_end() -> None:
    mistake = only(SMALL.replace("from: 0 m, to: 12 m", "from: 12 m, to: 0 m"))
    assert place(mistake) == (13, 25, "boat.windage[0].box.to")


def test_a_waterline_longer_than_the_boat_is_refused() -> None:
    assert only(SMALL.replace("length_waterline: 11 m", "length_waterline: 13 m")).path == "boat.length_waterline"


def test_a_windage_element_needs_exactly_one_shape() -> None:
    mistake = only(SMALL.replace("top: 1.5 m}", "top: 1.5 m}\n      area: 3 m2"))
    assert "exactly one of box, outline or area" in mistake.message
    assert mistake.line == 14


def test_a_masthead_wind_needs_its_height() -> None:
    assert "read_height" in only(SMALL.replace("on deck", "masthead")).message


def test_a_cranking_current_needs_its_standard() -> None:
    mistake = only(SMALL.replace("capacity: 220 Ah", "capacity: 220 Ah, cranking: 700 A CCA"))
    assert "standard" in mistake.message
    file = parse_brief(SMALL.replace("capacity: 220 Ah", "capacity: 220 Ah, cranking: 700 A CCA (EN)"))
    assert file.brief.supply.batteries[0].cranking == "700 A CCA (EN)"


def test_control_characters_cannot_hide_in_a_name() -> None:
    mistake = only(SMALL.replace("name: Tarnelle", r'name: "Tar\anelle"'))
    assert (mistake.path, "control characters" in mistake.message) == ("name", True)


# ---- between sections
def test_a_place_that_is_not_described_is_refused_with_the_known_ones() -> None:
    mistake = only(SMALL + "helms: [{name: helm, place: loker}]\n")
    assert (place(mistake), mistake.read, mistake.allowed) == ((32, 29, "helms[0].place"), "loker", "forepeak, locker")


@pytest.mark.parametrize(
    ("old", "new", "path", "says"),
    [
        ("feeds: [bow]", "feeds: [stern]", "bank[0].feeds[0]", "no thruster"),
        ("feeds: [bow]", "feeds: [bow, bow]", "bank[0].feeds[1]", "fed by another bank"),
        ("{name: locker, x: 9 m}", "{name: forepeak, x: 9 m}", "layout.places[1].name", "a second place"),
        ("[locker, forepeak]", "[locker, locker]", "layout.routes[0].between", "two different places"),
        ("thrusters:", "helms: [{name: bow, place: locker}]\nthrusters:", "thrusters[0].identity", "on the control line already"),
        (
            "bank:",
            "aboard: {lanes: {stern: {fuse: {rating: 300 A}}}}\nbank:",
            "aboard.lanes.stern",
            "no thruster of this identity",
        ),
        ("bank:", "network: {trunk: [{stop: mast, length: 0 m}]}\nbank:", "network.trunk[0].stop", "no helm, thruster or node"),
        (
            "bank:",
            "network: {trunk: [{stop: bow, length: 0 m}, {stop: bow, length: 1 m}]}\nbank:",
            "network.trunk[1].stop",
            "already",
        ),
        (
            "  batteries:",
            "  alternators: [{name: a, current: 90 A, volts: 12 V, charges: bow bnk}]\n  batteries:",
            "supply.alternators[0].charges",
            "no battery or bank",
        ),
    ],
)
def test_sections_that_contradict_each_other_are_told(old: str, new: str, path: str, says: str) -> None:
    found = [mistake for mistake in mistakes(SMALL.replace(old, new, 1)) if mistake.path == path]
    assert len(found) == 1
    assert says in found[0].message
    assert found[0].line


def test_a_bank_needs_a_route_to_the_unit_it_feeds() -> None:
    mistake = only(SMALL.replace("  routes:\n    - {between: [locker, forepeak], plus: 2.5 m}\n", ""))
    assert mistake.path == "bank[0].feeds[0]"
    assert "no route" in mistake.message


def test_a_bank_beside_its_unit_needs_no_route() -> None:
    text = SMALL.replace("  routes:\n    - {between: [locker, forepeak], plus: 2.5 m}\n", "").replace(
        "place: locker}", "place: forepeak}"
    )
    assert parse_brief(text).brief.bank[0].place == "forepeak"


def test_a_part_is_aboard_or_fixed_but_not_both() -> None:
    parts = "{lanes: {bow: {fuse: {rating: 300 A}}}}"
    mistake = only(f"{SMALL}aboard: {parts}\nfixed: {parts}\n")
    assert mistake.path == "fixed.lanes.bow.fuse"


def test_names_are_checked_even_when_a_value_cannot_be_read() -> None:
    text = SMALL.replace("beam: 4 m", "beam: 4").replace("feeds: [bow]", "feeds: [bowe]")
    assert {mistake.path for mistake in mistakes(text)} == {"boat.beam", "bank[0].feeds[0]"}


# ---- all at once
def test_mistakes_come_all_at_once_in_the_order_of_the_text() -> None:
    text = (
        SMALL.replace("beam: 4 m", "beam: 4")
        .replace("grp", "plastic")
        .replace("20 kn", "20 KN")
        .replace("x: 11 m}", "x: eleven}")
    )
    assert [mistake.path for mistake in mistakes(text)] == ["boat.beam", "boat.hull_material", "wind.speed", "layout.places[0].x"]


def test_a_mistake_is_printed_with_file_line_column_path_read_and_allowed() -> None:
    text = str(only(SMALL.replace("grp", "plastic")))
    assert (
        text == "b.yaml:10:18: boat.hull_material: not one of the choices (read: 'plastic'); allowed: grp, steel, aluminium, wood"
    )


def test_one_broken_section_does_not_hide_the_mistakes_of_the_others() -> None:
    text = SMALL.replace("{speed: 20 kn, read_at: on deck, is: gust}", "{speed: 20 kn, read_at: on deck").replace(
        "beam: 4 m", "beam: 4"
    )
    assert [(mistake.path, mistake.line) for mistake in mistakes(text)] == [("boat.beam", 7), ("", 14)]


# ---- YAML itself
@pytest.mark.parametrize(
    ("old", "new", "line", "column", "says"),
    [
        ("  beam: 4 m", "\tbeam: 4 m", 7, 1, "a tab"),
        ("  beam: 4 m", "  beam: 4 m\n  beam: 5 m", 8, 3, "given twice"),
        ("bank:\n", "bank: []\nbank:\n", 31, 1, "given twice"),
        ("{name: locker, x: 9 m}", "{name: locker, x: 9 m", 22, 7, "brace"),
        ("feeds: [bow]", "feeds: [bow", 31, 29, "bracket"),
        ("name: hull", 'name: "hull', 12, 13, "quote"),
        ("  beam: 4 m", "    beam: 4 m", 7, 9, "colon"),
        ("  beam: 4 m", " beam: 4 m", 7, 2, "indentation"),
        ("  beam: 4 m", "  beam: &b 4 m", 7, 9, "anchors"),
        ("  beam: 4 m", "  beam: *b", 7, 9, "aliases"),
        ("  beam: 4 m", "  beam: !!str 4 m", 7, 9, "tags"),
        ("  beam: 4 m", "  <<: 4 m", 7, 3, "merge"),
        ("bank:\n", "---\nbank:\n", 30, 1, "one document"),
        ("  beam: 4 m", "  beam: 4 m\x07", 7, 12, "cannot be printed"),
        ("  beam: 4 m", "  beam: @4 m", 7, 9, "cannot begin a value"),
    ],
)
def test_what_is_no_yaml_is_shown_where_it_is(old: str, new: str, line: int, column: int, says: str) -> None:
    found = mistakes(SMALL.replace(old, new, 1))
    hits = [(mistake.line, mistake.column) for mistake in found if says in mistake.message]
    assert hits == [(line, column)], [str(mistake) for mistake in found]


def test_nesting_is_limited() -> None:
    mistake = mistakes(SMALL + "notes: " + "[" * 5000)[0]
    assert ("nested too deeply" in mistake.message, str(DEPTH_MOST) in mistake.allowed) == (True, True)
    assert "nested too deeply" in mistakes("- " * 5000)[0].message


def test_a_file_of_more_than_a_megabyte_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "big.yaml"
    path.write_text(SMALL + "# " + "x" * SIZE_MOST, encoding="utf-8")
    with pytest.raises(BriefError, match="too large"):
        read_brief(path)
    assert "too large" in mistakes(SMALL + "# " + "x" * SIZE_MOST)[0].message


@pytest.mark.parametrize("text", ["", "\n", "# only a comment\n", "---\n"])
def test_an_empty_file_says_what_must_be_given(text: str) -> None:
    assert {mistake.path for mistake in mistakes(text)} >= {"athwart", "boat", "wind", "thrusters"}


@pytest.mark.parametrize("text", ["just words", "- a\n- b\n", "[a, b]", "{boat: 1"])
def test_a_text_that_is_no_mapping_is_refused(text: str) -> None:
    assert mistakes(text)[0].line == 1


def test_a_file_that_is_not_utf_8_is_shown_at_the_byte(tmp_path: Path) -> None:
    path = tmp_path / "latin.yaml"
    path.write_bytes(SMALL.encode() + b"notes: caf\xe9\n")
    with pytest.raises(BriefError) as caught:
        read_brief(path)
    assert (caught.value.mistakes[0].line, caught.value.mistakes[0].column) == (32, 11)


def test_a_file_that_is_not_there_is_a_mistake(tmp_path: Path) -> None:
    with pytest.raises(BriefError):
        read_brief(tmp_path / "none.yaml")


def test_windows_line_ends_and_a_byte_order_mark_are_read() -> None:
    file = parse_brief("\ufeff" + SMALL.replace("\n", "\r\n"))
    assert file.origins["boat.beam"] == (7, "4 m")


# ---- changing
@pytest.mark.parametrize("name", example_names())
def test_saving_without_changes_is_byte_identical(name: str, tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    path.write_bytes(example(name).encode())
    save_brief(read_brief(path))
    assert path.read_bytes() == example(name).encode()


@pytest.mark.parametrize("name", example_names())
def test_any_value_can_be_written_over_with_itself_or_another_and_nothing_else_moves(name: str) -> None:
    file = parse_brief(example(name), name)
    lines = file.text.splitlines()
    for path, (line, typed) in file.origins.items():
        if path in ("boat.beam", "supply.volts", "layout.routes[0].plus", "wind.speed"):
            number, unit = typed.split(" ", 1)
            after = changed(file, {path: f"{float(number) + 0.25:g} {unit}"})
            moved = [n for n, (a, b) in enumerate(zip(lines, after.text.splitlines(), strict=True), 1) if a != b]
            assert moved == [line]
            assert changed(after, {path: typed}).text == file.text
        assert changed(file, {path: typed}).text == file.text


def test_a_change_keeps_the_comment_behind_it() -> None:
    assert "name: Velbrina  # made up\n" in changed(parse_brief(SMALL), {"name": "Velbrina"}).text


def test_a_change_that_needs_quotes_gets_them() -> None:
    after = changed(parse_brief(SMALL), {"name": "no: really #1", "boat.windage[0].name": "- a"})
    assert after.brief.name == "no: really #1"
    assert after.brief.boat.windage[0].name == "- a"


def test_a_change_inside_brackets_stays_inside_them() -> None:
    after = changed(
        parse_brief(SMALL),
        {"layout.places[0].name": "fore, peak", "thrusters[0].place": "fore, peak", "layout.routes[0].between[1]": "fore, peak"},
    )
    assert after.brief.layout.routes[0].between == ("locker", "fore, peak")


@pytest.mark.parametrize(
    ("path", "value", "expected"),
    [
        ("boat.shell_thickness", "12 mm", "  shell_thickness: 12 mm\nwind:"),
        ("boat.windage[0].frontal_area", "5 m2", "      frontal_area: 5 m2\nwind:"),
        ("boat.windage[0].kind", "hull", "      kind: hull\nwind:"),
        ("wind.surroundings", "at sea", "is: gust, surroundings: at sea}\n"),
        ("thrusters[0].wanted.drives[0]", "brushed", "    wanted:\n      drives:\n        - brushed\nbank:"),
        ("layout.places[1].space", "", ""),
        ("bank[0].chemistries[0]", "agm", "place: locker, chemistries: [agm]}\n"),
        ("bank[0].feeds[0]", "bow", "feeds: [bow]"),
        ("duty.burst", "4 s", "place: locker}\nduty:\n  burst: 4 s\n"),
        ("aboard.lanes.bow.fuse.rating", "300 A", "aboard:\n  lanes:\n    bow:\n      fuse:\n        rating: 300 A\n"),
    ],
)
def test_a_value_not_given_yet_is_put_where_it_belongs(path: str, value: str, expected: str) -> None:
    file = parse_brief(SMALL)
    if not expected:
        with pytest.raises(BriefError):
            changed(file, {path: value})
        return
    after = changed(file, {path: value})
    assert expected in after.text
    assert after.origins[path][1] == value


def test_several_values_of_one_new_item_are_put_in_together() -> None:
    after = changed(
        parse_brief(SMALL),
        {
            "choices.overrides[0].finding": "PLACE-01",
            "choices.overrides[0].reason": "the yard accepts it",
            "layout.places[2].name": "aft",
            "layout.places[2].x": "1 m",
        },
    )
    assert after.brief.choices.overrides[0].reason == "the yard accepts it"
    assert after.brief.layout.places[2].x == 1.0


def test_an_insertion_keeps_windows_line_ends() -> None:
    after = changed(parse_brief(SMALL.replace("\n", "\r\n")), {"boat.shell_thickness": "12 mm", "duty.burst": "4 s"})
    assert "\n" not in after.text.replace("\r\n", "")


def test_an_insertion_goes_before_the_comment_of_the_next_section() -> None:
    after = changed(parse_brief(SMALL.replace("wind:", "\n# the wind\nwind:")), {"boat.shell_thickness": "12 mm"})
    assert "  shell_thickness: 12 mm\n\n# the wind\nwind:" in after.text


def test_prose_over_several_lines_can_be_changed() -> None:
    file = parse_brief(SMALL + "notes: |\n  one\n  two\nstory: x\n")
    after = changed(file, {"notes": "three\nfour"})
    assert (after.brief.notes, after.brief.story) == ("three\nfour", "x")
    assert changed(file, {"notes": "three"}).text.endswith("notes: three\nstory: x\n")


def test_a_change_that_makes_the_brief_wrong_leaves_the_file_alone(tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    path.write_text(SMALL, encoding="utf-8")
    with pytest.raises(BriefError, match="mistake"):
        save_brief(read_brief(path), {"boat.beam": "4"})
    assert path.read_text(encoding="utf-8") == SMALL
    assert os.listdir(tmp_path) == ["b.yaml"]


def test_a_save_that_fails_half_way_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "b.yaml"
    path.write_text(SMALL, encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError("no space left")

    monkeypatch.setattr("athwart.store.briefs.os.replace", full)
    with pytest.raises(OSError, match="no space left"):
        save_brief(read_brief(path), {"boat.beam": "5 m"})
    assert path.read_text(encoding="utf-8") == SMALL
    assert os.listdir(tmp_path) == ["b.yaml"]


def test_saving_keeps_the_rights_of_the_file(tmp_path: Path) -> None:
    path = tmp_path / "b.yaml"
    path.write_text(SMALL, encoding="utf-8")
    path.chmod(0o640)
    save_brief(read_brief(path), {"boat.beam": "5 m"})
    assert path.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize("path", ["", "[0]", "boat", "boat.windage", "name.x", "boat.windage[5].name", "bank.name"])
def test_a_path_that_leads_nowhere_is_refused(path: str) -> None:
    with pytest.raises(BriefError):
        changed(parse_brief(SMALL), {path: "x"})


# ---- defaults
def test_defaults_that_apply_are_listed_with_units() -> None:
    found = dict(defaults_used(parse_brief(SMALL)))
    assert found["duty.burst"] == "5 s"
    assert found["wind.surroundings"] == "off-land"
    assert found["boat.windage_uncertainty"] == "10 %"
    assert found["duty.quiet"] == "no"
    assert "boat.shell_thickness" not in found


def test_a_value_that_is_given_is_no_default() -> None:
    assert "duty.burst" not in dict(defaults_used(parse_brief(SMALL + "duty: {burst: 5 s}\n")))
    assert "duty.pause" in dict(defaults_used(parse_brief(SMALL + "duty: {burst: 5 s}\n")))
