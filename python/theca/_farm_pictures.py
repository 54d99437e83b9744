"""Pictures of the farm: flows to each tank, shade, reach, drain-back, oxygen in a power cut, wall heat, rotation, money.

Drawn in the look of `theca.plot`, where they are found.
"""
from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.colors import ListedColormap  # type: ignore
from matplotlib.figure import Figure  # type: ignore
from matplotlib.patches import Circle, Rectangle  # type: ignore

from . import farm, hydraulics, structure, study
from .plot import BLUE, GREY, INCH, INK, ORANGE, PALE, RED, SKY, _colorbar, _drawn, _figure, _titles
from .units import registry

GPH = 3.785411784e-3 / 3600.0


@_drawn
def tank_flows(design, *, title: str | None = None) -> Figure:
    """What the return pump gives to each tank, against the mean and the limits of balance.

    Parameters
    ----------
    design : study.Design
    """
    flow = hydraulics.solve(study.manifold(design), study.pump_curve(design), design.site.water.kinematic_viscosity).si
    rows = design.rooms.layout.rows
    mean, limit = flow.mean_branch_flow_m3_per_s / GPH, float(design.pipes.balance_limit)
    fig = _figure(9.0, 3.4)
    ax = fig.subplots()
    names: list[str] = []
    for header, (row, tanks) in zip(flow.headers, rows.items()):
        values = np.asarray(header.branch_flows_m3_per_s) / GPH
        at = np.arange(len(names), len(names) + len(values))
        within = np.abs(values / mean - 1.0) <= limit
        ax.bar(at[within], values[within], width=0.7, color=SKY, edgecolor=INK, linewidth=0.6)
        ax.bar(at[~within], values[~within], width=0.7, color=ORANGE, edgecolor=INK, linewidth=0.6, hatch="///")
        for x, v in zip(at, values):
            ax.text(x, v, f"{v:.0f}", ha="center", va="bottom", fontsize=7.5)
        ax.text(at.mean(), -0.17, row.replace("_", " "), ha="center", va="top", fontsize=8.5, color=GREY,
                transform=ax.get_xaxis_transform())
        if names:
            ax.axvline(at[0] - 0.5, color=GREY, linewidth=0.6)
        names += list(tanks)
    ax.axhspan(mean * (1 - limit), mean * (1 + limit), color=BLUE, alpha=0.12, linewidth=0)
    ax.axhline(mean, color=BLUE, linewidth=1.0)
    ax.set_xlim(-0.6, len(names) - 0.4)
    ax.set_xticks(range(len(names)), names, fontsize=8)
    ax.tick_params(axis="x", length=0)
    ax.set_ylabel("flow, US gal/h")
    other = ax.secondary_yaxis("right", functions=(lambda q: q * GPH * 6e4, lambda q: q / GPH / 6e4))
    other.set_ylabel("L/min")
    _titles(ax, title or f"Flow to each tank of {design.site.name}",
            f"line: mean {mean:.0f} gal/h; band: ±{100 * limit:.0f} %; hatched: outside it")
    return fig


