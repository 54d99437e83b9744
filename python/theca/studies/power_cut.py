"""The power goes at two in the morning: how long do the tanks last?"""
from __future__ import annotations

import theca
import theca.studies._run


def answer(design):
    assessment = {c.name: c for c in theca.study.farm_checks(design)}
    lines = []
    for name in design.tanks.kinds:
        for cut in design.stock.power_cuts:
            check = assessment[f"farm: tank {name} oxygen, {cut.m_as('h'):g} h without power"]
            lines.append(f"- tank {name}, {cut.m_as('h'):g} h: {check.verdict.name.replace('_', ' ')} "
                         f"({100 * check.utilisation:.0f} % of the oxygen that may go is used)")
    return theca.plot.oxygen(design), ("Oxygen is what runs out first; every slot filled, water still:\n" + "\n".join(lines)
                                       + "\nAn air pump on a battery, or a hand that stirs the surface, moves a tank from the "
                                         "solid line to the dotted one.")


def main(argv=None) -> int:
    return theca.studies._run.run("power_cut", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
