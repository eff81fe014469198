"""What a number that a person states may be, wherever it is stated: in the drawing, a craft file or a board file."""

from typing import Annotated

from msgspec import Meta

from tabside.model.stated_limits import (
    HIGHEST_V,
    LONGEST_MM,
    MOST_AMPERES,
    MOST_LEADS,
    MOST_OF_A_KIND,
    MOST_PINS,
    THINNEST_AWG,
)

Count = Annotated[int, Meta(ge=0, le=MOST_OF_A_KIND)]
Pack = Annotated[int, Meta(ge=1, le=100_000)]
Price = Annotated[float, Meta(ge=0, le=1_000_000)]
Minutes = Annotated[float, Meta(ge=0, le=1_000)]
Seconds = Annotated[float, Meta(gt=0, le=3600)]  # of computing
Factor = Annotated[float, Meta(ge=1, le=100)]
Derating = Annotated[float, Meta(gt=0, le=1)]
Percent = Annotated[float, Meta(gt=0, le=100)]
Celsius = Annotated[float, Meta(ge=-60, le=200)]
Volt = Annotated[float, Meta(ge=0, le=HIGHEST_V)]
Ampere = Annotated[float, Meta(ge=0, le=MOST_AMPERES)]
Gauge = Annotated[int, Meta(ge=0, le=THINNEST_AWG)]
Length = Annotated[float, Meta(gt=0, le=LONGEST_MM)]
Slack = Annotated[float, Meta(ge=0, le=LONGEST_MM)]
Position = Annotated[float, Meta(ge=-LONGEST_MM, le=LONGEST_MM)]
Loop = Annotated[float, Meta(ge=0, le=10_000)]  # more of a wire than it takes from end to end
Allowance = Annotated[float, Meta(ge=0, le=1_000)]  # of a wire, for one end
Diameter = Annotated[float, Meta(gt=0, le=100)]  # over the insulation
UsualDiameter = Annotated[float, Meta(gt=0, le=50)]  # of all wires of a gauge
Leads = Annotated[int, Meta(ge=1, le=MOST_LEADS)]
Ways = Annotated[int, Meta(ge=1, le=MOST_PINS)]
