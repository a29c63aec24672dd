"""The words of grain size: what the sieves hold, and what that says of a sand."""

from __future__ import annotations

from sandmix.language.tables import Table
from sandmix.language.words import Choice, Error, Names, Quantity, Word, quantities
from sandmix.materials.fineness import PAN, SIEVES
from sandmix.materials.partial_sieves import ABSENT, EMPTY
from sandmix.materials.sieve_names import Sieves

NAMED = {number: number if number == PAN else f"No. {number}" for number in SIEVES}
BETWEEN = {number: name for number, name in NAMED.items() if number != PAN}


_each = quantities("", low=0.0, high=1e6, digits=2, source="afs_gfn")

RETAINED = Sieves(
    name="retained", label="Retained on each sieve", keys=NAMED, each=_each("held", "What it holds"), source="iso_3310_1",
    help="By sieve number, in grams or percent: only the proportion counts. As 50: 21.4; 70: 42; pan: 0.2. A sieve that you leave out adds nothing to the number. Give other sieves by their opening, as 0.8 mm: 3.",
)

CHAPTER: tuple[Word, ...] = (
    RETAINED,
    Quantity(name="clay_washed_g", label="Washed out before sieving", unit="g", basis="dry, of the same sample", low=0.0, high=20000.0, usual=(0.0, 20.0), digits=1, step=0.1, units=("g", "oz"), source="afs_gfn",
             help="Clay and fines that the wash removed. They never count in the fineness number."),
    Quantity(name="sample_g", label="Sample", unit="g", basis="dry, before the test", low=0.01, high=20000.0, usual=(0.2, 2000.0), digits=2, step=1.0, units=("g", "oz"), source="afs_gfn",
             help="All of it, dry, before washing or sieving. What is missing afterwards was lost on the way."),
    Choice(name="unnamed_sieves", label="Sieves left out", choices={EMPTY: "were in the stack and held nothing", ABSENT: "were not in the stack"}, source="own",
           help="If left empty: sieves between two given ones were not there, and those above the coarsest held nothing. This changes the likely range, not the number."),
    Quantity(name="gfn_estimate", label="Fineness number, best guess", unit="", basis="clay excluded", low=0.0, high=300.0, digits=1, source="own",
             help="Each fraction is spread evenly over the missing sieves, on a log scale of size."),
    Quantity(name="sieve_loss_pct", label="Lost in the sieves", unit="%", basis="share of the dry sample", low=-100.0, high=100.0, digits=1, units=("%",), source="astm_c136",
             help="The sample less what was washed out and what the sieves hold. Negative: the sieves hold more than you put in."),
    Quantity(name="gfn", label="Grain fineness number", unit="", basis="clay excluded", typical=60.0, low=0.0, high=300.0, digits=1, source="afs_gfn",
             help="The larger it is, the finer the sand. Not the same as a mesh number."),
    Quantity(name="mean_um", label="Mean grain size", unit="µm", basis="13 600 divided by the fineness number, ± 5 %", low=0.0, high=1e5, digits=0, source="memory", help="From the fineness number, within about 5 %."),
    Names(name="screens", label="Screens", help="The sieves that hold a tenth of the grain or more. Three or four neighbouring ones pack well.", source="afs_gfn"),
    Names(name="gaps", label="Gaps between the screens", help="Sieves between the screens that hold less than a tenth.", source="afs_gfn"),
    Table(name="passing", label="Passing each sieve", keys=BETWEEN, each=Quantity(name="passed", label="What passes", unit="%", basis="share of the grain", low=0.0, high=100.0, digits=1, source="afs_gfn"), help="Of the grain alone, without the washed clay.", source="iso_3310_1"),
    Quantity(name="surface_cm2_g", label="Surface of the grain", unit="cm²/g", basis="as smooth spheres of quartz", low=0.0, high=1e5, digits=0, source="geometry",
             help="From the middle size of each fraction. Real grain has more surface; use it to compare two sands."),
    Quantity(name="washed_pct_dry", label="Washed out", unit="%", typical=10.0, basis="share of the dry sample", low=0.0, high=100.0, digits=1, units=("%",), error=Error(absolute=1.0), error_note="± 1 point: a home decant of 200 g", source="mass_balance",
             help="Live clay, dead clay and silt together: all that a wash removes."),
)
