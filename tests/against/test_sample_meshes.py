"""Public sample shapes, read as a person's files are, against a general-purpose library.

Source: the samples in the tests of numpy-stl 3.1.2 (BSD licence), as its source package on PyPI carries them; fetched, not kept here.
Computed by: trimesh, on the facets as they stand. Tolerance: 1e-6 of the figure, for coordinates of 32 bits.
Where trimesh takes a file as it is and the file is at fault, the expected value is hand arithmetic, and the row says so.
"""

import io
import json
import subprocess
import sys
import tarfile
from pathlib import Path

import numpy as np
import pytest
import trimesh

from sandmix.doors.facade import call

SAMPLES = Path(__file__).resolve().parents[1] / "samples.txt"
READ_ALIKE = [
    "stl_ascii/Cube.stl",
    "stl_ascii/HalfDonut.stl",
    "stl_ascii/Moon.stl",
    "stl_ascii/Moon_Chinese.stl",
    "stl_ascii/Star.stl",
    "stl_binary/Cube.stl",
    "stl_binary/CubeInvalidUnicode.stl",
    "stl_binary/Moon.stl",
    "stl_binary/Star.stl",
    "stl_binary/StarWithEmptyHeader.stl",
    "stl_binary/rear_case.stl",
    "stl_tests/bwb.stl",
    "stl_tests/dos.stl",
    "stl_tests/unix.stl",
]


@pytest.fixture(scope="module")
def samples(tmp_path_factory):
    """The sample files by their place among that package's tests."""
    folder = tmp_path_factory.mktemp("samples")
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-binary", ":all:"]
    command += ["--require-hashes", "--requirement", str(SAMPLES), "--dest", str(folder)]
    fetched = subprocess.run(command, capture_output=True, text=True, check=False)
    if fetched.returncode:
        pytest.skip(f"the samples could not be fetched: {fetched.stderr.strip()[-200:]}")
    with tarfile.open(next(folder.glob("*.tar.gz"))) as package:
        return {
            member.name.partition("/tests/")[2]: package.extractfile(member).read()
            for member in package
            if member.name.lower().endswith((".stl", ".3mf"))
        }


def measured(data):
    return json.loads(
        call(json.dumps({"job": "pattern", "inputs": {"mesh": {"upload": "m"}, "unit": "mm"}}), {"m": data})
    )


@pytest.mark.parametrize("name", READ_ALIKE)
def test_a_sample_measures_what_the_library_says(samples, name):
    shape = trimesh.load(io.BytesIO(samples[name]), file_type="stl", force="mesh")
    result = measured(samples[name])["result"]
    assert shape.is_watertight and result["closed"] is True
    assert result["volume_cm3"] == pytest.approx(shape.volume / 1000, rel=1e-6)
    assert result["area_cm2"] == pytest.approx(shape.area / 100, rel=1e-6)
    assert sorted(result["box_mm"]) == pytest.approx(sorted(np.ptp(shape.bounds, axis=0)), rel=1e-6)


def test_a_file_with_a_byte_too_many_reads_as_its_other_form(samples):
    """trimesh reads no facet of this one; its own text form holds the same shape to six figures."""
    binary, text = measured(samples["stl_binary/HalfDonut.stl"]), measured(samples["stl_ascii/HalfDonut.stl"])
    assert binary["result"]["volume_cm3"] == pytest.approx(text["result"]["volume_cm3"], rel=1e-6)
    assert "1 bytes stand after the last" in " ".join(binary["remarks"])


def test_a_shape_with_facets_the_wrong_way_round_is_turned(samples):
    """A corner cut off a cube, three legs of 4 mm: 4³/6 = 10.667 mm³; trimesh counts its turned facets against it."""
    answer = measured(samples["stl_tests/triamid.stl"])
    assert answer["result"]["box_mm"] == pytest.approx([4, 4, 4])
    assert answer["result"]["volume_cm3"] == pytest.approx(4**3 / 6 / 1000, rel=1e-6)
    assert "faced the other way than their neighbours" in " ".join(answer["remarks"])


def test_two_things_of_a_3mf_are_read_with_its_own_unit(samples):
    answer = measured(samples["3mf/Moon.3mf"])
    assert answer["result"]["closed"] is True and answer["result"]["shells"] == 2
    assert "its unit is the millimeter" in " ".join(answer["remarks"])
