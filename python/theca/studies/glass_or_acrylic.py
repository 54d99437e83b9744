"""Glass or acrylic: what is the insulation worth over a winter?"""
from __future__ import annotations

import theca
import theca.studies._run

WINTER_DAYS = 150  # as cold as the design's winter; a real winter is milder on average


def answer(design):
    name = next(iter(design.tanks.kinds))
    options = theca.study.wall_options(design, name)
    lines = []
    for option in options[1:]:
        energy = (option.saved * WINTER_DAYS * theca.registry().day).m_as("kWh")
        promised = (option.saved_films_ignored * WINTER_DAYS * theca.registry().day).m_as("kWh")
        lines.append(f"- {option.name}: saves {option.saved.m_as('W'):.0f} W of {options[0].balance.total_loss.m_as('W'):.0f} W a "
                     f"tank, {energy:.0f} kWh in {WINTER_DAYS} winter days; k/t without films would promise {promised:.0f} kWh")
    return (theca.plot.wall_heat(options, title=f"Heat through the walls of tank {name}, winter night"),
            f"Against {options[0].name} walls, tank {name}:\n" + "\n".join(lines)
            + "\nMost of an open tank's heat leaves by its water surface, whatever its walls are made of.")


def main(argv=None) -> int:
    return theca.studies._run.run("glass_or_acrylic", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
