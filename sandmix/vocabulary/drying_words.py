"""The words of “Dry the sand”: the air, the place, the layer, and what comes of them."""

from __future__ import annotations

from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_IT_LIES, SCALE, SCALE_NOTE

LONGEST_MIN = 90 * 24 * 60.0
"""90 days: air that takes longer hardly dries the sand."""
PLACES = {
    "shade": "outdoors, in the shade",
    "sun": "outdoors, in the sun",
    "indoors": "indoors",
    "plate": "on a warm plate",
    "burner": "in a pan over a burner, outdoors",
}

_kg = quantities("kg", AS_IT_LIES, low=0.0, high=5000.0, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance")
_temp = quantities("°C", low=-20.0, digits=0, step=1.0, units=("°C", "°F"), source="own")
_min = quantities("min", low=0.0, high=LONGEST_MIN, digits=0, units=("min", "h", "day"), by_factor=True, source="evaporation")

CHAPTER: tuple[Word, ...] = (
    Choice(name="drying_place", label="Where it dries", choices=PLACES, default="shade", help="Sets the wind and the sun where you enter neither, and what to take care of.", source="own"),
    _temp("air_temp_c", "Air temperature", high=60.0, usual=(0.0, 40.0), default=18.0, error=Error(absolute=1.0, assumed=5.0), error_note="± 5 where assumed, ± 1 where read", help="The mean of the hours in which it dries, in the shade."),
    Quantity(name="humidity_pct", label="Humidity of the air", unit="%", basis="relative", low=0.0, high=100.0, usual=(20.0, 95.0), default=60.0, digits=0, step=5.0, units=("%",), error=Error(absolute=5.0, assumed=15.0), error_note="± 15 points where assumed, ± 5 where read",
             help="From the weather report or a hygrometer. Outdoors often 40 to 60 % by day and 80 to 95 % by night (from memory).", source="memory"),
    Quantity(name="wind_m_s", label="Wind over the sand", unit="m/s", basis="at the layer", low=0.0, high=30.0, usual=(0.0, 5.0), typical=1.0, digits=1, step=0.5, units=("m/s", "km/h", "mph"), error=Error(absolute=0.3, relative=0.3), error_note="± 0.3 and 30 %",
             help="0 is still air, 1 moves smoke, 3 moves leaves (from memory). Leave empty for 1 outdoors and 0 indoors.", source="memory"),
    _temp("below_temp_c", "Temperature under the sand", high=95.0, typical=15.0, error=Error(absolute=3.0), error_note="± 3", help="Of the floor, the table or the warm plate. Leave empty for that of the air, and 60 °C for a plate."),
    Quantity(name="spread_m2", label="Area to spread it on", unit="m²", basis="covered with sand", low=0.01, high=1000.0, usual=(0.2, 20.0), typical=2.0, digits=2, step=0.5, units=("m²", "cm²", "ft²"), error=Error(relative=0.05), error_note="± 5 %",
             help="Of a tarpaulin, a board or a tray. Enter the area or the layer, not both.", source="geometry"),
    Quantity(name="layer_mm", label="Depth of the layer", unit="mm", basis="raked level", low=1.0, high=500.0, usual=(5.0, 100.0), typical=30.0, digits=0, step=5.0, units=("mm", "cm", "in"), error=Error(relative=0.15), error_note="± 15 %: raked by eye",
             help="A layer half as deep dries in about a quarter of the time. Leave empty for 30 mm, or enter the area.", source="geometry"),
    Quantity(name="spread_density_kg_l", label="Density of the spread sand", unit="kg/L", basis="raked out, with its water", low=0.6, high=2.0, usual=(0.8, 1.5), default=1.15, digits=2, step=0.05, units=("kg/L", "lb/ft³"),
             help="Weigh a bucket filled as loosely as the layer lies. How far it may be off is part of the factor of 2.", source="own"),
    Quantity(name="drying_rate", label="Your sand dries so many times as fast", unit="", basis="as computed here", low=0.05, high=20.0, usual=(0.3, 3.0), default=1.0, digits=2, step=0.1, error=Error(relative=0.2, assumed=1.0),
             error_note="a factor of 2 each way where assumed, ± 20 % where timed", help="Time it once: the hours computed, divided by the hours that it took.", source="own"),
    Quantity(name="dried_for_h", label="Dried for so far", unit="h", basis="of such air", low=0.1, high=2000.0, usual=(0.5, 200.0), digits=1, step=0.5, units=("h", "min", "day"), source="own",
             help="With what it lost: the answer then learns how fast your sand dries, and says how long is left."),
    _kg("lost_so_far_kg", "Lost so far", "water, since it was spread", step=0.1, typical=0.5, error=Error(absolute=0.07), error_note="± 0.07 kg: two weighings on one luggage scale", help="The weight at the start less the weight now. Leave the mass and the moisture above as they were at the start."),
    Quantity(name="ready_in_h", label="Ready in", unit="h", basis="of drying, from now", low=0.1, high=10000.0, usual=(1.0, 200.0), digits=1, step=1.0, units=("h", "min", "day"), source="own",
             help="The hours in which it can dry. The answer then says how much dry mix to add so that it is ready."),
    _kg("container_kg", "Empty container", "what the sand is weighed in", high=500.0, step=0.5, typical=4.0, error=SCALE, error_note=SCALE_NOTE, help="The weight to stop at is then what the scale shows, container included."),
    _kg("dry_mix_on_hand_kg", "Dry mix on hand", "bone dry, composed as the heap", help="Dry sand and clay that you can mix in. The answer then says how long the rest dries."),
    _kg("full_container_kg", "Weight to stop at, with the container", "sand and container", rounds_like="water_to_lose_kg", help="When the scale shows it, the sand is dry enough."),
    _min("drying_min", "Time to dry", "in such air, turned as often as given here", help="Hours without such air do not count, such as a damp night. The weight decides, not the clock."),
    _min("left_min", "Time left", "in such air", help="From the loss so far: the first guess and your weighing together."),
    Quantity(name="turns", label="Times to turn it", unit="", basis="in all", low=0, high=100, digits=0, help="As often as each turn still saves an hour.", source="own"),
    _min("turn_every_min", "Turn it about every", "in such air", help="Drying slows down as the top dries. Turning brings damp sand up again."),
    _kg("dry_out_kg", "Part to dry out fully", help="Bone dry and mixed back, it brings the whole heap to the target."),
    Quantity(name="burner_mj", label="Heat to dry it", unit="MJ", basis="in the sand and its water", low=0.0, high=1e6, digits=1, units=("MJ", "kWh"), help="2.6 MJ for each kg of water, and the sand itself. An open burner needs two to three times as much (from memory).", source="heat_to_dry"),
    _kg("dry_mix_in_time_kg", "Dry mix to be ready in time", "bone dry, composed as the heap", help="Dry for as long as you have, then mix this in."),
    _min("mixed_min", "Time to dry with your dry mix", "in such air, from now", help="Dry it for so long, then mix in the dry mix that you have."),
)
