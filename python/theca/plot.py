"""Pictures: the light on a rack, a bent panel, a whole tank unfolded, pump against pipes, the use of every check; and of
the farm: flows to each tank, shade, reach, drain-back, oxygen in a power cut, wall heat, rotation, what moves the money.

Every function draws into a new figure and returns it; nothing is shown or saved here. Lengths are in inches and light in
umol/m2/s, as growers read them, with SI on a second axis or in the caption where it helps. Colours can be told apart
with the common kinds of colour blindness, and no statement rests on colour alone.
"""
from __future__ import annotations

import matplotlib as mpl  # type: ignore
import numpy as np
from matplotlib.figure import Figure  # type: ignore
from matplotlib.patches import Rectangle  # type: ignore

from . import hydraulics, si, structure, study
from ._table import percent
from .units import UnitError, registry

INCH, PSI, POUND = 0.0254, 6894.757293168361, 4.4482216152605

# Okabe & Ito's palette: told apart with all common kinds of colour blindness.
INK, GREY, PALE = "#22303c", "#7d8790", "#e6eaed"
BLUE, SKY, ORANGE, RED, GREEN = "#0072B2", "#56B4E9", "#E69F00", "#D55E00", "#009E73"
VERDICTS = {"holds": (GREEN, "o"), "marginal": (ORANGE, "D"), "fails": (RED, "X"), "outside_validity": (GREY, "s")}

_LOOK = {
    "font.size": 9.0, "axes.titlesize": 10.5, "axes.titleweight": "bold", "axes.titlelocation": "left",
    "axes.edgecolor": GREY, "axes.labelcolor": INK, "axes.titlecolor": INK, "text.color": INK, "xtick.color": INK,
    "ytick.color": INK, "axes.linewidth": 0.8, "axes.spines.top": False, "axes.spines.right": False,
    "grid.color": PALE, "grid.linewidth": 0.8, "legend.frameon": False, "figure.facecolor": "white",
    "savefig.dpi": 150, "xtick.major.width": 0.8, "ytick.major.width": 0.8,
}


def _figure(width: float, height: float) -> Figure:
    return Figure(figsize=(width, height), layout="constrained")


def _drawn(function):
    """Draws in this module's look without touching the caller's settings."""
    from functools import wraps

    @wraps(function)
    def inner(*args, **kwargs):
        with mpl.rc_context(_LOOK):
            return function(*args, **kwargs)

    return inner