@_drawn
def shadow(shaded, bodies=None, *, title: str | None = None) -> Figure:
    """Share of the light on a plane that colonies, pipes and tiers take, in plan.

    Parameters
    ----------
    shaded : light.ShadowMap
    bodies : light.ShadingBodies, optional
        their outlines
    """
    raw, plain = shaded.shaded.si, shaded.unshaded.si
    left = np.asarray(raw.values).reshape(raw.ny, raw.nx)
    whole = np.asarray(plain.values).reshape(raw.ny, raw.nx)
    share = 100.0 * (1.0 - np.divide(left, whole, out=np.ones_like(left), where=whole > 0))
    length, width = raw.length_m / INCH, raw.width_m / INCH
    fig = _figure(9.0, min(7.5, 7.4 * width / length + 1.5))
    ax = fig.subplots()
    image = ax.imshow(share, origin="lower", extent=(0, length, 0, width), cmap="cividis_r", vmin=0, vmax=100,
                      aspect="equal", interpolation="nearest")
    _colorbar(fig, image, ax, "light taken away, %")
    if bodies is not None:
        for body in [*bodies.discs, *bodies.cylinders, *bodies.hemispheres]:
            ax.add_patch(Circle((body.si.x_m / INCH, body.si.y_m / INCH), body.si.radius_m / INCH, fill=False,
                                edgecolor="white", linewidth=1.0))
        for pipe in bodies.pipes:
            p = pipe.si
            ax.plot([p.from_x_m / INCH, p.to_x_m / INCH], [p.from_y_m / INCH, p.to_y_m / INCH], color=RED, linewidth=1.0,
                    linestyle=(0, (4, 2)))
        for plate in bodies.plates:
            p = plate.si
            ax.add_patch(Rectangle((p.x_m / INCH, p.y_m / INCH), p.length_m / INCH, p.width_m / INCH, fill=False,
                                   edgecolor=RED, linewidth=1.0, linestyle=(0, (4, 2))))
    ax.set_xlim(0, length)
    ax.set_ylim(0, width)
    ax.set_xlabel("along the tank, in")
    ax.set_ylabel("across, in")
    mean = 100.0 * (1.0 - left.mean() / whole.mean()) if whole.mean() > 0 else 0.0
    _titles(ax, title or "Shade on a plane under water",
            f"mean {mean:.0f} % taken; plane {raw.plane_depth_m / INCH:.1f} in under the surface; circles: colonies, "
            "dashed: pipes and plates")
    return fig


@_drawn
def reach(design, kind: str | None = None, who: str | None = None, *, columns: int = 120, rows: int = 50,
          title: str | None = None) -> Figure:
    """Cross-section of a tank: which bend of the trunk reaches which place, and where no hand gets.

    Parameters
    ----------
    design : study.Design
    kind : str, optional
        of tank; the first
    who : str, optional
        of the workers' bodies; the shortest
    """
    kind = kind or next(iter(design.tanks.kinds))
    tank = design.tanks.kinds[kind]
    people = {name: study.body(design, name) for name in design.workers.bodies}
    who = who or min(people, key=lambda name: people[name].si.shoulder_height_m)
    quantity = registry().Quantity
    rim = tank.stand_height + tank.outside_height
    base = tank.stand_height + tank.glass_base
    section = farm.RackSection(outside_width=tank.outside_width, wall_thickness=tank.glass_nominal, rim_height=rim,
                               rim_brace_width=tank.rim_brace.width if tank.rim_brace is not None else quantity(0, "m"),
                               plane_height=base + quantity(1, "mm"))
    sides = farm.OpenSides.both if tank.open_sides >= 2 else farm.OpenSides.one
    limit = quantity(60, "deg")
    points = farm.reach_map(people[who], section, sides, farm.Stance(shoulder_stand_off=design.workers.shoulder_stand_off),
                            limit, columns, rows)
    bends = np.degrees([p.si.bend_rad for p in points]).reshape(rows, columns)
    reached = np.array([p.si.reached for p in points]).reshape(rows, columns)
    shown = np.where(reached, bends, np.nan)
    width, low, high = tank.outside_width.m_as("inch"), base.m_as("inch"), rim.m_as("inch")
    wall = tank.glass_nominal.m_as("inch")
    fig = _figure(8.6, 4.2)
    ax = fig.subplots()
    extent = (wall, width - wall, low, high)
    image = ax.imshow(shown, origin="lower", extent=extent, cmap="cividis", vmin=0, vmax=60, aspect="equal",
                      interpolation="nearest")
    ax.imshow(np.where(reached, np.nan, 1.0), origin="lower", extent=extent, cmap=ListedColormap([PALE]), aspect="equal",
              interpolation="nearest")
    if not reached.all():
        ax.contourf(np.linspace(wall, width - wall, columns), np.linspace(low, high, rows), (~reached).astype(float),
                    levels=[0.5, 1.5], colors="none", hatches=["xxx"])
    _colorbar(fig, image, ax, "least bend of the trunk, degrees")
    for x in (0.0, width - wall):
        ax.add_patch(Rectangle((x, low), wall, high - low, facecolor=SKY, edgecolor=INK, linewidth=0.7))
    plane = (base + tank.rack_plane).m_as("inch")
    ax.axhline(plane, color="white", linewidth=1.4)
    ax.text(0.5 * width, plane, "rack plane", color="white", fontsize=8, ha="center", va="bottom")
    ax.set_xlim(-1, width + 1)
    ax.set_ylim(low - 0.5, high + 0.5)
    ax.set_xlabel("across the tank from the person's side, in")
    ax.set_ylabel("over the floor, in")
    dead = 100.0 * (1.0 - reached.mean())
    _titles(ax, title or f"Reach into tank {kind}, {who.replace('_', ' ')}",
            f"hatched: out of reach with the trunk bent to 60° ({dead:.0f} % of the section); over 20° only for short "
            "spells (ISO 11226)")
    return fig


