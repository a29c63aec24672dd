"""What must work in every engine: the same steps and the same expected texts, which come from the library itself."""

from __future__ import annotations

import json
import os
import struct
import threading
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from itertools import product
from pathlib import Path
from typing import Any, ClassVar

import pytest
from engines.driving import Tab
from heap_books import ALL, heap_of

from sandmix.doors.facade import call
from server import SiteServer

READY = (
    "() => document.querySelector('html[data-engine=ready]') && document.querySelector('[data-listens], [data-book]')"
)
OFFLINE = "() => document.querySelector('[data-offline-mark][data-offline=ready]')"
SHOWS = """(told) => JSON.stringify(Array.from(document.querySelectorAll("[data-list=shown] tr"), (row) =>
    ["label", "basis", "text", "range"].map((slot) => row.querySelector(`[data-slot=${slot}]`).textContent))) === told"""
PLANNED = """(told) => JSON.stringify(Array.from(document.querySelectorAll("[data-list=casting-steps] > :not([data-before])"), (row) =>
    ["label", "state", "figure"].map((slot) => row.querySelector(`[data-slot=${slot}]`).textContent))) === told"""
CASTING = """() => JSON.parse(Object.entries(localStorage).find(([name]) => name.startsWith("sandmix.casting."))?.[1] ?? "null")"""
HOLDS = "(at, text) => document.querySelector(at)?.textContent.includes(text)"
CORNERS = list(product((0, 40), (0, 30), (0, 20)))
SIDES = (
    (0, 1, 3),
    (0, 3, 2),
    (4, 6, 7),
    (4, 7, 5),
    (0, 4, 5),
    (0, 5, 1),
    (2, 3, 7),
    (2, 7, 6),
    (0, 2, 6),
    (0, 6, 4),
    (1, 5, 7),
    (1, 7, 3),
)
BLOCK = b"block".ljust(80) + struct.pack("<I", len(SIDES)) + b"".join(
    struct.pack("<12x9f2x", *(value for corner in side for value in CORNERS[corner])) for side in SIDES
)  # fmt: skip
"""A block of 40 × 30 × 20 mm as a binary STL: 24 cm³."""


def ask(job: str, inputs: dict[str, Any], uploads: dict[str, bytes] | None = None) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(call(json.dumps({"job": job, "inputs": inputs}), uploads))
    assert answer["ok"], answer
    return answer


def compact(value: Any) -> str:
    """The text that JSON.stringify gives."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def shown(answer: dict[str, Any]) -> str:
    return compact([[row.get(slot) or "" for slot in ("label", "basis", "text", "range")] for row in answer["shown"]])


def planned(plan: dict[str, Any]) -> str:
    """The rows of a casting's sheet: those of its plan, with what to buy before the mixing that it is for."""
    leads = ["{label} {text}".format(**step["lead"]) if "lead" in step else "" for step in plan["steps"]]
    rows = {
        step["job"]: [step["label"], step["state"]["word"], lead]
        for step, lead in zip(plan["steps"], leads, strict=True)
    }
    buying = rows.pop("shopping", None)
    order = [row for job, row in rows.items() for row in ((buying, row) if job == "mix" and buying else (row,))]
    return compact(order)


class Steps:
    """The steps; each engine has a class of its own that says how it is started."""

    start: ClassVar[Callable[[str, Path], AbstractContextManager[Tab]]]
    program: ClassVar[str]

    @pytest.fixture(scope="class")
    @classmethod
    def tab(cls, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tab]:
        if not os.environ.get(cls.program):
            pytest.skip(f"{cls.program} is not set: run this by tests/run.py")
        with cls.start(os.environ[cls.program], tmp_path_factory.mktemp("profile")) as tab:
            yield tab

    @pytest.fixture
    def server(self) -> Iterator[SiteServer]:
        """The site on a port of its own, so that nothing is kept there yet."""
        server = SiteServer(("127.0.0.1", 0), Path(os.environ["SANDMIX_SITE"]))
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server
        server.shutdown()
        server.server_close()

    @pytest.fixture
    def base(self, server: SiteServer) -> str:
        return f"http://127.0.0.1:{server.server_port}/"

    def test_a_job_answers_and_answers_again_without_a_server(self, tab: Tab, server: SiteServer, base: str) -> None:
        tab.go(f"{base}temper/")
        tab.wait(READY)
        typed = {"heap_kg": "55,5", "sample_wet_g": "500", "sample_dry_g": "488,5"}
        for word, text in typed.items():
            tab.type(f"#field-{word}", text)
        tab.wait(SHOWS, shown(ask("temper", typed)))
        tab.wait(OFFLINE)
        server.shutdown()
        server.server_close()
        tab.come_back()
        tab.wait(READY)
        tab.wait(SHOWS, shown(ask("temper", typed)))
        tab.type("#field-heap_kg", "40")
        tab.wait(SHOWS, shown(ask("temper", typed | {"heap_kg": "40"})))

    @pytest.mark.full
    def test_two_answers_begin_a_casting_and_its_sheet_leads_to_a_step(self, tab: Tab, base: str) -> None:
        tab.go(base)
        tab.type("#field-box_mm", "160 x 90 x 30")
        tab.tap("[data-start] [data-submit]")
        casting = tab.wait(CASTING)
        assert casting["figures"] == {"box_mm": {"value": "160 x 90 x 30", "unit": "mm"}}
        plan = ask("plan", {"casting": casting})
        tab.wait(PLANNED, planned(plan))
        tab.come_back()
        tab.wait(PLANNED, planned(plan))
        tab.tap("[data-list=casting-steps] a[href*='flask/']")
        tab.wait(READY)
        tab.wait(HOLDS, "[data-for-casting]", casting["name"])

    @pytest.mark.full
    def test_the_book_keeps_what_was_entered(self, tab: Tab, base: str) -> None:
        tab.go(f"{base}heap/")
        tab.wait("() => document.querySelector('html[data-engine=ready]')")
        tab.tap("[data-deed=begin]")
        tab.tap(".kinds [data-record=measured]")
        tab.type("#field-heap_kg", "25,5")
        tab.type("#field-moisture_pct_wet", "3")
        tab.tap("[data-form-place] [data-submit]")
        tab.wait(HOLDS, "[data-saved]", "Saved.")
        [book] = tab.run(ALL)
        assert [event["kind"] for event in book["events"]] == ["measured"]
        assert book["events"][0]["heap_kg"] == {"value": "25,5", "unit": "kg"}
        tab.come_back()
        for row in heap_of(book)["shown"]:
            if row["word"] in ("heap_kg", "moisture_pct_wet"):
                tab.wait(HOLDS, f"[data-heap] [data-figure={row['word']}] [data-slot=text]", row["text"])

    @pytest.mark.full
    def test_a_shape_from_a_file_is_measured(self, tab: Tab, base: str, tmp_path: Path) -> None:
        file = tmp_path / "block.stl"
        file.write_bytes(BLOCK)
        tab.go(f"{base}pattern/")
        tab.wait(READY)
        tab.choose("[data-upload=mesh]", file)
        answer = ask("pattern", {"mesh": {"upload": "it"}}, {"it": BLOCK})
        assert answer["result"]["volume_cm3"] == pytest.approx(24)
        tab.wait(SHOWS, shown(answer))
