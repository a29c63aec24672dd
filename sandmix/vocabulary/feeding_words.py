"""The words of the riser: its kind and size, what it feeds, how far it reaches, and what it costs in metal."""

from __future__ import annotations

from sandmix.feeding.modulus import SIDE, TOP
from sandmix.feeding.riser import CLASSROOM, FREEZING, NECK_RATIO, NONE, RATIO, STEP_MM, VOLUME
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.fit_words import YES_NO
from sandmix.vocabulary.flask_words import cm3
from sandmix.vocabulary.metal_words import cm2

KINDS = {
    SIDE: "beside the casting, joined by a neck",
    TOP: "on top of the casting",
}
DECIDES = {
    FREEZING: "freezing: it must freeze after the casting",
    VOLUME: "volume: it must hold enough metal",
    NONE: "nothing: this metal expands as it freezes",
}
PARTS = {
    "plate": "a wall or plate",
    "bar": "a bar or rib",
    "round_bar": "a round bar",
    "ring": "a ring or rim",
    "block": "a block",
    "boss": "a boss: a round stub on a wall",
}
JOINTS = {
    "l": "a corner: two walls in an L",
    "t": "a wall that ends on another, in a T",
    "x": "two walls that cross",
    "y": "three walls at equal angles, in a Y",
}

_mm = quantities("mm", low=0.0, high=1e6, digits=0, step=5.0, units=("mm", "cm", "in"), source="riser_modulus")
_length = quantities("mm", low=0.0, high=3000.0, digits=0, step=5.0, units=("mm", "cm", "in"), error=Error(absolute=2.0), error_note="± 2 mm", source="geometry")
_cm3 = quantities("cm³", low=0.0, high=1e12, digits=0, units=("cm³", "in³", "L"), source="geometry")
_pct = quantities("%", low=0.0, high=1e12, digits=0, units=("%",), source="geometry")

