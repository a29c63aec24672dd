"""The job *shopping*: how many bags to buy, what they cost, and what is left."""

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
    group="casting",
    form=ShoppingForm,
    resolve=as_given,
    run=run,
    tell=tell,
    answers=("sand_bags", "clay_bags", "cost", "cost_per_kg", "sand_left_kg", "clay_left_kg"),
    needs=needs,
    example={
        "sand_kg": "40.3 kg",
        "clay_kg": "3.62 kg",
        "sand_bag_kg": "25 kg",
        "clay_bag_kg": "10 kg",
        "sand_bag_price": "7.20",
        "clay_bag_price": "16",
        "make_kg": "45 kg",
    },
    story="Forty-five kilograms of moulding sand for the hall, from 25 kg sacks and a 10 kg bag.",
)