@_drawn
def drain_back(course, names, *, rim=None, sump_running=None, title: str | None = None) -> Figure:
    """Levels against time after the pump stopped or started.

    Parameters
    ----------
    course : hydraulics.DrainBackCourse
    names : of the tanks, in their order
    rim : length, optional
        of the sump
    sump_running : length, optional
        its level with the pump on
    """
    moments = course.moments
    minutes = np.array([m.si.time_s for m in moments]) / 60.0
    fig = _figure(8.6, 4.4)
    tanks, sump = fig.subplots(2, 1, sharex=True)
    for i, name in enumerate(names):
        level = np.array([m.si.tank_levels_m[i] for m in moments]) / INCH
        tanks.plot(minutes, level - level[-1], color=(BLUE, ORANGE, INK, RED)[i % 4], linewidth=1.6,
                   linestyle=("-", "--", "-.", ":")[i % 4], label=name)
    tanks.set_ylabel("tank over its\nlast level, in")
    tanks.legend(fontsize=8.5)
    tanks.grid(axis="y")
    sump.plot(minutes, np.array([m.si.sump_level_m for m in moments]) / INCH, color=INK, linewidth=1.8)
    for marked, words, colour in ((rim, "rim of the sump", RED), (sump_running, "with the pump on", GREY)):
        if marked is not None:
            at = marked.m_as("inch")
            sump.axhline(at, color=colour, linewidth=1.0, linestyle=(0, (4, 2)))
            sump.text(minutes[-1], at, words + " ", ha="right", va="bottom", fontsize=8, color=colour)
    sump.set_ylabel("sump level, in")
    sump.set_xlabel("minutes")
    sump.grid(axis="y")
    sump.set_xlim(minutes[0], minutes[-1])
    _titles(tanks, title or "Levels after the pump stopped",
            f"sump from {course.lowest_sump_level.m_as('inch'):.1f} to {course.highest_sump_level.m_as('inch'):.1f} in")
    return fig


