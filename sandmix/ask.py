"""Every job as a function: ``sandmix.ask.temper(heap="25 kg", moisture_pct_wet="2.2 %")``.

The inputs are the words of the job's form, as numbers in the unit of the word or as text with a unit. A word can be written without its
unit, as on the command line: ``heap`` for ``heap_kg``. A job is imported when its function is first used. The types are in ``ask.pyi``.
"""

from __future__ import annotations

from sandmix.jobs import ORDER
from sandmix.python.answered import Answer
from sandmix.python.functions import Function, function

__all__ = ["Answer", *ORDER]


def __getattr__(name: str) -> Function:
    if name in ORDER:
        return function(name)
    raise AttributeError(f"There is no job “{name}”. The jobs are {', '.join(ORDER)}.")


def __dir__() -> list[str]:
    return __all__
