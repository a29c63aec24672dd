"""The words of choosing a flask: the pattern as it lies, the flasks and boards on hand, what clears, and what holds the walls."""

from __future__ import annotations

from dataclasses import replace

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import EXACT, Choice, Quantity, Sentence, Word, quantities
from sandmix.mould.body import SHAPES
from sandmix.mould.clearance import MOST_PATTERNS, RULES
from sandmix.vocabulary.flask_words import CHAPTER as FLASK
from sandmix.vocabulary.flask_words import INSIDE, kg, litres, mm
from sandmix.vocabulary.trade_words import OWN_CURRENCY

YES_NO = {"yes": "yes", "no": "no"}


def _of_flask(name: str, default: float | None = None) -> Quantity:
    word = next(word for word in FLASK if word.name == name)
    assert isinstance(word, Quantity)
    return replace(word, error=EXACT, error_note="", default=default)


_exact_mm = quantities("mm", low=10.0, high=3000.0, usual=(80.0, 800.0), digits=0, step=5.0, units=("mm", "cm", "in"), source="geometry")
_count = quantities("", low=0, high=1000, digits=0, step=1.0, source="own")

CHAPTER: tuple[Word, ...] = (
    mm("pattern_height_mm", "Pattern height", "outside", low=1.0, usual=(5.0, 400.0), help="Upright, as it is to lie in the sand."),
    Choice(name="pattern_shape", label="Pattern, roughly", choices=SHAPES, default="box", help="Sets what sand stands about it, and where it can be parted.", source="geometry"),
    _count("patterns_count", "Patterns in one flask", basis="all alike", low=1, high=MOST_PATTERNS, usual=(1, 6), default=1.0, help="In rows, with sand between them.", source="geometry"),
    _exact_mm("parting_height_mm", "Parting above the underside", "how much of the height lies in the drag", low=0.0, usual=(0.0, 200.0), digits=1,
              help="Left empty: all of a box or of a standing cylinder in the drag, of what is round half."),
    Choice(name="open_top", label="Open-top mould", choices=YES_NO, default="no", help="All of the pattern in the drag and no cope: the top stays rough.", source="practice"),
    Choice(name="clearance_rule", label="Sand about the pattern", choices=RULES, default="trade", help="40 above, 40 below, 30 beside up to 5 kg and more above that; or 40, 25, 25 at home.", source="memory"),
    _exact_mm("sprue_mm", "Sprue", "across, beside the pattern", low=0.0, high=200.0, usual=(8.0, 40.0), default=20.0, help="It takes room at one end. 0 for none there.", source="practice"),
    _exact_mm("facing_mm", "Facing layer", "fine fresh sand all round the pattern", low=0.0, high=200.0, usual=(8.0, 30.0), default=20.0, help="0 for none.", source="practice"),
    _exact_mm("wall_thickness_mm", "Wood of the walls", "thickness", low=3.0, high=100.0, usual=(9.0, 40.0), default=18.0, step=1.0, help="Plywood, from corner to corner without a cleat.", source="practice"),
    Rows(
        name="flasks", label="Flasks on hand", row_label="flask", most=40, needed=("flask_length_mm", "flask_width_mm", "drag_depth_mm"), source="geometry",
        each=(Text(name="name", label="Name", longest=30, help="What you call it. Left empty: its number."), _of_flask("flask_length_mm"), _of_flask("flask_width_mm"), _of_flask("drag_depth_mm"), _of_flask("cope_depth_mm", default=0.0)),
        help="Inside sizes. The smallest that clears the pattern is taken.",
    ),
    Rows(
        name="boards", label="Boards on hand", row_label="board", most=40, needed=("thickness_mm", "width_mm", "length_mm"), source="geometry",
        each=(
            Text(name="name", label="Name", longest=30, help="Left empty: its number."),
            _exact_mm("thickness_mm", "Thickness", low=3.0, high=100.0, usual=None), _exact_mm("width_mm", "Width", usual=None), _exact_mm("length_mm", "Length", high=10000.0, usual=None),
            _count("count", "How many", low=1, high=100, default=1.0, help="Left empty: one.", source="geometry"),
        ),
        help="To cut a flask from, where none clears.",
    ),
    Text(name="flask_name", label="Look at this flask", longest=30, help="By its name. Left empty: the smallest that clears the pattern."),
    Sentence(name="flask_taken", label="Flask to take", help="The one with the least sand of those that clear the pattern.", source="geometry"),
    mm("above_mm", "Sand above the pattern", "in this flask", low=-3000.0, help="Below 0 the pattern stands out of the cope.", usual=None),
    mm("below_mm", "Sand below the pattern", "in this flask", low=-3000.0, help="Below 0 the pattern stands out of the drag.", usual=None),
    mm("ends_mm", "Sand at each end", "in this flask, sprue counted", low=-3000.0, help="From the outermost pattern or the sprue to the wall.", usual=None),
    mm("sides_mm", "Sand at each side", "in this flask", low=-3000.0, help="From the outermost pattern to the wall.", usual=None),
    Rows(
        name="others", label="The other flasks", row_label="flask", most=40, needed=("name", "said"), source="geometry",
        each=(Text(name="name", label="Name"), Text(name="said", label="What of it"), kg("extra_kg", "More sand", "spare included"), Quantity(name="extra_cost", label="More money", unit="", basis=OWN_CURRENCY, low=0.0, high=1e9, source="geometry")),
        help="What each would cost more in sand, or where it lacks how much.",
    ),
    mm("least_length_mm", "Smallest flask: length", INSIDE, low=0.0, high=1e5, usual=None, help="That clears the pattern, to the next 5 mm."),
    mm("least_width_mm", "Smallest flask: width", INSIDE, low=0.0, high=1e5, usual=None, help="That clears the pattern, to the next 5 mm."),
    mm("least_drag_mm", "Smallest flask: drag", "depth", low=0.0, high=1e5, usual=None, help="That clears the pattern, to the next 5 mm."),
    mm("least_cope_mm", "Smallest flask: cope", "depth", low=0.0, high=1e5, usual=None, help="That clears the pattern, to the next 5 mm. 0 for an open top."),
    Rows(
        name="cuts", label="To cut", row_label="piece", most=40, needed=("piece", "board"), source="geometry",
        each=(Text(name="piece", label="Piece"), _exact_mm("length_mm", "Length", high=1e5), _exact_mm("width_mm", "Width", high=1e5), Text(name="board", label="From")),
        help="Sides over the ends. 3 mm are lost at each cut.",
    ),
    _count("boards_used", "Boards begun", basis="by a greedy plan", source="geometry", help="Largest pieces first, each where it leaves the least, in several orders."),
    _count("boards_fewest", "Boards any plan must begin", basis="by their area", source="geometry", help="Where this is as many as are begun, no plan does better."),
    _exact_mm("cut_length_mm", "Walls end to end", "all pieces that are cut", low=0.0, high=1e6, usual=None),
    Quantity(name="sand_cost", label="Cost of this sand", unit="", basis=OWN_CURRENCY, low=0.0, high=1e9, digits=2, source="geometry", help="Spare included."),
    litres("filler_room_l", "Room for filler", "solid volume", help="All that is at least 50 mm from the cavity.", source="practice"),
    litres("facing_l", "Facing sand", "rammed", digits=2, help="The layer all round every pattern, its corners rounded off.", source="steiner"),
    kg("facing_kg", "Facing sand", "rammed, out of the sand in the mould", digits=2, help="To be riddled fine and tempered fresh.", source="steiner"),
    Quantity(name="wall_kpa", label="Push on the wall, kPa", unit="", basis="as if liquid metal stood against it", low=0.0, high=1e5, digits=1, help="At the middle of the half that is hardest pressed. An upper limit.", source="geometry"),
    mm("wall_gives_mm", "The wall gives", "at its middle, at most", low=0.0, high=1e9, digits=2, usual=None, help="Of plywood, resting at its corners only. Real corners hold it better.", source="beam"),
    _count("wall_ties", "Ties across the flask", basis="cleats or clamps that hold the long walls", help="So many keep the wall to 1/360 of its free length.", source="memory"),
    _count("clamps", "Clamps for turning over", basis="round halves and boards", help="Two, four above 25 kg.", source="own"),
    _count("cope_bars", "Bars across the cope", basis="no nearer than 19 mm to the pattern", help="None up to 350 mm, else one every 180 mm or closer.", source="practice"),
    kg("poured_kg", "Lift: poured mould", "sand, wood, castings and gating", help="What is moved when it is full. Left to cool where it stands, nobody lifts it.", source="geometry"),
    Rows(
        name="ways_up", label="Ways up", row_label="way", most=9, needed=("way", "said"), source="geometry",
        each=(Text(name="way", label="Way"), Text(name="said", label="What it takes"), litres("sand_l", "Sand", "in the smallest flask"), _exact_mm("cope_mm", "Cope", high=1e5), _exact_mm("draw_mm", "Deepest draw", high=1e5),
              kg("lift_kg", "Uplift", "in the smallest flask"), Quantity(name="undercut_cm2", label="Undercut", unit="cm2", basis="as seen straight up and down", low=0.0, high=1e6, source="geometry"),
              _exact_mm("parting_height_mm", "Parting above the underside", high=1e5), Quantity(name="straight_cm2", label="Walls that stand straight", unit="cm2", basis="within 1° of upright", low=0.0, high=1e12, source="geometry"),
              Quantity(name="least_draft_deg", label="Least draft, degrees", unit="", low=0.0, high=90.0, source="geometry")),
        help="Each way up in the smallest flask that clears it. Plain bodies are parted underneath, at the middle and on top; a file's shape where it is best.",
    ),
    Sentence(name="suggested_way", label="Way up to take", help="Of those that can be drawn the one with the least sand. A plain body is left as it lies where another way saves less than a tenth.", source="own"),
)
