"""The jobs whose pages the browser tests go through one by one; those of the book and of the pattern have tests of their own."""

from sandmix.jobs import ORDER

JOBS = tuple(job for job in ORDER if job not in ("heap", "pattern"))
