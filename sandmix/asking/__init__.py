"""Forms, cautions, what a job is, and how its answer is put together."""
