"""All signs of trouble: in the hand, in the mould, during the pour and in the casting."""

from __future__ import annotations

from sandmix.defects.casting_signs import CASTING_SIGNS
from sandmix.defects.mould_signs import MOULD_SIGNS

SYMPTOMS = {row.key: row for row in (*MOULD_SIGNS, *CASTING_SIGNS)}
"""The signs, by key."""
HOLES = frozenset(
    {
        "pin_holes",
        "blows",
        "hole_under_skin",
        "hole_in_thick",
        "hole_all_through",
        "hole_near_gate",
        "wall_smooth",
        "wall_rough",
        "wall_film",
    }
)
"""The signs of somebody who has seen a hole, so that its wall and place can be looked at."""
TEARS = frozenset({"torn_casting", "ragged_tear"})
"""The signs of somebody who has seen a crack, so that its faces can be looked at."""