@_drawn
def light_map(source, kind: str | None = None, proposal: str | None = None, *, target=None, luminaires=(),
              title: str | None = None) -> Figure:
    """PPFD over the rack plane in plan, and its least, mean and largest value along the tank.

    Parameters
    ----------
    source : study.Design or light.PpfdMap
        a whole design, with `kind` of tank and light `proposal`, or a map of one's own
    kind, proposal : str, optional
        of the design; the first kind, and the proposal that the costs are reckoned with
    target : light.PpfdTarget, optional
        shown as a band; taken from the design when there is one
    luminaires : sequence of light.PlacedLuminaire
        drawn as outlines; taken from the design when there is one
    """
    if isinstance(source, study.Design):
        kind = kind or next(iter(source.tanks.kinds))
        proposal = proposal or source.money.lights_as
        tank, lights = study.tank_kind(source, kind), study.light_proposal(source, proposal)
        ppfd = study.rack_light(source, tank, lights)
        luminaires = study.luminaires(source, tank, lights)
        target = target or study.light_target(source)
        title = title or f"Light on the rack plane, tank {kind}, proposal {proposal}, as new"
    else:
        ppfd = source
    raw = ppfd.si
    grid = 1e6 * np.asarray(raw.values).reshape(raw.ny, raw.nx)
    length, width = raw.length_m / INCH, raw.width_m / INCH
    x = (np.arange(raw.nx) + 0.5) * length / raw.nx

    drawn_height = 7.4 * width / length
    fig = _figure(9.0, drawn_height + 3.6)
    plan, along = fig.subplots(2, 1, sharex=True, gridspec_kw={"height_ratios": (drawn_height, 2.2)})
    y = (np.arange(raw.ny) + 0.5) * width / raw.ny
    top = max(grid.max(), 1e-9)
    image = plan.imshow(grid, origin="lower", extent=(0, length, 0, width), cmap="cividis", vmin=0, vmax=top,
                        aspect="equal", interpolation="nearest")
    if min(raw.nx, raw.ny) > 1 and grid.max() > grid.min():
        lines = plan.contour(x, y, grid, levels=np.arange(50, top, 50), colors=INK, linewidths=0.6, alpha=0.7)
        plan.clabel(lines, fmt="%.0f", fontsize=7)
    _colorbar(fig, image, plan, "PPFD, µmol m⁻² s⁻¹")
    for placed in luminaires:
        lamp, angle = placed.luminaire.si, placed.si.heading_rad
        outline = Rectangle((-lamp.aperture_length_m / INCH / 2, -lamp.aperture_width_m / INCH / 2),
                            lamp.aperture_length_m / INCH, lamp.aperture_width_m / INCH, fill=False, edgecolor="white",
                            linewidth=1.1, linestyle=(0, (4, 2)))
        outline.set_transform(mpl.transforms.Affine2D().rotate(angle).translate(placed.si.x_m / INCH, placed.si.y_m / INCH)
                              + plan.transData)
        plan.add_patch(outline)
    for place, label, marker in ((raw.darkest(), "least", "v"), (raw.brightest(), "most", "^")):
        px, py, value = place.x_m / INCH, place.y_m / INCH, 1e6 * place.value_mol_per_m2_s
        plan.plot(px, py, marker, color="white", markeredgecolor=INK, markersize=8)
        right = px < 0.8 * length
        plan.annotate(f"{label} {value:.0f}", (px, py), xytext=(8 if right else -8, 0), textcoords="offset points",
                      ha="left" if right else "right", va="center", fontsize=8.5, color=INK,
                      bbox={"boxstyle": "round,pad=0.2", "facecolor": "white", "edgecolor": "none", "alpha": 0.85})
    plan.set_ylabel("across, in")
    _titles(plan, title or "Light on a plane under water",
            f"mean {1e6 * raw.mean():.0f}, least / mean {raw.min_over_mean():.2f}, "
            f"plane {raw.plane_depth_m / INCH:.1f} in ({raw.plane_depth_m:.3f} m) under the surface"
            + ("; dashed: fixtures" if len(luminaires) else ""))

    if target is not None:
        low, high = 1e6 * target.si.lower_mean_mol_per_m2_s, 1e6 * target.si.upper_mean_mol_per_m2_s
        along.axhspan(low, high, color=SKY, alpha=0.18, linewidth=0)
        along.text(length, 0.5 * (low + high), " target\n for the\n mean", ha="left", va="center", fontsize=8, color=BLUE)
        most = 1e6 * target.si.highest_mol_per_m2_s
        along.axhline(most, color=RED, linewidth=1, linestyle=(0, (1, 2)))
        along.text(length, most, " highest", ha="left", va="center", fontsize=8, color=RED)
    along.fill_between(x, grid.min(axis=0), grid.max(axis=0), color=GREY, alpha=0.3, linewidth=0,
                       label="least to most across")
    along.plot(x, grid.mean(axis=0), color=INK, linewidth=1.8, label="mean across")
    along.set_ylim(0, 1.12 * max(top, 1e6 * target.si.highest_mol_per_m2_s if target is not None else 0))
    along.set_xlim(0, length)
    along.set_xlabel("along the tank, in")
    along.set_ylabel("PPFD, µmol m⁻² s⁻¹")
    along.grid(axis="y")
    along.legend(loc="lower center", ncols=2, fontsize=8.5)
    return fig


def _titles(ax, title: str, line: str):
    """A bold title with one quiet line of facts under it."""
    ax.set_title(f"{title}\n", pad=8)
    ax.annotate(line, (0, 1), xytext=(0, 7), xycoords="axes fraction", textcoords="offset points", ha="left", va="bottom",
                fontsize=8.5, color=GREY)


