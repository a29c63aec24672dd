"""What people often get wrong, each in a line: what they say, and the number that shows what is so.

The markers are those of `draw_handbook.py`. A number without one is from the source that the line cites.
"""

from __future__ import annotations

from collections.abc import Mapping

MISTAKES: Mapping[str, tuple[str, str]] = {
    # choosing
    "any_bag": (
        "Any bag of sand will make a mould.",
        "A bag of sand mix is {{ state mortar_mix }}: it contains cement.",
    ),
    "mesh": (
        "A mesh number is a fineness number.",
        (
            "Mesh names one sieve. Sieve 70 holds more of the hall's sand than any other, and its fineness number is "
            "{{ figure hall_grain gfn }}."
        ),
    ),
    "all_clay_alike": (
        "Bentonite is bentonite.",
        (
            "Sodium bentonite bonds up to 638 °C, calcium bentonite up to 316 °C {{ cite vingas_zrimsek_1964 }}: "
            "the second is {{ state calcium_clay }}."
        ),
    ),
    "finer_better": (
        "The finer the sand, the better the casting.",
        (
            "The face is smoother, but gas leaves less easily, and clay has more to coat: "
            "{{ figure fine_grain surface_cm2_g }} of surface instead of {{ figure hall_grain surface_cm2_g }}."
        ),
    ),
    # mixing
    "more_clay": (
        "More clay is always better.",
        (
            "With {{ given much_clay clay_pct_dry }} instead of {{ given usual_clay clay_pct_dry }} of clay, a heap of "
            "{{ given much_clay make_kg }} takes {{ figure much_clay water_kg }} of water instead of "
            "{{ figure usual_clay water_kg }}: more steam, and less room for it to leave."
        ),
    ),
    "one_percent": (
        "Nine buckets to one is ten percent clay.",
        (
            "By mass it is {{ figure by_buckets clay_pct_dry }} of the dry mix, because loose clay is lighter than "
            "loose sand."
        ),
    ),
    "play_sand": (
        "Sand from a bag is dry.",
        (
            "Play sand at {{ given damp_bag sand_moisture_pct_wet }} brings so much water that "
            "{{ figure damp_bag water_to_lose_kg }} must go first."
        ),
    ),
    "all_at_once": (
        "Put all the water in, then mull.",
        (
            "First {{ figure first_heap first_water_kg }} of {{ figure first_heap water_kg }}: you cannot take water "
            "out again."
        ),
    ),
    "two_moistures": (
        "Moisture is moisture.",
        (
            "{{ figure first_heap moisture_pct_wet }} of the wet mass (foundry) is "
            "{{ figure first_heap moisture_pct_dry }} of the dry mass (soil science)."
        ),
    ),
    # tempering
    "wetter_stronger": (
        "Wetter sand is stronger.",
        (
            "At {{ given wet_chest moisture_pct_wet }} the word is {{ state wet_chest }}: "
            "{{ figure wet_chest water_to_lose_kg }} of water must go before anybody pours on it."
        ),
    ),
    "small_sample": (
        "A small sample is enough.",
        (
            "On a scale that shows 1 g, 100 g of sand gives {{ likely small_sample moisture_pct_wet }}, and 500 g "
            "gives {{ likely large_sample moisture_pct_wet }}."
        ),
    ),
    "squeeze_is_a_test": (
        "I can feel how wet it is.",
        (
            "A handful that shows finger prints may hold {{ likely handful moisture_pct_wet }}, until your own tests "
            "narrow it."
        ),
    ),
    "dilute_quickly": (
        "Wet sand is soon mended with dry sand.",
        (
            "From {{ given wet_chest moisture_pct_wet }}, a heap of {{ given wet_chest heap_kg }} takes "
            "{{ figure wet_chest dry_mix_to_dilute_kg }} of dry mix."
        ),
    ),
    # ramming
    "litre_for_litre": (
        "An 18 litre flask takes 18 litres of sand.",
        "A flask of {{ figure wide_flask flask_l }} takes {{ figure wide_flask loose_l }} of loose sand.",
    ),
    "one_can_lift_it": (
        "It is only a box of sand.",
        "Both halves of the wide flask hold {{ figure wide_flask both_kg }} of sand, without the wood.",
    ),
    # venting
    "sand_breathes": (
        "Sand lets gas through, so vents are for large castings.",
        (
            "Even four coat hooks boil {{ figure hooks_opened water_driven_kg }} of water out of the sand: prick "
            "about {{ figure hooks_poured vents }} vents."
        ),
    ),
    # gating
    "narrow_is_gentle": (
        "A narrow gate lets the metal in gently.",
        (
            "With gates no larger than the sprue it shoots in at {{ figure narrow_gates gate_speed_m_s }}; with wide "
            "ones it flows at {{ figure hooks_gated gate_speed_m_s }}. Its skin breaks above "
            "{{ figure hooks_gated speed_limit_m_s }}."
        ),
    ),
    "every_casting": (
        "Every casting needs a riser.",
        (
            "The door pull's plate shrinks by {{ figure plate_fed shrinkage_cm3 }}; its riser would take "
            "{{ figure plate_fed riser_made_kg }} of metal and helps little."
        ),
    ),
    # pouring
    "aluminium_is_light": (
        "Aluminium is too light to lift the cope.",
        "Under four coat hooks it pushes up with {{ figure hooks_poured uplift_kg }}.",
    ),
    "weights_early": (
        "Put the weights on as soon as the mould is closed.",
        "They crush the sand. Put {{ figure hooks_poured put_on_kg }} on just before you pour.",
    ),
    # opening
    "looks_cold": (
        "It is grey, so it is cold.",
        (
            "The grate bar may be opened after {{ figure bar_opened open_after_min }}. Its middle is below 60 °C only after "
            "{{ figure bar_opened handle_after_min }}, and even then you wear gloves."
        ),
    ),
    "heat_kills_it_all": (
        "Every pour burns the clay.",
        (
            "Four hooks in aluminium burn at most {{ figure hooks_opened clay_loss_pct }} of the heap's live clay, "
            "the iron grate bar at most {{ figure bar_opened clay_loss_pct }}."
        ),
    ),
    # riddling
    "crust_goes_back": (
        "The crust is only sand.",
        (
            "With all of it mixed back, dead clay ends at {{ figure crust_in steady_dead_clay_pct_dry }}; with most "
            "of it picked out, at {{ figure crust_out steady_dead_clay_pct_dry }}."
        ),
    ),
    # restoring
    "only_thirsty": (
        "Weak sand is thirsty sand.",
        "{{ headline water_alone }} Water does not bring clay back.",
    ),
    # storing
    "dries_overnight": (
        "It will be dry tomorrow.",
        (
            "A heap of {{ given dried_out heap_kg }} at {{ given dried_out moisture_pct_wet }} needs "
            "{{ figure dried_out drying_min }} spread out, likely range {{ likely dried_out drying_min }}."
        ),
    ),
}
"""The misunderstandings by key, in the order of the sand's life."""
