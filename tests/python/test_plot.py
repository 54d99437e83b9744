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