def _colorbar(fig, image, ax, label: str):
    """As high as its axes, also where the axes keep an aspect ratio."""
    inset = ax.inset_axes((1.012, 0.0, 0.016, 1.0))
    bar = fig.colorbar(image, cax=inset)
    bar.set_label(label, fontsize=8.5)
    bar.ax.tick_params(labelsize=8)
    bar.outline.set_visible(False)


@_drawn
def deflected_panel(bent, *, points: int = 61, title: str | None = None) -> Figure:
    """A bent panel seen from the dry side: how far it bows, and the largest tension in its dry face with its direction.

    Parameters
    ----------
    bent : structure.BentPanel
    points : int
        along the longer side of the grid that is drawn
    """
    raw = bent.si
    width, height = raw.panel.width_m, raw.panel.height_m
    nx = max(points if width >= height else int(points * width / height), 9)
    ny = max(points if height >= width else int(points * height / width), 9)
    X, Y = np.meshgrid(np.linspace(0, width, nx), np.linspace(0, height, ny))
    states = raw.at(X, Y)
    bow = 1e3 * _each(states, lambda s: s.deflection_m)
    tension = 1e-6 * _each(states, lambda s: s.far_face.principal_max_Pa)
    angle = _each(states, lambda s: 0.5 * np.arctan2(2 * s.far_face.xy_Pa, s.far_face.x_Pa - s.far_face.y_Pa))

    tall = 7.7 * height / width
    fig = _figure(9.0, min(max(2 * tall + 1.6, 3.6), 11.0))
    upper, lower = fig.subplots(2, 1, sharex=True, sharey=True)
    x, y = X / INCH, Y / INCH

    filled = upper.contourf(x, y, bow, levels=14, cmap="Blues")
    lines = upper.contour(x, y, bow, levels=filled.levels[2::3], colors=INK, linewidths=0.6)
    upper.clabel(lines, lines.levels[:-1], fmt="%.2g", fontsize=7.5)
    _colorbar(fig, filled, upper, "deflection, mm")
    at = raw.max_deflection_at
    _mark(upper, at.x_m / INCH, at.y_m / INCH, f"{1e3 * raw.max_deflection_m:.2f} mm", width / INCH)

    filled = lower.contourf(x, y, np.maximum(tension, 0.0), levels=14, cmap="YlOrBr")
    _colorbar(fig, filled, lower, "tension, MPa")
    every = (slice(2, -2, max(ny // 7, 1)), slice(2, -2, max(nx // 24, 1)))
    length = np.where(tension > 0.0, tension, 0.0) / max(tension.max(), 1e-12)
    lower.quiver(x[every], y[every], (length * np.cos(angle))[every], (length * np.sin(angle))[every], color=INK,
                 pivot="mid", headwidth=0, headlength=0, headaxislength=0, scale=34, width=0.0016)
    at = raw.max_tension_at
    side = "dry face" if raw.max_tension_on_far_face else "wet face"
    _mark(lower, at.x_m / INCH, at.y_m / INCH, f"largest {1e-6 * raw.max_tension_Pa:.2f} MPa, {side}", width / INCH)

    water = min(raw.load.water_depth_m, height) / INCH
    for ax in (upper, lower):
        if raw.load.water_depth_m < height:
            ax.axhline(water, color=BLUE, linewidth=1.2, linestyle=(0, (6, 3)))
            if ax is upper:
                ax.text(0.004 * width / INCH, water, "water line", color=BLUE, fontsize=8, va="bottom", ha="left")
        ax.set_aspect("equal")
        ax.set_ylabel("height, in")
        for spine in ax.spines.values():
            spine.set_visible(False)
    lower.set_xlabel("along the panel, in")
    _titles(upper, title or "Panel under water pressure",
            f"deflection; {raw.panel.material.name}, {1e3 * raw.panel.thickness_m:.2f} mm thick, "
            f"deflection / thickness {raw.deflection_over_thickness:.3f}")
    lower.set_title("largest tension in the dry face; strokes show its direction", fontweight="normal", fontsize=8.5,
                    color=GREY)
    return fig


def _in_mm(metres: float) -> str:
    return f"{metres / INCH:.3g} in ({1e3 * metres:.3g} mm)"


def _psi_mpa(pascals: float) -> str:
    return f"{pascals / PSI:,.3g} psi ({1e-6 * pascals:.3g} MPa)"


def _across_plane(part) -> str:
    """The displacement that is out of a part's plane."""
    if part in ("front_wall", "back_wall"):
        return "displacement_y_m"
    return "displacement_x_m" if part in ("left_wall", "right_wall") else "displacement_z_m"


def _unfolded(tank, part, gap: float, x, y):
    """Where a place of a part is drawn, in metres: walls folded out of the base, the strips in a plan of their own."""
    length, width, height = tank.inside_length_m, tank.inside_width_m, tank.wall_height_m
    name = part.part.name
    if name == "front_wall":
        return x, -gap - y
    if name == "back_wall":
        return x, width + gap + y
    if name == "left_wall":
        return -gap - y, x
    if name == "right_wall":
        return length + gap + y, x
    if name == "base":
        return x, y
    up = width + height + 2.6 * gap
    middle_x, middle_y = 0.5 * (length - part.width_m), 0.5 * (width - part.height_m)
    if name == "cross_brace":
        return tank.cross_braces[part.number].at_m - 0.5 * part.width_m + x, up + middle_y + y
    corner = {"front_rim": (middle_x, 0.0), "back_rim": (middle_x, width - part.height_m), "left_rim": (0.0, middle_y),
              "right_rim": (length - part.width_m, middle_y)}[name]
    return corner[0] + x, up + corner[1] + y


@_drawn
def bent_tank(bent, *, points: int = 49, title: str | None = None) -> Figure:
    """A whole bent tank unfolded: how far every sheet bows out of its plane, and the largest tension in either face.

    The base is in the middle with the walls folded out of it, their feet at the base; rim strips and cross braces are
    above in plan. The largest value of each field is marked, and on the joints the largest pull per length.

    Parameters
    ----------
    bent : structure.BentTank
        what `structure.bend` returns for a `structure.Tank`
    points : int
        along the longer side of the grid that is drawn of each sheet
    """
    if not isinstance(bent, structure.BentTank):
        raise UnitError("bent", "a structure.BentTank", type(bent).__name__)
    raw = bent.si
    tank = raw.tank
    gap = 0.16 * tank.wall_height_m
    fields: list = []
    for part in raw.parts:
        longest = max(part.width_m, part.height_m)
        nx, ny = (max(int(points * side / longest), 7) for side in (part.width_m, part.height_m))
        X, Y = np.meshgrid(np.linspace(0, part.width_m, nx), np.linspace(0, part.height_m, ny))
        states = si.structure.state_at(raw, part.part, X, Y, part.number)
        across = _across_plane(part.part.name)
        bow = np.abs(_each(states, lambda s, across=across: getattr(s, across)))
        tension = np.maximum(_each(states, lambda s: s.max_tension_Pa), 0.0)
        px, py = _unfolded(tank, part, gap, X, Y)
        fields.append((part, px / INCH, py / INCH, bow, tension))

    wide = (tank.inside_length_m + 2 * (tank.wall_height_m + gap)) / INCH
    strips = [p for p in raw.parts if p.part.name.endswith(("rim", "brace"))]
    tall = max(f[2].max() for f in fields) - min(f[2].min() for f in fields)
    fig = _figure(9.6, min(2 * 7.4 * (tall + gap / INCH) / wide + 1.6, 18.0))
    upper, lower = fig.subplots(2, 1)
    sheets = [p for p in raw.parts if p not in strips]
    for ax, which, cmap, words in ((upper, 3, "Blues", _in_mm), (lower, 4, "YlOrBr", _psi_mpa)):
        if which == 3:
            top = max(p.max_deflection_m for p in raw.parts)
        else:
            top = max(p.max_tension_Pa for p in raw.parts)
        unit = INCH if which == 3 else PSI
        levels = unit * mpl.ticker.MaxNLocator(9).tick_values(0.0, max(top, 1e-12) / unit)
        filled = None
        for field in fields:
            part, x, y, values = field[0], field[1], field[2], field[which]
            filled = ax.contourf(x, y, values, levels=levels, cmap=cmap, extend="max")
            inner = [v for v in levels[1:] if values.min() < v < values.max()]
            if inner:
                ax.contour(x, y, values, levels=inner, colors=INK, linewidths=0.5)
            ax.plot([x.min(), x.max(), x.max(), x.min(), x.min()], [y.min(), y.min(), y.max(), y.max(), y.min()],
                    color=INK, linewidth=0.9)
        bar = fig.colorbar(filled, ax=ax, shrink=0.75, pad=0.015, aspect=28)
        bar.set_ticks(levels[::2], labels=[words(v) for v in levels[::2]], fontsize=8)
        bar.outline.set_visible(False)
        rims = [p.max_tension_Pa for p in strips if which == 4 and p.part.name.endswith("rim")]
        _name_parts(ax, fields, f"; largest nominal stress {words(max(rims))}" if rims else "")
        _mark_peaks(ax, tank, sheets if which == 4 else raw.parts, gap, which, words)
        ax.set_aspect("equal")
        for side, place in ((ax.set_xlim, 1), (ax.set_ylim, 2)):  # with room for the names outside of the sheets
            low, high = min(f[place].min() for f in fields), max(f[place].max() for f in fields)
            side(low - 0.5 * gap / INCH, high + 0.6 * gap / INCH)
        ax.set_xticks([])
        ax.set_yticks([])
        ax.spines[:].set_visible(False)  # not set_axis_off, with which the layout forgets the title
    _mark_joints(lower, raw, gap)
    joints = raw.joints.name.replace("_", " ")
    fig.suptitle(title or "Tank under its water, unfolded", x=0.01, ha="left", fontsize=10.5, fontweight="bold")
    upper.set_title(
        f"bow out of the plane of each sheet; {tank.inside_length_m / INCH:.0f} x {tank.inside_width_m / INCH:.0f} x "
        f"{tank.wall_height_m / INCH:.0f} in inside, walls {1e3 * tank.wall_thickness_m:.1f} mm, water "
        f"{raw.load.water_depth_m / INCH:.1f} in ({raw.load.water_depth_m:.3f} m), joints {joints}",
        fontweight="normal", fontsize=8.5, color=GREY)
    lower.set_title("larger principal tension of the two faces; triangles: largest load per length of each joint, equal ones once",
                    fontweight="normal", fontsize=8.5, color=GREY)
    return fig


def _name_parts(ax, fields, rim_note=""):
    for part, x, y, *_ in fields:
        name = part.part.name
        if name == "back_rim":
            ax.annotate("rim brace, in plan" + rim_note, (x.mean(), y.max()), xytext=(0, 3), textcoords="offset points", ha="center",
                        va="bottom", fontsize=8, color=INK)
        elif name == "cross_brace":
            ax.annotate("cross brace", (x.max(), y.min() + 0.85 * np.ptp(y)), xytext=(4, 0), textcoords="offset points",
                        ha="left", va="center", fontsize=8, color=INK)
        if name.endswith(("rim", "brace")):
            continue
        sideways = name in ("left_wall", "right_wall")
        place = {"front_wall": (x.mean(), y.min()), "back_wall": (x.mean(), y.max()), "left_wall": (x.min(), y.mean()),
                 "right_wall": (x.max(), y.mean()), "base": (x.mean(), y.min())}[name]
        shift = {"front_wall": (0, -3), "back_wall": (0, 3), "left_wall": (3, 0), "right_wall": (-3, 0),
                 "base": (0, 3)}[name]
        ax.annotate(name.replace("_", " "), place, xytext=shift, textcoords="offset points", fontsize=8, color=INK,
                    rotation=90 if sideways else 0,
                    ha={"left_wall": "left", "right_wall": "right"}.get(name, "center"),
                    va="center" if sideways else "top" if name == "front_wall" else "bottom")


def _mark_peaks(ax, tank, parts, gap, which, words):
    """The largest of all parts."""
    value, place = (("max_deflection_m", "max_deflection_at") if which == 3 else ("max_tension_Pa", "max_tension_at"))
    most = max(parts, key=lambda p: getattr(p, value))
    at = getattr(most, place)
    x, y = _unfolded(tank, most, gap, at.x_m, at.y_m)
    where = face = ""
    if which == 4:
        where = "walls and base:\n"  # a strip's peak is singular: its nominal stress stands beside its name
        outside = "underside" if most.part.name == "base" else "dry face"
        face = f", {outside if most.max_tension_on_outside else 'wet face'}"
    text = words(getattr(most, value)).replace(" (", "\n(")  # short enough to stay on its sheet
    _, middle = _unfolded(tank, most, gap, 0.5 * most.width_m, 0.5 * most.height_m)
    _mark(ax, x / INCH, y / INCH, f"{where}largest {text}{face}", tank.inside_length_m / INCH, above=y < middle)


def _mark_joints(ax, raw, gap):
    """Triangles in the gaps along the base and, for upright joints, the figure in the free corner between two walls."""
    tank = raw.tank
    length, width = tank.inside_length_m, tank.inside_width_m
    for joint in raw.joint_loads:
        load = joint.max_line_load_N_per_m
        text = f"{load * INCH / POUND:.1f} lbf/in\n({1e-3 * load:.2f} N/mm)"
        first, second, at = joint.first.name, joint.second.name, joint.max_line_load_at_m
        walls = {first, second}
        if "base" in walls:
            wall = (walls - {"base"}).pop() if len(walls) == 2 else None
            if wall is None or "wall" not in wall:
                continue
            x, y, marker = {"front_wall": (at, -0.5 * gap, "^"), "back_wall": (at, width + 0.5 * gap, "v"),
                            "left_wall": (-0.5 * gap, at, ">"), "right_wall": (length + 0.5 * gap, at, "<")}[wall]
            ax.plot(x / INCH, y / INCH, marker, color=BLUE, markersize=5)
            upright = wall in ("left_wall", "right_wall")
            if upright:  # in the other half of the gap
                y = (0.68 if at < 0.5 * width else 0.32) * width
            ax.annotate(text.replace("\n", " "), (x / INCH, y / INCH), xytext=(0, 0) if upright else (7, 0),
                        textcoords="offset points", fontsize=7.5, color=BLUE, rotation=90 if upright else 0,
                        ha="center" if upright else "left", va="center")
            continue
        if len(walls & {"front_wall", "back_wall"}) != 1 or len(walls & {"left_wall", "right_wall"}) != 1:
            continue
        left, front = "left_wall" in walls, "front_wall" in walls
        x = -gap - at if left else length + gap + at
        y = -0.5 * gap if front else width + 0.5 * gap
        ax.plot(x / INCH, y / INCH, "v" if front else "^", color=BLUE, markersize=5)
        ax.annotate(text, (x / INCH, y / INCH), xytext=(0, -7 if front else 7), textcoords="offset points", fontsize=7.5,
                    color=BLUE, ha="center", va="top" if front else "bottom")


def _each(states, read):
    return np.array([read(s) for s in states.ravel()]).reshape(states.shape)


def _mark(ax, x: float, y: float, text: str, width: float, above: bool = False):
    right = x < 0.7 * width
    ax.plot(x, y, "o", color="white", markeredgecolor=INK, markersize=6, clip_on=False, zorder=5)
    ax.annotate(text, (x, y), xytext=(9 if right else -9, 3 if above else -3), textcoords="offset points",
                ha="left" if right else "right", va="bottom" if above else "top", fontsize=8.5, zorder=6,
                bbox={"boxstyle": "round,pad=0.2", "facecolor": "white", "edgecolor": "none", "alpha": 0.85})


@_drawn
def pump_and_system_curve(pipes, pump, viscosity, *, variants=None, title: str | None = None) -> Figure:
    """Head of the pump and of the pipes over the flow, and the duty point where they meet.

    Parameters
    ----------
    pipes : hydraulics.Manifold or hydraulics.PipeLine
    pump : hydraulics.PumpCurve
    viscosity : kinematic viscosity of the water
    variants : mapping of label to pipes, optional
        other pipes to compare
    """
    ureg = registry()
    gph, foot = ureg.Quantity(1, "gph").m_as("m**3/s"), 0.3048
    fig = _figure(8.4, 5.8)
    ax = fig.subplots()
    flows = np.array([p.si.flow_m3_per_s for p in pump.points])
    q = np.linspace(flows[0], flows[-1], 200)
    head = si.hydraulics.head(pump.si, q)
    ax.plot(q / gph, head / foot, color=INK, linewidth=2.2, label="pump")
    ax.plot(flows / gph, [p.si.head_m / foot for p in pump.points], "o", color=INK, markersize=4)

    styles = [(BLUE, "-"), (ORANGE, (0, (5, 2))), (GREEN, (0, (1, 1.5))), (RED, (0, (6, 2, 1, 2)))]
    all_pipes = {"pipes as they are": pipes, **(variants or {})}
    for n, (label, one) in enumerate(all_pipes.items()):
        colour, style = styles[n % len(styles)]
        system_q, system_head = _system_curve(one, pump, viscosity)
        flow, duty_head = _duty(one, pump, viscosity)
        ax.plot(system_q / gph, system_head / foot, color=colour, linestyle=style, linewidth=1.8,
                label=f"{label}: {flow / gph:,.0f} gph at {duty_head / foot:.1f} ft "
                      f"({1e3 * flow:.2f} L/s at {duty_head:.2f} m)")
        ax.plot(flow / gph, duty_head / foot, "o", color="white", markeredgecolor=colour, markeredgewidth=2, markersize=9,
                zorder=5)
    ax.set_xlim(0, flows[-1] / gph)
    ax.set_ylim(0, 1.08 * head.max() / foot)
    ax.set_xlabel("flow, gallons (US) per hour")
    ax.set_ylabel("head, ft")
    ax.grid()
    ax.spines["top"].set_visible(True)
    ax.spines["right"].set_visible(True)
    litres = ax.secondary_xaxis("top", functions=(lambda v: v * gph * 1e3, lambda v: v / gph / 1e3))
    litres.set_xlabel("L/s")
    metres = ax.secondary_yaxis("right", functions=(lambda v: v * foot, lambda v: v / foot))
    metres.set_ylabel("m")
    ax.legend(loc="upper left", bbox_to_anchor=(0.0, -0.13), fontsize=8.5, borderaxespad=0.0)
    ax.set_title(f"{title or 'Pump against pipes'}", pad=10)
    return fig


def _duty(pipes, pump, viscosity):
    if isinstance(pipes, hydraulics.Manifold):
        solved = hydraulics.solve(pipes, pump, viscosity).si
        return solved.flow_m3_per_s, solved.pump_head_m
    solved = hydraulics.duty_point(pipes, pump, viscosity).si
    return solved.flow_m3_per_s, solved.head_m


def _system_curve(pipes, pump, viscosity):
    """Flow and head of the pipes. A manifold has no closed system curve: pumps with a share of the head trace it."""
    most = pump.si.points[-1].flow_m3_per_s
    if not isinstance(pipes, hydraulics.Manifold):
        if not isinstance(pipes, hydraulics.PipeLine):
            raise UnitError("pipes", "a hydraulics.Manifold or hydraulics.PipeLine", type(pipes).__name__)
        q = np.linspace(0.0, most, 80)
        return q, si.hydraulics.system_head(pipes.si, q, viscosity.m_as("m**2/s"))
    q, heads = [0.0], [pipes.si.static_head_m]
    highest = pump.si.points[0].head_m
    for share in np.geomspace(0.02, 1.6, 24):
        if share * highest <= 1.05 * pipes.si.static_head_m:
            continue
        weaker = si.hydraulics.PumpCurve(
            points=[p.replace(head_m=share * p.head_m) for p in pump.si.points], interpolation=pump.si.interpolation)
        solved = si.hydraulics.solve(pipes.si, weaker, viscosity.m_as("m**2/s"))
        q.append(solved.flow_m3_per_s)
        heads.append(solved.pump_head_m)
    return np.array(q), np.array(heads)


@_drawn
def utilisations(assessment, *, limit: float = 2.0, title: str | None = None) -> Figure:
    """How far each check is used up: 100 % just meets the stated criterion.

    The whisker is the model's uncertainty; where it crosses 100 % the check is marginal. Values over `limit` stand at the
    edge with their number. Checks without verdict (outside validity) are listed, without a value.
    """
    checks = list(assessment.checks)
    fig = _figure(9.6, 1.3 + 0.185 * len(checks))
    ax = fig.subplots()
    ax.axvspan(1.0, limit * 1.13, color=RED, alpha=0.06, linewidth=0)
    ax.axvline(1.0, color=INK, linewidth=1.2)
    seen: dict[str, int] = {}
    for row, c in enumerate(checks):
        verdict = c.verdict.name
        colour, marker = VERDICTS[verdict]
        seen.setdefault(verdict, 0)
        seen[verdict] += 1
        if verdict == "outside_validity":
            ax.text(0.012, row, "no verdict: outside the model's validity", va="center", fontsize=7.5, color=GREY,
                    style="italic")
            continue
        used = min(c.utilisation, limit)
        end = min(c.utilisation * (1.0 + c.uncertainty), limit)
        ax.plot([0, used], [row, row], color=colour, linewidth=4.5, solid_capstyle="butt", alpha=0.35)
        if end > used:
            ax.plot([used, end], [row, row], color=colour, linewidth=1.0)
            ax.plot(end, row, "|", color=colour, markersize=5)
        ax.plot(used, row, marker, color=colour, markersize=5.5, markeredgewidth=0)
        if c.utilisation > limit:
            ax.text(limit * 1.015, row, percent(c.utilisation), va="center", fontsize=7.5, color=colour, fontweight="bold")
    ax.set_yticks(range(len(checks)), [c.name for c in checks], fontsize=7.5)
    ax.tick_params(axis="y", length=0)
    ax.set_ylim(len(checks) - 0.4, -0.6)
    ax.set_xlim(0, limit * 1.13)
    ticks = np.arange(0, limit + 0.01, 0.25)
    ax.set_xticks(ticks, [f"{100 * t:.0f} %" for t in ticks])
    ax.grid(axis="x")
    ax.set_axisbelow(True)
    ax.spines["left"].set_visible(False)
    previous = None
    for row, c in enumerate(checks):
        module = c.name.split(":", 1)[0]
        if previous is not None and module != previous:
            ax.axhline(row - 0.5, color=GREY, linewidth=0.6)
        previous = module
    for verdict, (colour, marker) in VERDICTS.items():
        if verdict in seen:
            ax.plot([], [], marker, color=colour, markersize=6, linestyle="none",
                    label=f"{verdict.replace('_', ' ')}: {seen[verdict]}")
    ax.set_xlabel("demand / capacity; the line at 100 % is the stated criterion, whiskers are the model's uncertainty")
    ax.xaxis.label.set_fontsize(8.5)
    ax.legend(loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=4, fontsize=8.5, borderaxespad=0.2, handletextpad=0.2,
              columnspacing=1.4)
    ax.set_title(f"{title or 'Share of each criterion that is used'}", pad=22)
    return fig


def __getattr__(name: str):
    if name in ("drain_back", "oxygen", "reach", "rotation_calendar", "shadow", "tank_flows", "tornado", "wall_heat"):
        from . import _farm_pictures

        return getattr(_farm_pictures, name)
    raise AttributeError(f"module 'theca.plot' has no attribute {name!r}")
