"""The pictures: one for every choice of some words, all different, each valid XML within its sheet; and the drawings of the handbook."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

import pytest

import draw_lines
import draw_pictures
import draw_plates
from plate import Section
from sandmix.doors.facade import call

WORDS = json.loads(call('{"job": "describe"}'))["words"]
DRAWN = [(word, choice["value"]) for word in draw_pictures.DRAWERS for choice in WORDS[word]["choices"]]


def points_of(d: str) -> list[tuple[float, float]]:
    """The points of a path; of a curve only its end points."""
    x = y = start_x = start_y = 0.0
    found = []
    for letter, rest in re.findall(r"([MLHVZCQTmlhvzcqt])([^A-Za-z]*)", d):
        numbers = [float(number) for number in re.findall(r"-?\d*\.?\d+", rest)]
        size = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "T": 2, "Z": 1}[letter.upper()]
        if letter in "zZ":
            x, y = start_x, start_y
        for at in range(0, len(numbers), size):
            part = numbers[at : at + size]
            from_x, from_y = (x, y) if letter.islower() else (0.0, 0.0)
            if letter in "hH":
                x = from_x + part[0]
            elif letter in "vV":
                y = from_y + part[0]
            else:
                x, y = from_x + part[-2], from_y + part[-1]
            if letter in "mM" and at == 0:
                start_x, start_y = x, y
            found.append((x, y))
    return found


@pytest.mark.parametrize(("word", "key"), DRAWN)
def test_a_picture_is_valid_xml_and_stays_within_its_sheet(word: str, key: str) -> None:
    drawn = ElementTree.fromstring(draw_pictures.of(word, key, "a title"))
    assert drawn.findtext("title") == "a title"
    assert drawn.attrib["role"] == "img"
    for path in drawn.findall("path"):
        for x, y in points_of(path.attrib["d"]):
            assert 0 <= x <= draw_lines.WIDE, path.attrib["d"]
            assert 0 <= y <= draw_lines.HIGH, path.attrib["d"]


@pytest.mark.parametrize(("word", "key"), DRAWN)
def test_a_picture_without_a_title_is_hidden_from_screen_readers(word: str, key: str) -> None:
    drawn = ElementTree.fromstring(draw_pictures.of(word, key))
    assert drawn.attrib["aria-hidden"] == "true"
    assert drawn.find("title") is None
    assert "role" not in drawn.attrib


def test_no_two_pictures_are_equal() -> None:
    drawn = [draw_pictures.of(word, key) for word, key in DRAWN]
    assert len(set(drawn)) == len(drawn)


@pytest.mark.parametrize("word", ["symptoms", "found"])
def test_every_sign_and_every_result_of_a_check_is_in_exactly_one_group(word: str) -> None:
    groups = draw_pictures.groups(WORDS[word])
    placed = [choice["value"] for _, choices in groups for choice in choices]
    assert sorted(placed) == sorted(choice["value"] for choice in WORDS[word]["choices"])
    assert all(place for place, _ in groups)


def test_a_choice_without_a_picture_stops_the_build() -> None:
    with pytest.raises(draw_pictures.NotDrawn, match="test: smell has no picture"):
        draw_pictures.of("test", "smell")
    more = WORDS["symptoms"] | {"choices": [*WORDS["symptoms"]["choices"], {"value": "smell", "label": "it smells"}]}
    with pytest.raises(draw_pictures.NotDrawn, match="smell"):
        draw_pictures.groups(more)


@pytest.mark.parametrize("name", draw_plates.PLATES)
def test_a_drawing_of_the_handbook_is_valid_xml_within_its_sheet_and_holds_no_words_but_numbers(name: str) -> None:
    drawn = ElementTree.fromstring(draw_plates.figure(name))
    parts = drawn.findall("ol[@class='plate-parts']/li")
    assert [part.text for part in drawn.iter("text")] == [str(at) for at in range(1, len(parts) + 1)]
    assert drawn.findtext("figcaption")
    for sheet in drawn.iter("svg"):
        _, _, wide, high = map(float, sheet.attrib["viewBox"].split())
        assert "style" not in {key for part in sheet.iter() for key in part.attrib}
        for path in sheet.findall("path"):
            for x, y in points_of(path.attrib["d"]):
                assert 0 <= x <= wide, path.attrib["d"]
                assert 0 <= y <= high, path.attrib["d"]


def test_the_title_of_a_section_says_what_each_of_its_numbers_is() -> None:
    for name, plate in draw_plates.PLATES.items():
        if isinstance(plate, Section):
            title = ElementTree.fromstring(draw_plates.figure(name)).findtext("svg/title") or ""
            assert all(words in title for words in (plate.caption, *plate.parts))
