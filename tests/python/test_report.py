"""The report and the farm's pictures: complete, self-contained, printable."""
import re
import shutil
import subprocess

import numpy as np
import pytest

import theca

study, farm, light, hydraulics = theca.study, theca.farm, theca.light, theca.hydraulics


@pytest.fixture(scope="module")
def page(design):
    return theca.report(design, cures=False)


def test_every_check_stands_in_the_report_with_its_verdict_source_and_caution(design, page):
    import html

    text = html.unescape(page)
    for check in theca.assess(design).checks:
        assert check.name.split(": ", 1)[1] in text
        assert check.source in text
        assert check.caution in text
    counts = [int(n) for n in re.findall(r"<li><b>(\d+)</b>", page)]
    assert sum(counts) == len(theca.assess(design).checks)


def test_the_report_needs_nothing_from_outside_and_carries_its_design(design, page):
    assert not re.search(r"(src|href)=[\"']?(http|//|file)", page)
    assert page.count("data:image/png;base64,") >= 8
    import html

    inputs = html.unescape(re.search(r"<pre>(.*?)</pre>", page, re.S).group(1))
    assert study.parse_design(inputs, "report") == design


def test_what_cures_a_failed_check_is_said(design, tmp_path):
    file = tmp_path / "report.html"
    failed = [c.name for c in theca.assess(design).checks if c.verdict.name == "fails"]
    cures = {name: (study.cures(design, name) if name == "farm: lifting a full bucket" else []) for name in failed}
    theca.report(design, file, cures=cures, pictures=False)
    text = file.read_text(encoding="utf-8")
    assert "farm: lifting a full bucket" in text and "bucket: 5 gal to" in text
    assert "no single change of those known cures it" in text


@pytest.mark.skipif(shutil.which("chromium") is None, reason="chromium is not installed: printing is not tested")
@pytest.mark.parametrize("size", ["A4", "letter"])
def test_the_report_prints(page, tmp_path, size):
    file, pdf = tmp_path / "report.html", tmp_path / "report.pdf"
    file.write_text(page.replace("@page { margin", f"@page {{ size: {size}; margin"), encoding="utf-8")
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--print-to-pdf={pdf}", file.as_uri()],
                   check=True, timeout=180, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    assert pdf.read_bytes().startswith(b"%PDF") and pdf.stat().st_size > 200_000


def drawn(figure, tmp_path):
    path = tmp_path / "picture.png"
    figure.savefig(path)
    return path.stat().st_size > 15_000


def test_tank_flows_are_those_of_the_manifold(design, tmp_path):
    figure = theca.plot.tank_flows(design)
    assert drawn(figure, tmp_path)
    flow = hydraulics.solve(study.manifold(design), study.pump_curve(design), design.site.water.kinematic_viscosity)
    heights = sorted(p.get_height() for p in figure.axes[0].patches
                     if hasattr(p, "get_width") and 0.6 < p.get_width() < 0.8)
    expected = sorted(q for h in flow.headers for q in h.branch_flows.m_as("gal/h"))
    assert heights == pytest.approx(expected, rel=1e-9)


def test_rotation_rests_each_tank_once(design, tmp_path):
    figure = theca.plot.rotation_calendar(design)
    assert drawn(figure, tmp_path)
    rows = [round(p.get_y() + 0.35) for p in figure.axes[0].patches]
    assert sorted(rows) == list(range(sum(len(k.names) for k in design.tanks.kinds.values())))


def test_shadow_reach_oxygen_wall_heat_and_tornado_draw(design, tmp_path, Q):
    kind = design.tanks.kinds["A"]
    water = study.waterbody(design, kind)
    lamps = study.luminaires(design, kind, study.light_proposal(design, "L2"))
    colony = light.ShadingCylinder(x=Q(48, "inch"), y=Q(14, "inch"), base_depth=Q(8, "inch"), height=Q(3, "inch"),
                                   radius=Q(1, "inch"))
    bodies = light.ShadingBodies(cylinders=[colony, *light.neighbours(colony, Q(3, "inch"), 1, water.length, water.width)])
    shaded = light.shadow_map(lamps, water, bodies, Q(8, "inch"), 96, 28)
    figure = theca.plot.shadow(shaded, bodies)
    assert drawn(figure, tmp_path)
    shares = np.asarray(figure.axes[0].images[0].get_array())
    assert shares.min() == 0.0 and shares.max() == 100.0
    assert drawn(theca.plot.reach(design, "B"), tmp_path)
    assert drawn(theca.plot.oxygen(design), tmp_path)
    assert drawn(theca.plot.wall_heat(study.wall_options(design, "A")), tmp_path)
    inputs = [study.scaled_input(design, key, 0.8, 1.1) for key in ("money.price", "production.growth_rate")]
    assert drawn(theca.plot.tornado(study.tornado(design, inputs)), tmp_path)
    with pytest.raises(AttributeError, match="pie"):
        theca.plot.pie


def test_drain_back_shows_the_course(tmp_path, Q):
    tank = hydraulics.OverflowingTank(surface=Q(1.7, "m**2"), weir_crest=Q(1.2, "m"),
                                      weir=hydraulics.Weir(crest_length=Q(10, "inch"), end_contractions=2), inflow=Q(730, "gal/h"),
                                      count=10)
    sump = hydraulics.ReceivingSump(surface=Q(2.7, "m**2"), running_level=Q(12, "inch"), pipes=Q(40, "gal"),
                                    pipes_empty_in=Q(60, "s"))
    course = hydraulics.drain_back_course([tank], sump, Q(np.linspace(0.0, 600.0, 50), "s"))
    figure = theca.plot.drain_back(course, ["tank"], rim=Q(22, "inch"), sump_running=Q(12, "inch"))
    assert drawn(figure, tmp_path)
    levels = figure.axes[1].lines[0].get_ydata()
    assert levels[0] == pytest.approx(12.0) and np.all(np.diff(levels) >= 0.0)
