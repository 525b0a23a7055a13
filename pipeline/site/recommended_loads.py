"""The load figures that only the recommended kits get: where the moment comes from, and what would change the answer."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pipeline import rounding
from pipeline.loads.formulas import Values
from pipeline.loads.load_arrays import Floats, Ints, MomentPart
from pipeline.loads.screen import figures
from pipeline.loads.sensitivities import Sensitivities, sensitivities, widest_within
from pipeline.loads.working import parts
from pipeline.rules.kits import Items, load_inputs
from pipeline.sheets.report import Margins, MomentShare
from pipeline.site.compute import Answer
from pipeline.site.data_lines import known
from pipeline.site.task import World


@dataclass(frozen=True, eq=False, repr=False)
class RecommendedLoads:
    """Figures of the recommended kits, one entry each; `values` as computed, the others as shown, rounded."""

    kits: Ints  # their numbers in the answer, rising
    values: Values
    parts: tuple[MomentPart, ...]
    margins: Sensitivities
    widest: Floats  # [m]

    def shares(self, kit: int) -> tuple[MomentShare, ...]:
        """Where the moment at the ground of one recommended kit comes from."""
        b = int(np.searchsorted(self.kits, kit))
        return tuple(MomentShare(p.what, float(p.play[b]), float(p.storm[b])) for p in self.parts)

    def margins_of(self, kit: int) -> Margins:
        """What would change the answer of one recommended kit."""
        b, m = int(np.searchsorted(self.kits, kit)), self.margins
        return Margins(
            rusted=known(m.rusted[b]),
            soft=known(m.soft[b]),
            windier=known(m.windier[b]),
            wind_limit=known(m.wind_limit[b]),
            widest_board=known(self.widest[b]),
            swings=tuple(m.swings[b].tolist()),
            torque=known(rounding.figure(self.values["M_T"])[b]),
        )


def recommended_loads(a: Answer, world: World) -> RecommendedLoads:
    """The figures of all recommended kits of a batch."""
    k = np.flatnonzero(a.kits.rank == 1)
    post = a.kits.post[k]
    inputs = load_inputs(a.posts, world.catalogue, a.fit, Items(post, a.kits.mount[k], a.kits.board[k], a.kits.ring[k]))
    values = figures(inputs, world.policy)
    found = sensitivities(inputs, world.policy, a.posts.size_uncertainty[post], float(world.policy["lean_limit"]))
    rounded = Sensitivities(**{name: rounding.figure(some) for name, some in vars(found).items()})
    worst = np.maximum(a.kits.load["utilisation_play"], a.kits.load["utilisation_storm"])
    widest = widest_within(a.kits.post, world.catalogue.boards.width[a.kits.board], worst, len(a.posts))
    return RecommendedLoads(k, values, rounding.moment_parts(parts(values)), rounded, rounding.length(widest[post]))
