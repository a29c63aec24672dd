"""The words of choosing a flask: the pattern, the flasks and boards on hand, the clearances, and the walls."""

from __future__ import annotations

from dataclasses import replace

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import EXACT, Choice, Quantity, Sentence, Word, quantities
from sandmix.mould.body import SHAPES
from sandmix.mould.clearance import MOST_PATTERNS, RULES, SPRUE_MM
from sandmix.mould.walls import WALL_MM
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
    mm("pattern_height_mm", "Pattern height", "outside", low=1.0, usual=(5.0, 400.0), help="Its height as it lies in the sand."),
    Choice(name="pattern_shape", label="Rough shape of the pattern", choices=SHAPES, default="box", help="Sets how much sand surrounds it and where the mould can be parted.", source="geometry"),
    _count("patterns_count", "Patterns in one flask", basis="all the same", low=1, high=MOST_PATTERNS, usual=(1, 6), default=1.0, help="In rows, with sand between them.", source="geometry"),
    _exact_mm("parting_height_mm", "Parting line above the underside", "how much of the height lies in the drag", low=0.0, usual=(0.0, 200.0), digits=1,
              help="Leave empty to put a box or an upright cylinder wholly into the drag, and a round pattern half."),
    Choice(name="open_top", label="Open-top mould", choices=YES_NO, default="no", help="The whole pattern lies in the drag and there is no cope. The top of the casting stays rough.", source="practice"),
    Choice(name="clearance_rule", label="Sand around the pattern", choices=RULES, default="trade", help="By the trade 40 mm above, 40 mm below and 30 mm at the sides, and more for castings over 5 kg. At home 40, 25 and 25 mm.", source="memory"),
    _exact_mm("sprue_mm", "Sprue", "across, next to the pattern", low=0.0, high=200.0, usual=(8.0, 40.0), default=SPRUE_MM, help="It needs space at one end. 0 for none there.", source="practice"),
    _exact_mm("facing_mm", "Facing layer", "fine fresh sand all around the pattern", low=0.0, high=200.0, usual=(8.0, 30.0), default=20.0, help="0 for none.", source="practice"),
    _exact_mm("wall_thickness_mm", "Thickness of the walls", "of the wood", low=3.0, high=100.0, usual=(9.0, 40.0), default=WALL_MM, step=1.0, help="Calculated for plywood that is held at the corners only.", source="practice"),
    Rows(
        name="flasks", label="Flasks on hand", row_label="flask", most=40, needed=("flask_length_mm", "flask_width_mm", "drag_depth_mm"), source="geometry",
        each=(Text(name="name", label="Name", longest=30, help="What you call it. If empty, its number."), _of_flask("flask_length_mm"), _of_flask("flask_width_mm"), _of_flask("drag_depth_mm"), _of_flask("cope_depth_mm", default=0.0)),
        help="Inside sizes. The smallest flask with enough sand around the pattern is chosen.",
    ),
    Rows(
        name="boards", label="Boards on hand", row_label="board", most=40, needed=("thickness_mm", "width_mm", "length_mm"), source="geometry",
        each=(
            Text(name="name", label="Name", longest=30, help="If empty, its number."),
            _exact_mm("thickness_mm", "Thickness", low=3.0, high=100.0, usual=None), _exact_mm("width_mm", "Width", usual=None), _exact_mm("length_mm", "Length", high=10000.0, usual=None),
            _count("count", "How many", low=1, high=100, default=1.0, help="If empty, one.", source="geometry"),
        ),
        help="For a new flask, where none is large enough.",
    ),
    Text(name="flask_name", label="Flask to check", longest=30, help="Its name. Leave empty to take the smallest that is large enough."),
    Sentence(name="flask_taken", label="Flask to take", help="Of the flasks that are large enough, the one that needs the least sand.", source="geometry"),
    mm("above_mm", "Sand above the pattern", "in this flask", low=-3000.0, help="Negative: the pattern sticks out of the cope.", usual=None),
    mm("below_mm", "Sand below the pattern", "in this flask", low=-3000.0, help="Negative: the pattern sticks out of the drag.", usual=None),
    mm("ends_mm", "Sand at each end", "in this flask, with the sprue", low=-3000.0, help="From the outermost pattern or the sprue to the wall.", usual=None),
    mm("sides_mm", "Sand at each side", "in this flask", low=-3000.0, help="From the outermost pattern to the wall.", usual=None),
    Rows(
        name="others", label="The other flasks", row_label="flask", most=40, needed=("name", "said"), source="geometry",
        each=(Text(name="name", label="Name"), Text(name="said", label="Result"), kg("extra_kg", "Extra sand", "spare included"), Quantity(name="extra_cost", label="Extra cost", unit="", basis=OWN_CURRENCY, low=0.0, high=1e9, source="geometry")),
        help="How much more sand each would need, or where it is too small and by how much.",
    ),
    mm("least_length_mm", "Smallest flask: length", INSIDE, low=0.0, high=1e5, usual=None, help="With enough sand around the pattern, rounded up to 5 mm."),
    mm("least_width_mm", "Smallest flask: width", INSIDE, low=0.0, high=1e5, usual=None, help="With enough sand around the pattern, rounded up to 5 mm."),
    mm("least_drag_mm", "Smallest flask: drag", "depth", low=0.0, high=1e5, usual=None, help="With enough sand around the pattern, rounded up to 5 mm."),
    mm("least_cope_mm", "Smallest flask: cope", "depth", low=0.0, high=1e5, usual=None, help="With enough sand around the pattern, rounded up to 5 mm. 0 for an open top."),
    Rows(
        name="cuts", label="Pieces to cut", row_label="piece", most=40, needed=("piece", "board"), source="geometry",
        each=(Text(name="piece", label="Piece"), _exact_mm("length_mm", "Length", high=1e5), _exact_mm("width_mm", "Width", high=1e5), Text(name="board", label="Board")),
        help="The sides overlap the ends. Each cut loses 3 mm.",
    ),
    _count("boards_used", "Boards needed", basis="by a simple cutting plan", source="geometry", help="Largest pieces first, each on the board where least is left over; several orders are tried."),
    _count("boards_fewest", "Fewest boards possible", basis="by their area", source="geometry", help="If this equals the boards needed, no plan does better."),
    _exact_mm("cut_length_mm", "Total length of the walls", "all pieces that are cut", low=0.0, high=1e6, usual=None),
    Quantity(name="sand_cost", label="Cost of this sand", unit="", basis=OWN_CURRENCY, low=0.0, high=1e9, digits=2, source="geometry", help="Spare included."),
    litres("filler_room_l", "Space for filler", "solid volume", help="All sand that is at least 50 mm from the cavity.", source="practice"),
    litres("facing_l", "Facing sand", "rammed", digits=2, help="The layer around every pattern, with rounded corners.", source="steiner"),
    kg("facing_kg", "Facing sand", "rammed, part of the sand in the mould", digits=2, help="Riddle it fine and temper it again.", source="steiner"),
    Quantity(name="wall_kpa", label="Pressure on the wall, kPa", unit="", basis="as if liquid metal pressed on it", low=0.0, high=1e5, digits=1, help="At the middle of the half with the higher pressure. An upper limit.", source="geometry"),
    mm("wall_gives_mm", "Deflection of the wall", "at its middle, at most", low=0.0, high=1e9, digits=2, usual=None, help="For plywood held only at its corners. Real corners hold it better.", source="beam"),
    _count("wall_ties", "Ties across the flask", basis="cleats or clamps that hold the long walls", help="This many keep the deflection below 1/360 of the free length.", source="memory"),
    _count("clamps", "Clamps for turning over", basis="around both halves and their boards", help="Two; four above 25 kg.", source="own"),
    _count("cope_bars", "Bars across the cope", basis="no nearer than 19 mm to the pattern", help="None up to 350 mm; beyond that at least one every 180 mm.", source="practice"),
    kg("poured_kg", "Load to lift: poured mould", "as the page says", help="In “Choose a flask”, sand, wood, castings and gating: what you move when it is full. If it cools where it stands, nobody has to lift it.", source="geometry"),
    Rows(
        name="ways_up", label="Orientations", row_label="orientation", most=9, needed=("way", "said"), source="geometry",
        each=(Text(name="way", label="Orientation"), Text(name="said", label="What it needs"), litres("sand_l", "Sand", "in the smallest flask"), _exact_mm("cope_mm", "Cope", high=1e5), _exact_mm("draw_mm", "Deepest draw", high=1e5),
              kg("lift_kg", "Uplift", "in the smallest flask"), Quantity(name="undercut_cm2", label="Undercut", unit="cm²", basis="seen vertically", low=0.0, high=1e6, source="geometry"),
              _exact_mm("parting_height_mm", "Parting line above the underside", high=1e5), Quantity(name="straight_cm2", label="Vertical walls", unit="cm²", basis="within 1° of vertical", low=0.0, high=1e12, source="geometry"),
              Quantity(name="least_draft_deg", label="Least draft, degrees", unit="", low=0.0, high=90.0, source="geometry")),
        help="Each orientation in the smallest flask that is large enough. Plain shapes are parted underneath, at the middle and on top; a shape from a file where it is best.",
    ),
    Sentence(name="suggested_way", label="Best orientation", help="Of those that can be drawn, the one that needs the least sand. A plain shape stays as it is if another orientation saves less than a tenth.", source="own"),
)
