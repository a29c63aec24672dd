"""The list of all that the site ships, for programs: CycloneDX 1.6 as JSON, without a time, so that two builds give the same bytes."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from shipped import Part

NAME = "sbom.cdx.json"


def write(out: Path, parts: Sequence[Part]) -> None:
    """Write the list to its fixed address. The first part is the site itself, of which the others are components."""
    (out / NAME).write_text(json.dumps(listed(parts), indent=1) + "\n", encoding="utf-8")


def listed(parts: Sequence[Part]) -> dict[str, Any]:
    """The list as plain data."""
    site, *others = parts
    whole = {**component(site), "type": "application"}
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": {"component": whole},
        "components": [component(part) for part in others],
        "dependencies": depends(parts),
    }


def component(part: Part) -> dict[str, Any]:
    """One part."""
    facts: dict[str, Any] = {"type": "library", "bom-ref": reference(part), "name": part.name}
    if part.version:
        facts["version"] = part.version
    if part.hashes:
        facts["hashes"] = [{"alg": name, "content": value} for name, value in part.hashes.items()]
    facts["licenses"] = [licence(part.licence)]
    if part.purl:
        facts["purl"] = part.purl
    return facts


def licence(words: str) -> dict[str, Any]:
    """A licence by its SPDX name, an expression of several, or the name of what has none."""
    if " " in words:
        return {"expression": words}
    own = words.startswith("LicenseRef-")
    return {"license": {"name": words.removeprefix("LicenseRef-")} if own else {"id": words}}


def depends(parts: Sequence[Part]) -> list[dict[str, Any]]:
    """Which part brings which."""
    by_name = {part.name.casefold(): part for part in parts}
    brought: dict[str, list[str]] = {reference(part): [] for part in parts}
    for part in parts[1:]:
        brought[reference(by_name.get(part.within.casefold(), parts[0]))].append(reference(part))
    return [{"ref": ref, "dependsOn": others} for ref, others in brought.items()]


def reference(part: Part) -> str:
    """A name for a part that no other has."""
    return re.sub(r"\W+", "-", f"{part.within} {part.name}").strip("-").lower()