@_drawn
def oxygen(design, *, hours: float = 12.0, title: str | None = None) -> Figure:
    """Oxygen in each kind of tank after the power went, every slot filled, for the gas transfers that the design states."""
    quantity = registry().Quantity
    stock: Any = design.stock
    start = farm.oxygen_saturation(design.site.water.temperature, design.site.water.salinity)
    times = np.linspace(0.0, hours, 121)
    fig = _figure(8.6, 3.8)
    ax = fig.subplots()
    lasts = []
    for row, (name, kind) in enumerate(design.tanks.kinds.items()):
        shell = study.shell(design, kind)
        surface = structure.inside_area(shell)
        fish = stock.fish.get(name)
        consumption = farm.oxygen_consumption(farm.Breathing(
            coral_area=study.slots_per_tank(design, kind) * stock.mean_fragment_area, coral_rate=stock.dark_respiration,
            fish_mass=fish.count * fish.mass if fish is not None else quantity(0, "kg"), fish_rate=stock.fish_oxygen_use,
            film=stock.film_oxygen_use * (surface / stock.film_reference_area).m_as("")))
        for transfer, line in zip(stock.kL, ("-", "--", ":", "-.")):
            tank = farm.StillTank(water=structure.water_volume(shell), surface=surface, transfer=transfer,
                                  saturation=start, consumption=consumption)
            level = [farm.oxygen_after(tank, start, quantity(t, "h")).m_as("mg/L") for t in times]
            shown = np.where(np.array(level) >= 0.0, level, np.nan)
            ax.plot(times, shown, color=(BLUE, ORANGE)[row % 2], linestyle=line, linewidth=1.7,
                    label=f"tank {name}, surface {transfer.m_as('m/day'):g} m/d")
            if transfer == stock.kL[0]:
                end = farm.time_to_limit(tank, start, stock.oxygen_limit)
                lasts.append(f"{name}: {end.m_as('h'):.1f} h" if end is not None else f"{name}: holds")
    limit = stock.oxygen_limit.m_as("mg/L")
    ax.axhspan(0, limit, color=RED, alpha=0.07, linewidth=0)
    ax.axhline(limit, color=RED, linewidth=1.0)
    ax.text(0.0, limit, " limit", ha="left", va="bottom", fontsize=8, color=RED)
    for cut in stock.power_cuts:
        at = cut.m_as("h")
        if at <= hours:
            ax.axvline(at, color=GREY, linewidth=0.8, linestyle=(0, (1, 2)))
            ax.text(at, 0.02, f" {at:g} h cut", fontsize=8, color=GREY, va="bottom",
                    transform=ax.get_xaxis_transform())
    ax.set_xlim(0, hours)
    ax.set_ylim(0, None)
    ax.set_xlabel("hours without power")
    ax.set_ylabel("oxygen, mg/L")
    ax.legend(fontsize=8, loc="upper right")
    ax.grid(axis="y")
    _titles(ax, title or "Oxygen while nothing moves the water", "to the limit with the stillest surface: " + "; ".join(lasts))
    return fig


@_drawn
def wall_heat(options, *, title: str | None = None) -> Figure:
    """What a tank's walls lose with each kind of wall, beside what k/t without films would say.

    Parameters
    ----------
    options : list of thermal.TankOptionHeat, as `study.wall_options` gives them
    """
    names = [o.name for o in options]
    walls = np.array([o.walls.m_as("W") for o in options])
    ignored = np.array([o.walls_films_ignored.m_as("W") for o in options])
    whole = np.array([o.balance.total_loss.m_as("W") for o in options])
    fig = _figure(8.6, 1.5 + 0.75 * len(names))
    ax = fig.subplots()
    at = np.arange(len(names))
    most = 1.9 * max(whole.max(), walls.max())
    for offset, values, colour, hatch, label in ((-0.27, whole, PALE, "", "whole tank"), (0.0, walls, BLUE, "", "walls, with films"),
                                                 (0.27, ignored, ORANGE, "///", "walls by k/t, films ignored: wrong")):
        ax.barh(at + offset, np.minimum(values, most), height=0.25, color=colour, edgecolor=INK, linewidth=0.6, hatch=hatch,
                label=label)
        for y, v in zip(at + offset, values):
            beyond = v > most
            ax.text(min(v, most), y, f" {v:,.0f} W" + (" (beyond the picture)" if beyond else ""), va="center",
                    ha="right" if beyond else "left", fontsize=8,
                    bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.8} if beyond else None)
    ax.set_yticks(at, names)
    ax.tick_params(axis="y", length=0)
    ax.invert_yaxis()
    ax.set_xlim(0, 1.05 * most)
    ax.set_xlabel("heat lost, W")
    ax.legend(fontsize=8.5, loc="lower right")
    _titles(ax, title or "Heat through the walls", "films of water and air hold most of it back, not the pane")
    return fig


