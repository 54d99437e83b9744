"""Which tank starves, and what cures it?"""
from __future__ import annotations

import copy

import numpy as np

import theca
import theca.studies._run
from theca.plot import BLUE, GREY, ORANGE, _drawn, _figure, _titles


def flows(design) -> tuple[list[str], np.ndarray]:
    study = theca.study
    flow = theca.hydraulics.solve(study.manifold(design), study.pump_curve(design), design.site.water.kinematic_viscosity)
    names = [name for tanks in design.rooms.layout.rows.values() for name in tanks]
    return names, np.concatenate([header.branch_flows.m_as("gal/h") for header in flow.headers])


@_drawn
def answer(design):
    names, now = flows(design)
    cases = {"as proposed": now}
    bore = design.pipes.header.bore_variant
    if bore is not None:
        wider = copy.copy(design)
        wider.pipes.header.bore = bore
        cases[f"headers {bore.m_as('inch'):.3g} in"] = flows(wider)[1]
    limit = 100.0 * float(design.pipes.balance_limit)
    figure = _figure(8.6, 3.8)
    ax = figure.subplots()
    for (words, values), colour, marker in zip(cases.items(), (ORANGE, BLUE), ("D", "o")):
        ax.plot(range(len(names)), 100.0 * (values / values.mean() - 1.0), color=colour, marker=marker, linewidth=1.2, label=words)
    ax.axhspan(-limit, limit, color=GREY, alpha=0.12, linewidth=0)
    ax.axhline(0.0, color=GREY, linewidth=0.8)
    ax.set_xticks(range(len(names)), names, fontsize=8)
    ax.set_ylabel("flow over the mean, %")
    ax.legend()
    ax.grid(axis="y")
    _titles(ax, "Share of each tank in the return flow", f"band: ±{limit:g} % asked for")
    worst = int(np.argmin(now))
    words = f"{names[worst]} gets {now[worst]:.0f} gal/h, {100 * (1 - now[worst] / now.mean()):.0f} % less than the mean."
    for cure in theca.study.cures(design, "hydraulics: branch balance")[:3]:
        words += f"\n- {cure.change}: {100 * cure.utilisation_after:.0f} % of the limit is then used"
    return figure, words


def main(argv=None) -> int:
    return theca.studies._run.run("starving_tank", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
