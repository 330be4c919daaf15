"""loadpath place: the places at which each method holds, and the best of them."""

from __future__ import annotations

from argparse import Namespace

from tui.cli import study_output

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand, and nothing heavy above the functions: --help stays instant
    from engine.common.progress import ProgressListener
    from engine.comparison.compare import Comparison
    from engine.scenario.read import Scenario
    from engine.studies.placement import Placement

HELP = "show at which places of the array each method holds, and the best one; on an unsurveyed roof, what may be found"

add_arguments = study_output.add_arguments


def run(options: Namespace) -> int:
    """Print a map a method."""
    from engine.comparison.compare import compare
    from engine.studies.placement import placement
    from engine.studies.record import placement_record
    from tui.render.placement import placement_parts

    def study(scenario: Scenario, methods: tuple[str, ...], progress: ProgressListener) -> tuple[Comparison, Placement]:
        comparison = compare(scenario, methods, progress)
        return comparison, placement(comparison, progress)

    return study_output.run_study(
        options,
        study=study,
        record=lambda found: {"placement": placement_record(found[1])},
        parts=lambda found, width: placement_parts(found[1], found[0], options.units, width),
    )