@_drawn
def rotation_calendar(design, *, title: str | None = None) -> Figure:
    """Which tank rests when, over one full rotation.

    Parameters
    ----------
    design : study.Design
    """
    names = [name for kind in design.tanks.kinds.values() for name in kind.names]
    slots = [study.slots_per_tank(design, kind) for kind in design.tanks.kinds.values() for _ in kind.names]
    rotation = design.production.rotation
    steps = farm.play_rotation(slots, rotation.fallow_tanks)
    weeks = rotation.move_interval.m_as("week")
    fig = _figure(9.0, 1.6 + 0.24 * len(names))
    ax = fig.subplots()
    for step in steps[:-1]:
        raw = step.si
        for place in raw.fallow:
            ax.barh(place, weeks, left=raw.move * weeks, height=0.7, color=SKY, edgecolor=INK, linewidth=0.6, hatch="...")
    last = (len(steps) - 1) * weeks
    ax.set_yticks(range(len(names)), names, fontsize=8)
    ax.tick_params(axis="y", length=0)
    ax.set_ylim(len(names) - 0.4, -0.6)
    ax.set_xlim(0, last)
    ax.set_xticks(np.arange(0, last + 0.1, 2 * weeks))
    ax.grid(axis="x")
    ax.set_axisbelow(True)
    ax.set_xlabel("weeks")
    least = min(s.si.stocked_slots for s in steps)
    _titles(ax, title or f"Rotation of {design.site.name}",
            f"hatched: fallow; a move every {weeks:g} weeks; at least {least:,} of {sum(slots):,} slots are stocked. That "
            "fallow tanks shed pests is not proven")
    return fig


@_drawn
def tornado(result, *, most: int = 12, title: str | None = None) -> Figure:
    """What each input alone does to the money, longest bar first.

    Parameters
    ----------
    result : study.Tornado
    """
    bars = list(result.bars)[:most]
    fig = _figure(9.0, 1.6 + 0.42 * len(bars))
    ax = fig.subplots()
    nominal, unit = result.nominal.shown_value, result.nominal.shown_unit
    scale = nominal / result.nominal.si_value if result.nominal.si_value else 1.0

    # Coherent SI in the units that growers read.
    readable = {"m": (1 / INCH, "in"), "1/s": (86400.0, "/d"), "USD/s": (3600.0, "USD/h"), "s": (1 / 86400.0, "d"),
                "W": (1.0, "W"), "m3/s": (1 / GPH, "gal/h"), "USD/J": (3.6e6, "USD/kWh"), "mol/m2/s": (1e6, "umol/m2/s")}

    def short(value, unit):
        factor, symbol = readable.get(unit, (1.0, unit))
        return f"{factor * value:.3g} {symbol}".strip()

    for row, bar in enumerate(bars):
        low, high = bar.at_low.si_value * scale, bar.at_high.si_value * scale
        ax.barh(row, low - nominal, left=nominal, height=0.6, color=ORANGE, edgecolor=INK, linewidth=0.6, hatch="///")
        ax.barh(row, high - nominal, left=nominal, height=0.6, color=BLUE, edgecolor=INK, linewidth=0.6)
        for value, end in ((bar.low, low), (bar.high, high)):
            right = end >= nominal
            ax.text(end, row, f" {short(value.shown_value, value.shown_unit)} ", va="center", ha="left" if right else "right",
                    fontsize=7.5)
    ax.axvline(nominal, color=INK, linewidth=1.0)
    ax.set_yticks(range(len(bars)), [b.key for b in bars], fontsize=8)
    ax.tick_params(axis="y", length=0)
    ax.invert_yaxis()
    ax.margins(x=0.18)
    ax.set_xlabel(unit)
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    ax.grid(axis="x")
    ax.set_axisbelow(True)
    _titles(ax, title or "What moves the money",
            f"each input alone, as stated: {nominal:,.0f} {unit}; hatched: at its low value, plain: at its high")
    return fig
