"""Pictures from one's own values, without a Design."""
import matplotlib
import numpy as np
import pytest

import theca


def saved(figure, tmp_path):
    path = tmp_path / "picture.png"
    figure.savefig(path)
    return path.stat().st_size


def test_light_map_of_a_map(tmp_path, design):
    tank = theca.study.tank_kind(design, "B")
    proposal = theca.study.light_proposal(design, "L0")
    ppfd = theca.study.rack_light(design, tank, proposal)
    assert saved(theca.plot.light_map(ppfd, title="A map"), tmp_path) > 20_000
    drawn = theca.plot.light_map(ppfd).axes[0].images[0].get_array()
    assert np.asarray(drawn).mean() == pytest.approx(ppfd.mean().m_as("umol/m**2/s"), rel=1e-12)


def test_deflected_panel(tmp_path, Q, wall):
    bent = theca.structure.bend(wall, theca.structure.uniform(Q(2, "kPa")))
    assert saved(theca.plot.deflected_panel(bent), tmp_path) > 20_000


@pytest.fixture
def braced_tank(Q):
    structure, glass = theca.structure, theca.materials.float_glass()
    rim = structure.TankRimBrace(width=Q(60, "mm"), thickness=Q(9.7, "mm"), material=glass)
    cross = structure.TankCrossBrace(at=Q(36, "inch"), width=Q(150, "mm"), thickness=Q(9.7, "mm"), material=glass)
    tank = structure.Tank(inside_length=Q(72, "inch"), inside_width=Q(24, "inch"), wall_height=Q(20, "inch"),
                          wall_thickness=Q(11.9, "mm"), base_thickness=Q(11.9, "mm"), material=glass, rim=rim,
                          cross_braces=[cross], foundation=Q(0, "N/m**3"), edge_stiffness=Q(0, "N/m**2"))
    load = structure.TankLoad(water_depth=Q(18, "inch"), water=Q(1025, "kg/m**3"))
    return structure.bend(tank, load, "monolithic")


def words_of(axes):
    return [t.get_text().replace("\n", " ") for t in axes.texts]


def test_bent_tank_shows_every_part_and_the_largest_values(tmp_path, braced_tank):
    figure = theca.plot.bent_tank(braced_tank)
    assert saved(figure, tmp_path) > 20_000
    bow, tension = figure.axes[0], figure.axes[1]
    for axes in (bow, tension):
        assert {"front wall", "back wall", "left wall", "right wall", "base", "cross brace"} <= set(words_of(axes))
    deepest = max(p.max_deflection for p in braced_tank.parts)
    assert any(f"{deepest.m_as('inch'):.3g} in ({deepest.m_as('mm'):.3g} mm)" in w for w in words_of(bow))
    most = max(p.max_tension for p in braced_tank.parts if p.part.name.endswith(("wall", "base")))
    assert any(f"{most.m_as('psi'):,.3g} psi ({most.m_as('MPa'):.3g} MPa)" in w for w in words_of(tension))
    pull = max(j.max_line_load for j in braced_tank.joint_loads)
    assert any(f"{pull.m_as('lbf/inch'):.1f} lbf/in" in w for w in words_of(tension))


def test_bent_tank_refuses_a_panel(Q, wall):
    with pytest.raises(theca.UnitError, match="bent"):
        theca.plot.bent_tank(theca.structure.bend(wall, theca.structure.uniform(Q(2, "kPa"))))


def test_pump_on_one_pipe_line(tmp_path, Q, design):
    pipe = theca.hydraulics.Pipe(bore=Q(3.068, "inch"), length=Q(50, "ft"), roughness=Q(1.5e-6, "m"), minor_loss_K=5.0)
    line = theca.hydraulics.PipeLine(static_head=Q(5, "ft"), pipes=[pipe])
    pump = theca.study.pump_curve(design)
    viscosity = Q(0.93e-6, "m**2/s")
    figure = theca.plot.pump_and_system_curve(line, pump, viscosity)
    assert saved(figure, tmp_path) > 20_000
    with pytest.raises(theca.UnitError, match="pipes"):
        theca.plot.pump_and_system_curve(pump, pump, viscosity)


def test_settings_of_the_caller_stay_as_they_are(Q, wall):
    before = dict(matplotlib.rcParams)
    theca.plot.deflected_panel(theca.structure.bend(wall, theca.structure.uniform(Q(2, "kPa"))))
    assert dict(matplotlib.rcParams) == before
