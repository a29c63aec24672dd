"""The jobs whose pages the browser tests visit one by one; the pages of the book and of the pattern have their own tests."""

from sandmix.jobs import ORDER

JOBS = tuple(job for job in ORDER if job not in ("heap", "pattern"))
OF_THE_BOOK = ("learned", "readings")
"""The jobs that need nothing but the heap book: their forms have no box to type into."""
