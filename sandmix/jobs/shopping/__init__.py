"""The job *shopping*: how many bags, what they cost, what is left."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given
from sandmix.jobs.shopping.figures import needs, run
from sandmix.jobs.shopping.form import ShoppingForm
from sandmix.jobs.shopping.telling import tell

JOB = Job(
    name="shopping",
    short="What to buy",
    title="How many bags do I buy?",
    answered_with="whole bags, what they cost, what is left",
    form=ShoppingForm,
    resolve=as_given,
    run=run,
    tell=tell,
    answers=("sand_bags", "clay_bags", "cost", "cost_per_kg", "sand_left_kg", "clay_left_kg"),
    needs=needs,
    example={
        "sand_kg": "53.6 kg",
        "clay_kg": "4.77 kg",
        "sand_bag_kg": "20 kg",
        "clay_bag_kg": "5 kg",
        "sand_bag_price": "6.50",
        "clay_bag_price": "11",
        "make_kg": "60 kg",
    },
    story="Sixty kilograms for a lidded bin, from the shop's 20 kg sacks and 5 kg bags of bentonite.",
)
