"""Take the text of all pages out of what every page fetches for its search."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

INDEX = "search_index.json"
"""What the theme fetches on every page."""
PAGES = "pages.json"
"""What `search-worker.js` fetches at the first question."""


def part(folder: Path) -> None:
    """Leave only the settings in the index, and write the text of all pages beside it."""
    index = json.loads((folder / INDEX).read_text("utf-8"))
    (folder / PAGES).write_text(json.dumps(index["docs"], ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
    index["docs"] = []
    (folder / INDEX).write_text(json.dumps(index, separators=(",", ":")), encoding="utf-8")
