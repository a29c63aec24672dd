"""The pages about Python and the command line: all functions, options and chapters, and examples that are what they say."""

from __future__ import annotations

import ast
from html import unescape

import pytest

import draw_library
import offline
import sandmix
from docstring_examples import fenced
from sandmix.asking.form import asks
from sandmix.doors.commands import options_for
from sandmix.doors.spelling import keywords_of
from sandmix.jobs import JOBS


@pytest.mark.parametrize("job", JOBS)
def test_the_call_of_a_job_is_its_worked_example(job: str) -> None:
    assert draw_library.call_of(job) in unescape(draw_library.functions())
    call = ast.parse(draw_library.call_of(job), mode="eval").body
    assert isinstance(call, ast.Call)
    words = keywords_of(asks(JOBS[job].form))
    given = {words[str(part.arg)]: ast.literal_eval(part.value) for part in call.keywords}
    assert (ast.unparse(call.func), given) == (f"sandmix.ask.{job}", dict(JOBS[job].example))


@pytest.mark.parametrize("job", [pytest.param(job, marks=pytest.mark.full) for job in JOBS if job != "mix"] + ["mix"])
def test_the_call_of_a_job_is_answered(job: str) -> None:
    assert eval(draw_library.call_of(job), {"sandmix": sandmix}).job == job


def test_every_option_of_every_command_is_on_the_page() -> None:
    html = unescape(draw_library.commands())
    missing = [
        (job.name, spelling)
        for job in JOBS.values()
        for option in options_for(job)
        for spelling in option.spellings
        if spelling not in html[html.index(f'id="{job.name}"') :].partition("</details>")[0]
    ]
    assert missing == []


def test_a_chapter_has_all_its_files_and_what_it_is_for() -> None:
    page = draw_library.page_of("recipes")
    assert "What to weigh in, and where a habit leads." in page
    assert "::: sandmix.recipes.temper\n" in page
    assert page.count(":::") == len(draw_library.chapters()["recipes"][0])
    assert 'href="../library/recipes/"' in draw_library.chapter_list()
    assert f"{draw_library.FOLDER}" in offline.FOLDERS_LEFT_OUT


def test_examples_are_fenced_and_text_is_not() -> None:
    docstring = "Twice.\n\n>>> for each in (1, 2):\n...     each\n1\n2\n\nEnd: 2 > 1."
    code = "```python\n>>> for each in (1, 2):\n...     each\n1\n2\n```"
    assert fenced(docstring) == f"Twice.\n\n{code}\n\nEnd: 2 > 1."