CHAPTER: tuple[Word, ...] = (
    Choice(name="riser_kind", label="Riser", choices=KINDS, default=SIDE, help="A side riser cools on all its faces. A riser on top does not cool on its base.", source="geometry"),
    Quantity(name="riser_ratio", label="Riser modulus over the casting's", unit="", basis="times the casting's modulus", low=0.5, high=5.0, usual=(1.1, 1.5), default=RATIO, digits=2, step=0.05,
             help="1.2 makes it freeze 44 % later: freezing time grows with the square of the modulus.", source="riser_modulus"),
    Quantity(name="riser_height_share", label="Riser height over its diameter", unit="", basis="height divided by diameter", low=0.25, high=4.0, usual=(0.5, 1.5), typical=1.0, digits=2, step=0.1,
             help="Leave empty for 1 beside the casting and 0.5 on top.", source="geometry"),
    Quantity(name="shrinkage_pct", label="Shrinkage until solid", unit="%", basis="of the casting's volume, liquid and freezing", low=0.0, high=20.0, usual=(0.0, 8.0), digits=1, step=0.5, units=("%",), error=Error(absolute=0.5), error_note="± 0.5 points where given, the range of the metal where assumed",
             help="Leave empty to go by the metal. 0 sizes the riser by freezing alone. The solid's shrinkage does not count.", source="shrinkage_table"),
    Quantity(name="feed_efficiency_pct", label="Metal that a riser can give", unit="%", basis="of its volume", low=1.0, high=95.0, usual=(10.0, 35.0), default=14.0, digits=0, step=1.0, units=("%",), error=Error(absolute=4.0), error_note="± 4 points",
             help="14 % for a plain cylinder, from memory. The shrinkage of casting and riser together comes out of it.", source="feed_efficiency"),
    Choice(name="part", label="The thickest part is", choices=PARTS, help="Its modulus decides: it freezes last.", source="geometry"),
    _length("part_thickness_mm", "Its thickness or diameter", low=0.5, usual=(3.0, 100.0), digits=1, step=1.0, error=Error(relative=0.05), error_note="± 5 %", help="Of a ring, how thick it is from inside to outside."),
    _length("part_width_mm", "Its width or height", low=0.5, usual=(3.0, 200.0), digits=1, step=1.0, error=Error(relative=0.05), error_note="± 5 %", help="The other side of a bar or block, the height of a ring or boss. Not needed for a wall or a round bar."),
    _length("part_length_mm", "Its length", low=0.5, usual=(5.0, 400.0), digits=1, step=1.0, error=Error(relative=0.05), error_note="± 5 %", help="The third side of a block. Not needed for the others."),
    _length("section_mm", "Thickness of the part that is fed", low=0.5, usual=(3.0, 100.0), digits=1, step=1.0, error=Error(relative=0.05), error_note="± 5 %", help="Its wall or bar. Leave empty to take it from the modulus."),
    _length("feed_length_mm", "Farthest point to feed", "from the riser's edge", usual=(20.0, 400.0), help="To compare it with how far a riser feeds."),
    Choice(name="joint", label="Walls meet in", choices=JOINTS, help="Where walls meet, metal is thicker than in the walls. Needs the thickness.", source="geometry"),
    _length("fillet_mm", "Fillet in the corners", "radius", high=500.0, usual=(1.0, 20.0), default=0.0, digits=1, step=1.0, error=Error(absolute=0.5), error_note="± 0.5 mm", help="A larger one makes the joint thicker. 0 for sharp corners."),
    cm2("top_face_cm2", "Flat face under the riser", "of the casting, seen from above", usual=(1.0, 1000.0), help="A riser on top cannot cover more of the casting than that."),
    Choice(name="with_riser", label="Plan with a riser", choices=YES_NO, default="no", help="Yes: the flask, the metal and the time to open count with the riser of each casting.", source="no_riser_first"),
    _mm("riser_modulus_mm", "Modulus of the riser", "volume divided by cooling surface", digits=1, help="The modulus of the casting times the ratio."),
    _mm("riser_diameter_mm", "Riser diameter", "the larger of both demands", digits=1, help="It freezes after the casting and holds enough metal."),
    _mm("riser_height_mm", "Riser height", digits=1, help="The diameter times height over diameter."),
    _cm3("riser_volume_cm3", "Riser volume", "the whole cylinder"),
    Quantity(name="riser_kg", label="Metal in the riser", unit="kg", basis="added to what the mould takes", low=0.0, high=1e9, digits=2, step=0.1, units=("kg", "g", "lb"), help="Its volume times the density of the solid. It comes off the casting and can be melted again.", source="geometry"),
    _cm3("feed_needed_cm3", "Riser volume that the shrinkage asks for", "riser and casting are fed from it", help="Shrinkage × casting / (metal that a riser can give − shrinkage).", source="feed_efficiency"),
    Choice(name="decides", label="What decides the size", choices=DECIDES, help="The demand that asks for the larger riser.", source="riser_modulus"),
    _mm("freezing_diameter_mm", "Diameter to freeze last", digits=1, help="The diameter of the riser with the modulus above."),
    _mm("volume_diameter_mm", "Diameter to hold enough metal", digits=1, help="The diameter of the riser with the volume above.", source="feed_efficiency"),
    _cm3("shrinkage_cm3", "Casting shrinks by", "until it is solid", digits=1, help="What the casting lacks if nothing feeds it.", source="shrinkage_table"),
    _cm3("classroom_cm3", "Riser by the classroom rule", f"{CLASSROOM:g} times the shrinkage", digits=1, help="For comparison: it leaves out what the riser itself shrinks.", source="classroom_riser"),
    _mm("riser_made_mm", "Riser to make: diameter", f"rounded up to {STEP_MM:g} mm", help=f"The diameter rounded up to whole steps of {STEP_MM:g} mm (own rule); on top, with the face that it covers.", source="own"),
    _mm("riser_made_height_mm", "Riser to make: height", "for the rounded diameter", help="The same height over diameter.", source="own"),
    Quantity(name="riser_made_kg", label="Riser to make: metal", unit="kg", basis="added to what the mould takes", low=0.0, high=1e9, digits=2, step=0.1, units=("kg", "g", "lb"), help="For the rounded diameter.", source="own"),
    _mm("neck_mm", "Neck, across", "as a round bar", digits=1, help=f"With {NECK_RATIO:g} times the casting's modulus. A short neck stays hot from both sides and can be thinner; no figure for that was found.", source="neck_order"),
    _mm("neck_least_mm", "Neck, thinnest", "as a round bar", digits=1, help="With the casting's modulus. A thinner one freezes before the casting.", source="neck_order"),
    _mm("neck_most_mm", "Neck, thickest", "as a round bar", digits=1, help="With the riser's modulus. A thicker one is only harder to cut off.", source="neck_order"),
    _mm("feeding_distance_mm", "A riser feeds as far as", "from its edge to a free end, by the rule of steel", help="4.5 times the thickness of a plate, 30 √T for a bar. No figure for your metal was found.", source="feeding_distance"),
    _mm("cope_needed_mm", "Cope depth for this riser", "for the riser to make", help="An open riser reaches the top of the cope. Sand over a closed riser comes on top of that.", source="geometry"),
    _mm("covered_modulus_mm", "Modulus of the casting under the riser", "without the face that the riser covers", digits=1, help="A riser on top takes cooling surface from the casting, so that it freezes later.", source="ghosh_mallik_riser"),
    _mm("covered_diameter_mm", "Riser diameter with that modulus", digits=1, help="Both are worked out together until they agree.", source="ghosh_mallik_riser"),
    _pct("riser_share_pct", "Riser over casting", "of the casting's volume", help="How much metal feeding costs."),
    cm3("gating_with_riser_cm3", "Gating with the riser", "sprue, runners, gates and the riser to make", high=1e12, default=None, error=Error(), error_note="", help="For “Fill the flask”."),
    _pct("gating_with_riser_pct", "Gating with the riser, share", "of the casting's volume", help="For “Pour”."),
    _mm("joint_circle_mm", "Largest circle in the joint", "diameter", digits=1, help="How thick the metal is where the walls meet.", source="geometry"),
    _mm("joint_least_modulus_mm", "Modulus of the joint, at least", "as a round bar", digits=1, help="A quarter of that circle.", source="geometry"),
    _mm("joint_most_modulus_mm", "Modulus of the joint, at most", "as a plate", digits=1, help="Half of that circle.", source="geometry"),
    _mm("caine_diameter_mm", "Diameter by Caine’s rule", "for comparison only", digits=1, help="The form of the rule was read, its constants are from memory.", source="caine"),
    _cm3("naval_riser_cm3", "Riser by the shape factor", "rule of steel, for comparison only", help="From the sides of the box: (length + width)/thickness.", source="naval_shape_factor"),
)
