"""Take the text of all pages out of what every page fetches for its search, and say where the theme's own search is."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

INDEX = "search_index.json"
"""What the theme fetches on every page."""
PAGES = "pages.json"
"""What `search-worker.js` fetches at the first question."""


def part(out: Path) -> None:
    """Leave only the settings in the index of the built site, and write the text of all pages beside it."""
    folder = out / "search"
    index = json.loads((folder / INDEX).read_text("utf-8"))
    [worker] = out.glob("assets/javascripts/workers/search.*.js")
    pages = {"worker": f"../{worker.relative_to(out).as_posix()}", "docs": index["docs"]}
    (folder / PAGES).write_text(json.dumps(pages, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
    index["docs"] = []
    (folder / INDEX).write_text(json.dumps(index, separators=(",", ":")), encoding="utf-8")
