"""The `[site]` table of EN 1991: what the user must state has no default."""

from __future__ import annotations

from typing import Annotated

from engine.loads.en1991.net_coefficients import NetCoefficients, NetCoefficientsByZone
from engine.schema import Choice, InputTable, Number, Quantity, TextLine, input_field

EN_1991 = "EN 1991"
RECOMMENDED = "recommended"
PREVENTED, FREE = SLIDING = ("prevented", "free")


class Site(InputTable):
    """Wind, snow, consequence class, and the national values."""

    standard: Annotated[str, Choice((EN_1991,))] = input_field(description="load standard")
    national: Annotated[str, Choice((RECOMMENDED,))] = input_field(
        description="national annex: the recommended values, chosen by name; it supplies the factors below that are "
        "not set"
    )
    consequence_class: Annotated[str, Choice(("CC1", "CC2", "CC3"))] = input_field(
        description="consequence class, EN 1990 annex B: low, medium (common buildings), high"
    )
    wind_speed: Annotated[float, Quantity("speed", "10 m/s", "80 m/s")] = input_field(
        description="basic wind velocity vb,0 of the national map, altitude included: a 10 min mean at 10 m, no gust"
    )
    wind_speed_source: Annotated[str, TextLine(300)] | None = input_field(
        None, description="source of a basic wind velocity above 40 m/s, where few maps go"
    )
    terrain: Annotated[str, Choice(("0", "I", "II", "III", "IV"))] = input_field(
        description="terrain category: 0 sea, I lakes, II open country, III suburbs and woods, IV city"
    )
    orography_factor: Annotated[float, Number(1.0, 2.0)] = input_field(
        1.0, description="co: more than 1 on a hill, ridge or escarpment, by annex A.3"
    )
    ground_snow: Annotated[float, Quantity("pressure", "0 kPa", "20 kPa")] = input_field(
        description="characteristic snow load on the ground sk of the national map, altitude included"
    )
    snow_exposure: Annotated[str, Choice(("windswept", "normal", "sheltered"))] = input_field(
        description="exposure of the roof to wind, for snow: Ce 0.8, 1.0 or 1.2"
    )
    snow_sliding: Annotated[str, Choice(SLIDING)] = input_field(
        PREVENTED, description="free if snow slides off; an array, snow guards or a parapet prevent it (safe)"
    )
    altitude: Annotated[float, Quantity("length", "-100 m", "4000 m")] | None = input_field(
        None, description="altitude of the site: psi0 of snow is 0.5 up to 1000 m; not set: 0.7 (safe)"
    )
    cp_net: Annotated[NetCoefficients | None, NetCoefficientsByZone()] = input_field(
        None,
        description="net pressure coefficients of the array, of which EN 1991-1-4 has none, by zone of the roof; "
        '{ up = { F = -1.6 }, down = { F = 0.3 }, edge_modules = "covered", source = "..." }; must be stated',
    )
    gamma_permanent: Annotated[float, Number(1.0, 2.0)] | None = input_field(
        None, description="partial factor of permanent load; not set: 1.35"
    )
    gamma_permanent_favourable: Annotated[float, Number(0.5, 1.0)] | None = input_field(
        None, description="the same where it acts against uplift; not set: 0.9 (set A)"
    )
    gamma_variable: Annotated[float, Number(1.0, 2.0)] | None = input_field(
        None, description="partial factor of wind and snow; not set: 1.5"
    )
    psi_wind: Annotated[float, Number(0.0, 1.0)] | None = input_field(None, description="psi0 of wind; not set: 0.6")
    psi_snow: Annotated[float, Number(0.0, 1.0)] | None = input_field(
        None, description="psi0 of snow; not set: by altitude"
    )
    gamma_m_connections: Annotated[float, Number(1.0, 3.0)] | None = input_field(
        None, description="gammaM of characteristic strengths that state none of their own; not set: 1.25"
    )
    gamma_m_members: Annotated[float, Number(1.0, 3.0)] | None = input_field(
        None, description="gammaM of moments, which are characteristic values; not set: 1.1 (aluminium; steel has 1.0)"
    )
    air_density: Annotated[float, Number(1.0, 1.5)] | None = input_field(
        None, description="density of air [kg/m3]; not set: 1.25"
    )
    national_source: Annotated[str, TextLine(300)] | None = input_field(
        None, description="source of the factors stated in place of the recommended ones; needed with any of them"
    )
