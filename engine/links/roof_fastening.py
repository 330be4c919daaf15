"""The roof's own fastening, clip or panel screws, at one rib and one purlin."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from engine.common.arrays import Bools, Floats, Ints, index_of_largest
from engine.common.calculation import CalculationStep, Term
from engine.links.attachment import steps_to_attachment
from engine.links.check import Check, Location, governing_check, governing_of
from engine.links.link import Link
from engine.links.ratios import DemandOverResistance, SumOfRatios, resistances
from engine.links.roof_fastening_alone import explain_fastening_alone, surface_load_steps, tributary
from engine.links.trail import CalculationTrail
from engine.links.trail_terms import identifier, pounds, products_of, sum_step, utilisation_step
from engine.links.unchecked import ALONG, ROOF_MAKER, UP, Unchecked
from engine.load_path.demands import Demands
from engine.project.job import Job
from engine.project.roof import Roof
from engine.statics.continuous_beam import UnitCouples, UnitForces, solve_beams
from engine.strength import shear_strength, strength
from engine.units import both

WITHOUT_ARRAY = "without the array"
DOWN_LOAD = "down load"
UPLIFT, SHEAR = "uplift", "along-slope shear"
STRENGTH_UNKNOWN = "its strength is unknown"


def fastening_ratios(demands: Demands) -> Mapping[str, DemandOverResistance | SumOfRatios]:
    """Case → demand over resistance of every fastening on the ribs that carry attachments, shape (R, F, C).

    No uplift where its strength is unknown.
    """
    job, cases = demands.job, dict[str, DemandOverResistance | SumOfRatios]()
    if job.roof.fastening.uplift is not None:
        with_array = "with the array, uplift and shear" if _shares_shear(job) else "with the array"
        cases[with_array] = _uplift_ratios(demands, demands.fastening, demands.is_fastened, demands.panel_in_plane)
        cases[WITHOUT_ARRAY] = _ratios_without_array(demands, demands.rib)
    if job.roof.fastening.bearing is not None:
        allowable = resistances(strength(job.roof.fastening.bearing), demands.combinations)
        cases[DOWN_LOAD] = DemandOverResistance(np.maximum(demands.fastening, 0.0), allowable)
    return cases


def _shares_shear(job: Job) -> bool:
    """True where panel screws carry along-slope load and their strength against it is stated."""
    return not job.roof.floats and job.roof.fastening.in_plane is not None


def _ratios_without_array(demands: Demands, rib: Ints) -> DemandOverResistance | SumOfRatios:
    roof = demands.roof
    return _uplift_ratios(demands, roof.without_array[rib], roof.is_fastened[rib], roof.in_plane_without_array[rib])


def _uplift_ratios(
    demands: Demands, signed: Floats, is_fastened: Bools, sliding: Floats
) -> DemandOverResistance | SumOfRatios:
    """Uplift over allowable, shape (R, F, C); on a face-fastened roof T/Ta + V/Va (linear, which is safe).

    The along-slope load of a panel (R, C) is shared equally by the screws of its rib.
    """
    job = demands.job
    allowable = resistances(strength(job.roof.fastening.stated_uplift), demands.combinations)
    uplift = DemandOverResistance(np.maximum(-signed, 0.0), allowable)
    if not _shares_shear(job):
        return uplift
    share = is_fastened / np.maximum(is_fastened.sum(axis=1, keepdims=True), 1)
    shear = share[..., None] * np.abs(sliding)[:, None, :]
    shear_allowable = resistances(shear_strength(job.roof.fastening.in_plane or ()), demands.combinations)
    return SumOfRatios({UPLIFT: uplift, SHEAR: DemandOverResistance(shear, shear_allowable)})


def check_roof_fastening(demands: Demands) -> Check:
    """Uplift with and without the array, on the ribs that carry attachments; down load where a strength is stated."""
    cases = fastening_ratios(demands).items()
    checks = [_governing(demands, ratios, demands.rib, case) for case, ratios in cases]
    return governing_of([*checks, *_without_check(demands)])


def check_fastening_alone(demands: Demands) -> Check:
    """The fastening with the largest utilisation on the whole slope, without the array; nothing without a strength."""
    if demands.job.roof.fastening.uplift is None:
        return Check("roof_fastening", demands.job.roof.fastening_word, "force")
    every = np.arange(len(demands.roof.ribs))
    return _governing(demands, _ratios_without_array(demands, every), every, WITHOUT_ARRAY)


def _without_check(demands: Demands) -> Iterator[Check]:
    """The loads of a fastening that meet no strength, and those that need none."""
    roof, title = demands.job.roof, demands.job.roof.fastening_word
    if roof.fastening.uplift is None:
        yield _strength_unknown(demands)
    if not roof.floats and roof.fastening.in_plane is None and demands.panel_in_plane.any():
        document = f"{demands.job.words.against('shear')} of the panel screws at one rib and support"
        missing = Unchecked("roof_fastening", title, ALONG, "no shear strength given", ROOF_MAKER, document)
        yield Check("roof_fastening", title, "force", unchecked=(missing,))
    if roof.fastening.bearing is None:
        yield Check("roof_fastening", title, "force", note=f"down load needs no check: {_bearing(roof)}")


TEST_SAFETY_FACTOR = 2.0
"""Safety factor of a roof uplift test to failure (common practice, no source)."""


def pressure_in_test(roof: Roof, allowable: float, factor: float = TEST_SAFETY_FACTOR) -> float:
    """The uplift at failure in a test of this roof that shows an allowable of one fastening [N] [Pa]."""
    return factor * allowable / (roof.rib_spacing * roof.support_spacing)


def uplift_needed(demands: Demands) -> tuple[float, float]:
    """Uplift strength that a fastening needs, with the array and without it [N]: an allowable or design resistance."""
    with_array, without = demands.fastening, demands.roof.without_array
    needed = [float(np.maximum(-each, 0.0).max()) for each in (with_array, without)]
    return needed[0], needed[1]


def _strength_unknown(demands: Demands) -> Check:
    """The largest uplift with the array, which meets no known strength."""
    title, uplift = demands.job.roof.fastening_word, np.maximum(-demands.fastening, 0.0)
    row, level, number = index_of_largest(uplift)
    document = f"{demands.job.words.against('uplift')} of one {title} on this panel, at this spacing"
    missing = Unchecked("roof_fastening", title, UP, STRENGTH_UNKNOWN, ROOF_MAKER, document)
    x, y = float(demands.roof.ribs[demands.rib[row]]), float(demands.fastening_y[level])
    place = Location(f"{demands.job.roof.rib_word} {demands.rib[row] + 1}", x, y)
    combination, demand = demands.combinations[number].name, float(uplift[row, level, number])
    return Check(
        "roof_fastening", title, "force", demand=demand, combination=combination, place=place, unchecked=(missing,)
    )


def _bearing(roof: Roof) -> str:
    """Reason why a fastening needs no strength when the panel is pushed down."""
    part = "clip" if roof.floats and not roof.solid_deck else "panel"
    return f"the {part} bears on the {roof.support} below it, so that nothing pulls on the fastening"


def _governing(demands: Demands, ratios: DemandOverResistance | SumOfRatios, rib: Ints, case: str) -> Check:
    job, ribs = demands.job, demands.roof.ribs

    def place(row: int, fastening: int) -> Location:
        name = f"{job.roof.rib_word} {rib[row] + 1}, {case}"
        return Location(name, float(ribs[rib[row]]), float(demands.fastening_y[fastening]))

    return governing_check("roof_fastening", job.roof.fastening_word, "force", ratios, demands.combinations, place)


# -- explanation: fastenings are given by row (their rib among those with attachments), level, and combination ------


def explain_roof_fastening(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """Steps to the controlling fastening's load and utilisation, with the array or without it."""
    cases = fastening_ratios(trail.demands)
    if trail.job.roof.fastening.uplift is None:
        row, level, number = governing_fastening(trail)
        return explain_through(trail, main_attachment(trail, row, level, number), row, level, number)
    case = next(case for case in cases if check.place.name.endswith(case))
    (row, level), number = cases[case].governing
    if case == WITHOUT_ARRAY:
        return explain_fastening_alone(trail, check, int(trail.demands.rib[row]), level, number)
    if case == DOWN_LOAD:
        return []
    if trail.job.hardware.bypasses_sheet:
        surface = surface_load_steps(trail, int(trail.demands.rib[row]), level, number)
        return [*surface, *_fastening_steps(trail, row, level, number)]
    return explain_through(trail, main_attachment(trail, row, level, number), row, level, number)


