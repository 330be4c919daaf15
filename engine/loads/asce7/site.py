"""The `[site]` table of ASCE 7: wind, snow and earthquake of the site, and choices that the standard leaves."""

from __future__ import annotations

from typing import Annotated

from engine.schema import Choice, InputTable, Number, Quantity, input_field

SEVEN_16, SEVEN_22 = "ASCE 7-16", "ASCE 7-22"


class Site(InputTable):
    """Wind, snow, earthquake and choices of the load standard."""

    standard: Annotated[str, Choice((SEVEN_16, SEVEN_22))] = input_field(description="load standard and edition")
    risk_category: Annotated[str, Choice(("I", "II", "III", "IV"))] = input_field(
        "II", description="risk category of the building"
    )
    wind_speed: Annotated[float, Quantity("speed", "60 mph", "300 mph")] = input_field(
        description="basic wind speed, 3 s gust at 33 ft, from the map of the risk category"
    )
    exposure: Annotated[str, Choice(("B", "C", "D"))] = input_field(
        description="exposure category: B suburbs, C open country, D along water"
    )
    ground_elevation: Annotated[float, Quantity("length", "-500 ft", "12000 ft")] = input_field(
        "0 ft", description="elevation of the ground above sea level; 0 is safe above sea level"
    )
    topographic_factor: Annotated[float, Number(1.0, 4.0)] = input_field(
        1.0, description="Kzt: more than 1 on a hill, ridge or escarpment"
    )
    ground_snow: Annotated[float, Quantity("pressure", "0 psf", "400 psf")] = input_field(
        description="ground snow load pg of the standard's map; in ASCE 7-22 of the map of the risk category"
    )
    snow_exposure: Annotated[str, Choice(("fully exposed", "partially exposed", "sheltered"))] = input_field(
        "partially exposed", description="exposure of the roof to wind, for snow"
    )
    roof_surface: Annotated[str, Choice(("other", "slippery"))] = input_field(
        "other",
        description="slippery if snow slides off unobstructed; an array obstructs it, so 'other' is safe",
    )
    roof_thermal_resistance: (
        Annotated[float, Quantity("thermal resistance", "1 h ft2 F/Btu", "100 h ft2 F/Btu")] | None
    ) = input_field(
        None,
        description="thermal resistance of a heated, unventilated roof, ASCE 7-22 Table 7.3-3; not set: Ct 1.2 (safe)",
    )
    array_thermal_factor: Annotated[float, Number(1.0, 1.3)] = input_field(
        1.2, description="Ct for snow on modules: 1.2, as they stand in open air"
    )
    winter_wind: Annotated[float, Number(0.2, 0.7)] = input_field(
        0.65,
        description="W2 of the ASCE 7-22 map, for drifts; 0.65 is the map's upper end (from memory)",
    )
    seismic_sds: Annotated[float, Number(0.01, 4.0)] | None = input_field(
        None,
        description="SDS, design spectral acceleration at short periods [g]; not set: no earthquake load",
    )
    seismic_importance: Annotated[float, Number(1.0, 1.5)] = input_field(
        1.0, description="Ip of the array: 1.5 if it must work after an earthquake"
    )
    seismic_amplification: Annotated[float, Number(0.1, 10.0)] = input_field(
        2.0,
        description="(Hf/Rmu)(CAR/Rpo) of ASCE 7-22 at the roof; 2.0 gives the force of 7-16 (the table was not seen)",
    )
    array_edges: Annotated[str, Choice(("safe", "literal"))] = input_field(
        "safe", description="exposed edges of the array: safe counts every edge, literal follows the text of the clause"
    )
