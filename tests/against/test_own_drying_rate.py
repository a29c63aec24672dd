"""The learned drying rate compared with a published update and with simulated heaps.

Sources, how printed, how sure.
- Update of a normal prior by a normal reading, 3.4 ± 0.5 and 4.0 ± 0.3: 3.84118 ± 0.257248, weight of the reading 0.735294 (derived,
  textbook formula); here of logarithms.
- 2,000 layers that dry at their own rate, drawn by Python's generator with a fixed seed: the printed range holds the true rate 93 to 97 times in
  100 (the aim of the project).
"""

import math
import random

from against.published import Checks

from sandmix.drying.evaporation import Bed, drying_law, most_kg_m2
from sandmix.drying.moist_air import Air
from sandmix.drying.own_rate import UNEVEN, learned

LAYERS = 2000
RATE = Checks("own_rate", source="normal_update", sure="derived")
SCALE_KG = 0.07
"""± of a loss, 19 times in 20."""


def test_the_update_is_that_of_the_textbook():
    weighing = math.exp(1.96 * math.sqrt(0.3**2 - UNEVEN**2))
    read_s = math.exp(4.0)
    prior = math.exp(3.4)
    found = learned(
        prior, (prior / math.exp(0.98), prior * math.exp(0.98)), (read_s / weighing, read_s, read_s * weighing), 1.0
    )
    spread = math.log(found.band[1] / found.rate) / 1.96
    RATE.figure(math.log(found.rate), "3.84118", "3.4 ± 0.5 read as 4.0 ± 0.3, in logarithms")
    RATE.figure(spread, "0.257248", "its standard deviation")
    RATE.figure(1 - found.prior_share, "0.735294", "weight of the reading")


def test_the_range_holds_the_true_rate_19_times_in_20():
    draw = random.Random(20260801)
    bed = Bed(depth_m=0.03, moisture=0.05)
    law = drying_law(Air(temp_c=20.0, humidity_pct=60.0, wind_m_s=1.0), bed)
    held = 0
    for _ in range(LAYERS):
        true = math.exp(draw.gauss(0.0, math.log(2) / 1.96))
        took_s = draw.uniform(0.1, 0.5) * law.seconds_to_lose(0.6 * most_kg_m2(bed), bed) / true
        lost = law.times(true * math.exp(draw.gauss(0.0, UNEVEN))).lost_kg_m2(took_s, bed)
        read = max(0.02, lost + draw.gauss(0.0, SCALE_KG / 1.96))
        ends = [law.seconds_to_lose(loss, bed) for loss in (max(read / 4, read - SCALE_KG), read, read + SCALE_KG)]
        low, high = learned(1.0, (0.5, 2.0), (ends[0], ends[1], ends[2]), took_s).band
        held += low <= true <= high
    drawn = RATE.but(sure="drawn", claimed="project")
    drawn.between(100 * held / LAYERS, "93", "97", "2000 simulated layers whose true rate is in the range", unit="%")
