"""The job *shopping*, by hand arithmetic from the definitions of its words, and its remarks."""

import pytest


def remarks_of(answer):
    return " ".join(answer["remarks"])


def test_whole_bags_leftovers_and_cost(ask):
    """53.6 / 20 = 2.68: 3 bags, 6.4 left; 4.2 / 5: 1 bag, 0.8 left; 3 * 6 + 10 = 28."""
    result = ask(
        "shopping", sand_kg=53.6, sand_bag_kg=20, sand_bag_price=6, clay_kg=4.2, clay_bag_kg=5, clay_bag_price=10
    )["result"]
    assert result == {
        "sand_bags": 3,
        "clay_bags": 1,
        "cost": pytest.approx(28),
        "cost_per_kg": pytest.approx(28 / 57.8),
        "sand_left_kg": pytest.approx(6.4),
        "clay_left_kg": pytest.approx(0.8),
    }


def test_little_left_is_remarked_but_adds_no_bag(ask):
    answer = ask("shopping", sand_kg=59.9, sand_bag_kg=20, clay_kg=4.9, clay_bag_kg=5)
    assert (answer["result"]["sand_bags"], answer["result"]["clay_bags"]) == (3, 1)
    assert remarks_of(answer).count("Consider one more bag") == 2


def test_enough_left_is_not_remarked(ask):
    assert "one more bag" not in remarks_of(ask("shopping", sand_kg=45, sand_bag_kg=20, clay_kg=3, clay_bag_kg=5))


def test_only_the_missing_price_is_named(ask):
    answer = ask("shopping", sand_kg=53.6, sand_bag_kg=20)
    remark = next(remark for remark in answer["remarks"] if "cost" in remark)
    assert "price of a bag of sand" in remark
    assert "bag of clay" not in remark.split("To get ")[1]


def test_without_all_prices_and_bags_there_is_no_cost(ask):
    assert (
        "cost" not in ask("shopping", sand_kg=50, sand_bag_kg=20, sand_bag_price=5, clay_kg=3, clay_bag_kg=5)["result"]
    )
    assert "cost" not in ask("shopping", sand_kg=50, sand_bag_kg=20, sand_bag_price=5, clay_kg=3)["result"]


def test_zero_kilograms_cost_nothing(ask):
    result = ask("shopping", sand_kg=0, sand_bag_kg=20, clay_kg=0, clay_bag_kg=5)["result"]
    assert (result["sand_bags"], result["clay_bags"], result["cost"]) == (0, 0, 0)
    assert "cost_per_kg" not in result


def test_clay_alone_leads_with_clay(ask):
    answer = ask("shopping", clay_kg=4, clay_bag_kg=5, clay_bag_price=11, make_kg=50)
    assert answer["lead"]["word"] == "clay_bags"
    assert answer["result"]["cost_per_kg"] == pytest.approx(11 / 50)


def test_bags_that_are_used_up_leave_no_stock(ask):
    remarks = " ".join(ask("shopping", clay_kg=20, clay_bag_kg=10, sand_kg=50, sand_bag_kg=25)["remarks"])
    assert "No clay would be left" in remarks
    assert "No sand would be left" in remarks
    assert "Only 1 kg of clay would be left" in " ".join(ask("shopping", clay_kg=19, clay_bag_kg=10)["remarks"])


def to_mix(answer):
    return [step["inputs"] for step in answer["next"] if step["job"] == "mix"]


def test_what_is_bought_goes_on_to_the_mix(ask):
    """3.6 of 43.6 kg is 8.3 %, a usual share of clay; 0.8 of 1.5 kg is not: that clay is for a heap."""
    bags = {"sand_bag_kg": 25, "clay_bag_kg": 10}
    assert to_mix(ask("shopping", sand_kg=40, clay_kg=3.6, **bags, make_kg=45)) == [{"make_kg": "45 kg"}]
    on_hand = {"sand_on_hand_kg": "40 kg", "clay_on_hand_kg": "3.6 kg"}
    assert to_mix(ask("shopping", sand_kg=40, clay_kg=3.6, **bags)) == [on_hand]
    assert to_mix(ask("shopping", sand_kg=0.7, clay_kg=0.8, **bags)) == [{}]
    assert to_mix(ask("shopping", sand_kg=40, sand_bag_kg=25)) == [{}]
