"""Values that a national annex may change: the recommended ones, or those stated in the scenario."""

from __future__ import annotations

from dataclasses import dataclass

from engine.loads.en1991.site import Site

HIGH = 1000.0
"""Altitude above which psi0 of snow is 0.7 [m], EN 1990 table A1.1."""

STATED_FACTORS = (
    "gamma_permanent",
    "gamma_permanent_favourable",
    "gamma_variable",
    "psi_wind",
    "psi_snow",
    "gamma_m_connections",
    "gamma_m_members",
    "air_density",
)

CONSEQUENCE = {"CC1": 0.9, "CC2": 1.0, "CC3": 1.1}
"""KFI, EN 1990 table B3: factor of unfavourable loads."""


@dataclass(frozen=True)
class NationalValues:
    """Partial factors, psi0 and density of air [kg/m³]; the unfavourable factors with KFI."""

    permanent: float
    permanent_favourable: float
    variable: float
    psi_wind: float
    psi_snow: float
    connections: float
    members: float
    air_density: float

    @classmethod
    def of(cls, site: Site) -> NationalValues:
        """The values of a site."""
        consequence = CONSEQUENCE[site.consequence_class]
        return cls(
            permanent=consequence * _or(site.gamma_permanent, 1.35),
            permanent_favourable=_or(site.gamma_permanent_favourable, 0.9),
            variable=consequence * _or(site.gamma_variable, 1.5),
            psi_wind=_or(site.psi_wind, 0.6),
            psi_snow=_or(site.psi_snow, recommended_psi_snow(site.altitude)),
            connections=_or(site.gamma_m_connections, 1.25),
            members=_or(site.gamma_m_members, 1.1),
            air_density=_or(site.air_density, 1.25),
        )


def recommended_psi_snow(altitude: float | None) -> float:
    """psi0 of snow by altitude [m]: 0.5, above 1000 m or where it is not known 0.7; EN 1990 table A1.1."""
    return 0.5 if altitude is not None and altitude <= HIGH else 0.7


def stated_factors(site: Site) -> tuple[str, ...]:
    """The keys of the factors that the scenario states."""
    return tuple(key for key in STATED_FACTORS if getattr(site, key) is not None)


def _or(stated: float | None, recommended: float) -> float:
    return recommended if stated is None else stated
