"""Words for a file or a flag: how the bytes come, and the message if they do not."""

import base64
import json

import pytest
from shapes import binary, cube, text

from sandmix.doors import facade
from sandmix.language.errors import InputError
from sandmix.vocabulary import WORDS

MESH = WORDS["mesh"]
LABEL = "File of the shape: "


@pytest.mark.parametrize("given", [
    binary(cube()), bytearray(binary(cube())), memoryview(binary(cube())), text(cube()).decode(),
    base64.b64encode(binary(cube(), b"solid")).decode(), "  " + text(cube()).decode(),
])  # fmt: skip
def test_a_file_comes_as_bytes_as_text_or_as_base64(given):
    assert len(MESH.read(given).value) == 12


@pytest.mark.parametrize(("given", "said"), [
    ({"upload": "a.stl"}, "the request came without the file “a.stl”. Send its bytes under that name."),
    ({"upload": 1, "more": 2}, "this isn't a file. Send a file, .stl or .3mf."),
    (7, "this isn't a file. Send a file, .stl or .3mf."),
    ("C:/pattern.stl", "this text is neither a file nor the base64 of one. Send a file, .stl or .3mf."),
    ("žluťoučký", "this text is neither a file nor the base64 of one. Send a file, .stl or .3mf."),
    ("solid", "this text is neither a file nor the base64 of one. Send a file, .stl or .3mf."),
    (b"few", "3 bytes are too few for a shape. Send the whole file, as STL or 3MF."),
])  # fmt: skip
def test_anything_but_a_file_is_refused_in_words(given, said):
    with pytest.raises(InputError) as refused:
        MESH.read(given)
    assert str(refused.value) == LABEL + said


def called(inputs, **uploads):
    return json.loads(facade.call(json.dumps({"job": "pattern", "inputs": inputs}), uploads))


def test_an_upload_comes_with_the_request():
    answer = called({"mesh": {"upload": "thing"}}, thing=binary(cube()))
    assert answer["result"]["volume_cm3"] == pytest.approx(1)
    assert answer["result"]["closed"] is True
    assert called({"mesh": {"upload": "thing"}}, other=b"")["problems"][0]["word"] == "mesh"


def test_a_wrong_file_is_reported_with_all_other_problems():
    answer = called({"mesh": {"upload": "thing"}, "scale": -1, "metal": "cheese"}, thing=b"few")
    assert [problem["word"] for problem in answer["problems"]] == ["mesh", "metal", "scale"]
    assert answer["problems"][0]["given"] == "3 bytes"


def test_uploads_that_are_too_large_are_refused_in_words(monkeypatch):
    monkeypatch.setattr(facade, "LONGEST_UPLOAD", 100)
    assert (
        "larger than 100 bytes" in called({"mesh": {"upload": "thing"}}, thing=binary(cube()))["problems"][0]["message"]
    )


def test_a_flag_is_shown_as_yes_or_no():
    assert [WORDS["closed"].show(value) for value in (True, False)] == ["yes", "no"]
    assert [MESH.show(value) for value in (None, object())] == ["nothing", "the file as sent"]


def test_an_upload_is_described_with_the_endings_of_its_files():
    described = json.loads(facade.call('{"job": "describe"}'))["words"]["mesh"]
    assert (described["kind"], described["endings"]) == ("upload", [".stl", ".3mf"])
