"""Tables of the revised lifting equation, as printed.

From the applications manual (94-110, revised 9/2021), tables 1 to 5 and 7, seen in a public page-referenced transcription. Table 1 at 22
and 23 in and table 3 at 130 cm print other values than their formulas give.
"""

from typing import Literal

Coupling = Literal["good", "fair", "poor"]

HORIZONTAL_CM = {25: 1.00, 28: .89, 30: .83, 32: .78, 34: .74, 36: .69, 38: .66, 40: .63, 42: .60, 44: .57, 46: .54, 48: .52, 50: .50,
                 52: .48, 54: .46, 56: .45, 58: .43, 60: .42, 63: .40}
HORIZONTAL_IN = {10: 1.00, 11: .91, 12: .83, 13: .77, 14: .71, 15: .67, 16: .63, 17: .59, 18: .56, 19: .53, 20: .50, 21: .48, 22: .46,
                 23: .44, 24: .42, 25: .40}
VERTICAL_CM = {0: .78, 10: .81, 20: .84, 30: .87, 40: .90, 50: .93, 60: .96, 70: .99, 80: .99, 90: .96, 100: .93, 110: .90, 120: .87,
               130: .84, 140: .81, 150: .78, 160: .75, 170: .72, 175: .70}
VERTICAL_IN = {0: .78, 5: .81, 10: .85, 15: .89, 20: .93, 25: .96, 30: 1.00, 35: .96, 40: .93, 45: .89, 50: .85, 55: .81, 60: .78,
               65: .74, 70: .70}
TRAVEL_CM = {25: 1.00, 40: .93, 55: .90, 70: .88, 85: .87, 100: .87, 115: .86, 130: .86, 145: .85, 160: .85, 175: .85}
TRAVEL_IN = {10: 1.00, 15: .94, 20: .91, 25: .89, 30: .88, 35: .87, 40: .87, 45: .86, 50: .86, 55: .85, 60: .85, 70: .85}
ASYMMETRY_DEGREES = {0: 1.00, 15: .95, 30: .90, 45: .86, 60: .81, 75: .76, 90: .71, 105: .66, 120: .62, 135: .57}

#: lifts a minute of the frequency table's rows
FREQUENCIES = (0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15)
#: (work up to so many hours, hands at 75 cm or above) -> the column; past its end no weight at all
FREQUENCY: dict[tuple[int, bool], tuple[float, ...]] = {
    (1, False): (1.00, .97, .94, .91, .88, .84, .80, .75, .70, .60, .52, .45, .41, .37),
    (1, True): (1.00, .97, .94, .91, .88, .84, .80, .75, .70, .60, .52, .45, .41, .37, .34, .31, .28),
    (2, False): (.95, .92, .88, .84, .79, .72, .60, .50, .42, .35, .30, .26),
    (2, True): (.95, .92, .88, .84, .79, .72, .60, .50, .42, .35, .30, .26, .23, .21),
    (8, False): (.85, .81, .75, .65, .55, .45, .35, .27, .22, .18),
    (8, True): (.85, .81, .75, .65, .55, .45, .35, .27, .22, .18, .15, .13),
}

#: how well the hands hold -> (hands below 75 cm, at 75 cm or above)
COUPLING: dict[str, tuple[float, float]] = {"good": (1.0, 1.0), "fair": (0.95, 1.0), "poor": (0.90, 0.90)}