def explain_through(
    trail: CalculationTrail, attachment: int, row: int, level: int, number: int
) -> list[CalculationStep]:
    """Steps from the wind to the utilisation of an attachment, and on to that of a fastening, in one combination."""
    return [
        *steps_to_attachment(trail, attachment, number),
        *_fastening_steps(trail, row, level, number),
    ]


def governing_fastening(trail: CalculationTrail) -> tuple[int, int, int]:
    """The fastening with the largest utilisation with the array in place: row, level and combination.

    Where no strength is known, that with the largest uplift.
    """
    if trail.job.roof.fastening.uplift is None:
        row, level, number = index_of_largest(-trail.demands.fastening)
        return row, level, number
    with_array = next(iter(fastening_ratios(trail.demands).values()))
    (row, level), number = with_array.governing
    return row, level, number


def main_attachment(trail: CalculationTrail, row: int, level: int, number: int) -> int:
    """The attachment that loads a fastening most."""
    on_rib, per_force, _ = shares_of_fastening(trail, row, level)
    return int(on_rib[np.argmax(np.abs(per_force * trail.demands.attachment_normal[on_rib, number]))])


def main_fastening(trail: CalculationTrail, attachment: int) -> tuple[int, int]:
    """The fastening that carries most of an attachment's load: row and level."""
    attachments, demands = trail.layout.attachments, trail.demands
    row = int(np.flatnonzero(demands.rib == attachments.rib[attachment])[0])
    y, levels = attachments.y[attachment].reshape(1, 1), np.flatnonzero(demands.is_fastened[row])
    shares = solve_beams(demands.fastening_y[levels][None], UnitForces(y, y)).reactions[0, :, 0]
    return row, int(levels[np.argmax(shares)])


