"""Make-up, and the steady state of a habit.

Source: mass balance (derived): 8 %, 0.02, 0.03 gives 0.3952 per 100 of dry heap, exact.
Basis: live clay of the dry mass; n counts the make-up itself; a cast burns first and replaces afterwards.
By hand: c (b + n − b n) = 8 × 0.0494. Dead clay in the end (1 − n) f b c / n; without make-up
c_k = c_0 [(1 − b)(1 − n)]^k.
"""

from against.published import Checks

STEADY = Checks("habit", source="mass_balance", sure="derived", claimed="arithmetic")
OF_DRY = "% of the dry mass"
HABIT = {"clay_pct_dry": 8, "clay_burnt_share": 0.02, "new_sand_share": 0.03}


def test_make_up(result):
    found = result("forecast", **HABIT)["make_up_pct"]
    STEADY.figure(found, "0.3952", "clay to put back: 8 %, 2 % burnt, 3 % replaced", unit=OF_DRY, share=1e-12)


def test_dead_clay_is_steady_where_replacement_removes_what_burns(result):
    """0.97 × 1 × 0.02 × 8 / 0.03 = 0.1552 / 0.03 = 5.17333; half of it where half of the burnt clay stays."""
    for kept, printed in ((1, "5.173333"), (0.5, "2.586667")):
        found = result("forecast", **HABIT, burnt_kept_share=kept)["steady_dead_clay_pct_dry"]
        STEADY.figure(
            found, printed, f"dead clay in the long run, {kept} of the burnt clay stays", unit=OF_DRY, within=1e-6
        )


def test_the_first_two_casts(result):
    """0.97 × 0.16 = 0.1552; 0.97 × (0.1552 + 0.16) = 0.305744."""
    answer = result("forecast", **HABIT, burnt_kept_share=1, casts=2)
    found = answer["dead_clay_pct_dry"]
    STEADY.figure(found, "0.1552, 0.305744", "dead clay after the first two casts", unit=OF_DRY, share=1e-12)
    assert answer["clay_pct_dry"] == [8, 8]


def test_without_make_up_clay_falls_by_the_same_share_each_cast(result):
    """0.98 × 0.97 = 0.9506; 8 × 0.9506 = 7.6048; × 0.9506 = 7.22912288."""
    answer = result("forecast", **HABIT, make_up="no", casts=2)
    found = answer["clay_pct_dry"]
    STEADY.figure(found, "7.6048, 7.22912288", "live clay after two casts without make-up", unit=OF_DRY, share=1e-12)
