"""One fallow tank of N: what does it cost, and how much pest loss must it save to pay?"""
from __future__ import annotations

import theca
import theca.studies._run


def answer(design):
    study = theca.study
    tanks = sum(len(kind.names) for kind in design.tanks.kinds.values())
    slots = study.all_slots(design)
    rests = design.production.rotation.fallow_tanks
    none = theca.changed(design, {"production.rotation.fallow_tanks": 0})
    with_rest, without = study.economics(design), study.economics(none)
    steps = theca.farm.play_rotation([study.slots_per_tank(design, kind) for kind in design.tanks.kinds.values()
                                      for _ in kind.names], max(rests, 1))
    least = min(step.stocked_slots for step in steps)
    dollars = lambda cost: f"{cost.m_as('USD'):.2f} USD"
    return theca.plot.rotation_calendar(design), (
        f"With {max(rests, 1)} of {tanks} tanks at rest at least {least:,} of {slots:,} slots are stocked, "
        f"{100 * (1 - least / slots):.1f} % fewer. At the losses by pests that the design assumes "
        f"({100 * design.production.rotation.pest_loss_without:g} % without rest, "
        f"{100 * design.production.rotation.pest_loss_with:g} % with), a sold fragment costs {dollars(with_rest.cost_per_sold)} "
        f"with rotation and {dollars(without.cost_per_sold)} without.\nThat rest lowers losses so far is assumed, not shown by "
        f"data: where tanks share their water, pests do too.")


def main(argv=None) -> int:
    return theca.studies._run.run("fallow", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
