"""How high can the lights go, out of the way of arms, and how many does it take then?"""
from __future__ import annotations

import numpy as np

import theca
import theca.studies._run
from theca.plot import BLUE, GREY, ORANGE, SKY, _drawn, _figure, _titles

HEIGHTS = np.arange(14.0, 49.0, 2.0)  # in, over the water


@_drawn
def answer(design):
    study, light, inch = theca.study, theca.light, theca.registry().inch
    kind_name, kind = next(iter(design.tanks.kinds.items()))
    target, lamp = study.light_target(design), study.luminaire(design)
    plane = light.LitPlane(water=study.waterbody(design, kind), depth=kind.water_depth - kind.rack_plane)
    counts, means = [], []
    for height in HEIGHTS:
        placed = light.fewest_luminaires(target, lamp, plane, height * inch, 12)
        counts.append(len(placed.luminaires) if placed is not None else np.nan)
        means.append(placed.map.mean().m_as("umol/m**2/s") if placed is not None else np.nan)
    figure = _figure(8.6, 5.0)
    number, mean = figure.subplots(2, 1, sharex=True)
    number.step(HEIGHTS, counts, where="mid", color=BLUE, linewidth=2.0)
    number.set_ylabel("fixtures a tank")
    number.set_ylim(0, 13)
    number.grid(True)
    mean.plot(HEIGHTS, means, "o", color=ORANGE)
    low, high = target.lower_mean.m_as("umol/m**2/s"), target.upper_mean.m_as("umol/m**2/s")
    mean.axhspan(low, high, color=SKY, alpha=0.25, linewidth=0)
    mean.text(HEIGHTS[0], low, "wanted mean", ha="left", va="bottom", fontsize=8, color=GREY)
    mean.set_ylabel("mean PPFD,\nµmol m⁻² s⁻¹")
    mean.set_xlabel("fixtures over the water, in")
    mean.set_ylim(0, 1.15 * high)
    mean.set_xlim(HEIGHTS[0] - 1.0, HEIGHTS[-1] + 1.0)
    mean.grid(True)
    _titles(number, f"Fewest fixtures over tank {kind_name} that meet the target", "evenly spaced, walls ignored; no point: none of up "
            "to 12 does")
    possible = [(h, n) for h, n in zip(HEIGHTS, counts) if np.isfinite(n)]
    if not possible:
        return figure, f"No number of fixtures up to 12 meets the target over tank {kind_name} from any of these heights."
    (low_h, low_n), (high_h, high_n) = possible[0], possible[-1]
    words = (f"Over tank {kind_name} the target is met from {low_h:g} in ({low_n:g} fixtures) up to {high_h:g} in ({high_n:g} "
             f"fixtures) over the water. ")
    return figure, words + "Each step up costs light at the ends of the tank first: what is lifted out of the way is paid for in fixtures."


def main(argv=None) -> int:
    return theca.studies._run.run("light_height", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
