"""The jobs whose pages the browser tests go through one by one; those of the book and of the pattern have tests of their own."""

JOBS = (
    "mix",
    "temper",
    "fit",
    "flask",
    "pour",
    "burnout",
    "rebond",
    "shopping",
    "forecast",
    "blend",
    "fineness",
    "match",
    "choose",
    "bench",
    "estimate",
    "diagnose",
)