def shares_of_fastening(trail: CalculationTrail, row: int, level: int) -> tuple[Ints, Floats, Floats]:
    """Attachments on a rib (n,), and a fastening's share of their normal forces and of their couples [1/m]."""
    attachments, demands = trail.layout.attachments, trail.demands
    on_rib = np.flatnonzero(attachments.rib == demands.rib[row])
    is_fastened, y = demands.is_fastened[row], attachments.y[on_rib][None]
    supports, here = demands.fastening_y[is_fastened][None], int(is_fastened[:level].sum())
    per_force = solve_beams(supports, UnitForces(y, y)).reactions[0, here]
    per_couple = solve_beams(supports, UnitCouples(y)).reactions[0, here]
    return on_rib, per_force, per_couple


def _fastening_steps(trail: CalculationTrail, row: int, level: int, number: int) -> list[CalculationStep]:
    """Steps to a fastening's reaction in a combination, and its utilisation."""
    job, demands, combination = trail.job, trail.demands, trail.demands.combinations[number]
    word, reaction = job.roof.fastening_word, pounds(demands.fastening[row, level, number])
    to_reaction = [*_below_soffit(trail, row, level, number), _reaction_step(trail, row, level, number, reaction)]
    if job.roof.fastening.uplift is None:
        return to_reaction
    mode = strength(job.roof.fastening.stated_uplift).governing(combination)
    terms, equation = {"R": reaction, "Ra": pounds(mode.resistance(combination))}, "max(-R, 0) / Ra"
    if not job.roof.floats and job.roof.fastening.in_plane is not None:
        shear = abs(demands.panel_in_plane[row, number]) / demands.is_fastened[row].sum()
        allowable = shear_strength(job.roof.fastening.in_plane).resistance(combination)
        terms |= {"V": pounds(shear), "Va": pounds(allowable)}
        equation += " + V / Va"
    with_array = next(iter(fastening_ratios(demands).values()))
    found = float(with_array.utilisation[row, level, number])
    return [
        *to_reaction,
        *mode.steps,
        mode.resistance_step(combination),
        utilisation_step(identifier(word), found, equation, terms, f"utilisation of the {word}"),
    ]


def _below_soffit(trail: CalculationTrail, row: int, level: int, number: int) -> list[CalculationStep]:
    """Steps to the pressure from below a fastening under modules, where it hangs over an open soffit."""
    demands, steps = trail.demands, list[CalculationStep]()
    rib = int(demands.rib[row])
    if demands.roof.covered_fraction[rib, level] > 0:
        place, area = tributary(trail, rib, level), demands.roof.area[rib, [level]]
        for case in demands.combinations[number].factors:
            if case in demands.loads.wind_cases:
                demands.loads.pressure_below_panel(case, place, area, steps.append)
    return steps


def _reaction_step(trail: CalculationTrail, row: int, level: int, number: int, reaction: Term) -> CalculationStep:
    """A fastening's reaction from the attachments on its rib, and from wind and snow on its own area."""
    job, demands = trail.job, trail.demands
    on_rib, per_force, per_couple = shares_of_fastening(trail, row, level)
    normal, along = demands.attachment_normal[on_rib, number], demands.attachment_in_plane[on_rib, number]
    normal = np.minimum(normal, 0.0) if job.roof.solid_deck else normal
    turning = np.flatnonzero(along)
    levers = -per_couple[turning] * trail.layout.attachments.height
    products = products_of("r", per_force, "", "N", normal) + products_of("t", levers, "", "V", along[turning])
    word, covered = job.roof.rib_word, demands.roof.covered_fraction[demands.rib[row], level]
    place = f"{both(demands.fastening_y[level], 'length', job.system)} from the eave"
    fastening = f"{job.roof.fastening_word} on {word} {demands.rib[row] + 1}"
    meaning = (
        f"{job.words.of('reaction')} of the {fastening}, {place}: the {word} as a continuous beam, and the surface "
        f"load on the fastening's own area ({covered:.0%} of it under modules)"
    )
    surface = {"surface": pounds(demands.fastening_from_surface[row, level, number])}
    return sum_step("R", meaning, reaction, [] if job.hardware.bypasses_sheet else products, surface)


def _strengths(job: Job, check: Check) -> tuple[str, ...]:
    if check.place.name.endswith(DOWN_LOAD):
        return ("roof.fastening.bearing",)
    paths = {UPLIFT: "roof.fastening.uplift", SHEAR: "roof.fastening.in_plane"}
    return tuple(paths[part.name] for part in check.parts) or (paths[UPLIFT],)


LINK = Link(
    "roof_fastening",
    title=lambda job: job.roof.fastening_word,
    help=lambda job: "the fastening that holds the panel to the structure; the larger of with and without the array",
    check=check_roof_fastening,
    explain=explain_roof_fastening,
    check_roof_alone=check_fastening_alone,
    limits_roof=lambda job: True,
    strengths=_strengths,
    search_rank=1,
)
