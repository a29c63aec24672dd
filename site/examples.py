"""Answer the example of every job inside Pyodide, by `inside.mjs`; the one argument names the file for the answers.

Two builds of Python for the browser are the same to a page if these files are equal to the byte.
"""

from __future__ import annotations

import json
from pathlib import Path


def main(words: list[str]) -> int:
    """Write the description of the jobs, the answer to each example, and a refusal, one in each line."""
    from sandmix.doors.facade import call

    described = call('{"job": "describe"}')
    examples = ({"job": job["name"], "inputs": job["example"]} for job in json.loads(described)["jobs"])
    answers = [described, *(call(json.dumps(example)) for example in examples), call("not JSON")]
    Path(f"/host{words[0]}").write_text("\n".join(answers), encoding="utf-8")
    return 0
