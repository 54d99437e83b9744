"""One level of tanks or two: what do more slots on the same floor cost the people?"""
from __future__ import annotations

import theca
import theca.studies._run
from theca.plot import BLUE, GREY, ORANGE, PALE, RED, _drawn, _figure, _titles


def worked_share(design, kind, person, plane) -> float:
    """Share of a rack's width at this height over the floor that a person reaches with the trunk bent up to 60 degrees."""
    farm, quantity = theca.farm, theca.registry().Quantity
    over_base = plane - kind.glass_base - kind.rack_plane  # the tank moves with its rack
    section = farm.RackSection(outside_width=kind.outside_width, wall_thickness=kind.glass_nominal,
                               rim_height=over_base + kind.outside_height,
                               rim_brace_width=kind.rim_brace.width if kind.rim_brace is not None else quantity(0, "m"),
                               plane_height=plane)
    sides = farm.OpenSides.both if kind.open_sides >= 2 else farm.OpenSides.one
    return farm.reach_up_to(person, section, sides, farm.Stance(shoulder_stand_off=design.workers.shoulder_stand_off),
                            quantity(60, "deg")).share


@_drawn
def answer(design):
    study, farm = theca.study, theca.farm
    name, kind = next(iter(design.tanks.kinds.items()))
    now = kind.stand_height + kind.glass_base + kind.rack_plane
    tiers = {"one level": [now]}
    if design.tanks.two_tier_variant is not None:
        tiers["two levels"] = list(design.tanks.two_tier_variant.rack_planes_above_floor)
    people = {who: study.body(design, who) for who in design.workers.bodies}
    slots = study.slots_per_tank(design, kind)
    hall = design.rooms.hall
    all_slots = study.all_slots(design)
    figure = _figure(8.6, 4.2)
    heights, shares = figure.subplots(1, 2)
    least_below, most_below = (length.m_as("inch") for length in design.workers.light_work_below_elbow)
    lines, worked = [], {}
    x = 0
    ticks = []
    for words, planes in tiers.items():
        reached = []
        for plane in planes:
            at = plane.m_as("inch")
            ticks.append(f"{words},\n{at:.0f} in")
            for j, (who, body) in enumerate(people.items()):
                elbow = farm.shod_elbow(body).m_as("inch")
                low, high = elbow - most_below, elbow - least_below
                colour = (BLUE, ORANGE)[j % 2]
                heights.plot([x - 0.15 + 0.3 * j] * 2, [low, high], color=colour, linewidth=6, solid_capstyle="butt",
                             label=who.replace("_", " ") if x == 0 else None)
            heights.plot([x - 0.35, x + 0.35], [at, at], color=RED, linewidth=2.0)
            reached.append(min(worked_share(design, kind, body, plane) for body in people.values()))
            x += 1
        worked[words] = sum(reached)
        per_area = farm.slots_per_floor_area(len(planes) * all_slots, hall.length * hall.width).m_as("1/ft**2")
        lines.append(f"- {words}: {per_area:.1f} slots on a square foot of hall, were all tanks so; the one who reaches least, "
                     f"standing, reaches {100 * sum(reached) / len(reached):.0f} % of them")
    heights.set_xticks(range(x), ticks, fontsize=8)
    heights.set_ylabel("over the floor, in")
    heights.grid(axis="y")
    heights.legend(fontsize=8, title="best height for light work of", title_fontsize=8)
    _titles(heights, "Rack (line) against elbows (bars)", f"tank {name}; outside the bars backs and arms tire")
    names = list(tiers)
    total = [len(tiers[n]) * slots for n in names]
    shares.bar(names, total, color=PALE, edgecolor=GREY, width=0.6, label="slots")
    shares.bar(names, [worked[n] * slots for n in names], color=BLUE, edgecolor=GREY, width=0.6, hatch="//", label="within reach")
    shares.set_ylabel("slots in one place of a tank")
    shares.legend(fontsize=8)
    _titles(shares, "Slots, and those within reach", "with the trunk bent up to 60°")
    return figure, ("\n".join(lines) + "\nMore levels give more slots on the same floor; the level that stands best gets the work; "
                    "tanks that are hard to reach breed pests (common practice, no source). Nobody climbs on rims or stands.")


def main(argv=None) -> int:
    return theca.studies._run.run("one_or_two_levels", __doc__, answer, argv)


if __name__ == "__main__":
    raise SystemExit(main())
