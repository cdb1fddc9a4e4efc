"""What a freezer can take in a day, and the room that is left in a container for what swells."""

from __future__ import annotations

from fractions import Fraction

from binder.tables.measures import G_PER, ML_PER, ML_PER_CUBIC_FOOT

LOAD_SOURCE = "University of Minnesota Extension"
HEADSPACE_SOURCE = "NCHFP"

# 2 to 3 lb a cubic foot in 24 h.
LOAD_LB_PER_CUBIC_FOOT = (2, 3)
# Liquids in wide-topped containers: half an inch up to a pint, an inch up to a quart.
HEADSPACE_INCHES = ((ML_PER["pint"], Fraction(1, 2)), (ML_PER["quart"], Fraction(1)))


def load_grams(holds_ml: Fraction, caution: str) -> Fraction:
    """The most that a freezer of this size freezes in 24 h: 3 lb a cubic foot, 2 when strict."""
    pounds = LOAD_LB_PER_CUBIC_FOOT[0 if caution == "strict" else 1]
    return holds_ml / ML_PER_CUBIC_FOOT * pounds * G_PER["lb"]


def headspace_inches(holds_ml: Fraction) -> Fraction:
    """The room to leave at the top of a wide container of this size; what is larger than published as the largest."""
    return next((inches for up_to, inches in HEADSPACE_INCHES if holds_ml <= up_to), HEADSPACE_INCHES[-1][1])
