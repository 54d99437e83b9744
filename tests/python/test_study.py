"""The whole study from Python: read, assess, print, draw."""
import io
import subprocess
import sys

import pytest

import theca
from theca import _table


@pytest.fixture(scope="module")
def assessment(design):
    return theca.assess(design)


def test_assessment_has_the_checks_of_every_module(assessment):
    modules = {c.name.split(":")[0] for c in assessment.checks}
    assert {"structure", "hydraulics", "light", "thermal", "farm"} <= modules
    names = [c.name for c in assessment.checks]
    assert len(names) == len(set(names))
    for c in assessment.checks:
        assert c.question and c.source and isinstance(c.verdict, theca.Verdict)


def test_verdicts_follow_from_utilisation_and_uncertainty(assessment):
    for c in assessment.checks:
        if c.verdict is theca.Verdict.outside_validity:
            continue
        if c.verdict is theca.Verdict.fails:
            assert c.utilisation > 1
        elif c.verdict is theca.Verdict.marginal:
            assert c.utilisation <= 1 < c.utilisation * (1 + c.uncertainty) * (1 + 1e-12)
        else:
            assert c.utilisation * (1 + c.uncertainty) <= 1 + 1e-12
        if c.capacity.si_value > 0:
            assert c.utilisation == pytest.approx(c.demand.si_value / c.capacity.si_value)


def test_measures_become_quantities(assessment):
    for c in assessment.checks:
        for m in (c.demand, c.capacity):
            q = m.quantity
            if hasattr(q, "units") and m.si_unit and m.si_unit not in ("degC",):
                try:
                    expected = theca.quantity(f"{m.si_value} {m.si_unit}")
                except theca.UnitError:
                    continue
                assert q.m_as(expected.units) == pytest.approx(expected.magnitude, rel=1e-6)


def test_table_is_aligned_and_complete(assessment):
    out = io.StringIO()
    assessment.table(file=out)
    lines = out.getvalue().splitlines()
    assert lines[0].split()[:2] == ["check", "verdict"]
    start = lines[0].index("verdict")
    for c, line in zip(assessment.checks, lines[2:]):
        assert line.startswith(c.name)
        assert line[start:].startswith(c.verdict.name.replace("_", " "))
    assert str(len(assessment.checks)) in lines[-1]


def test_every_caution_is_printed_once_with_its_checks(assessment):
    text = _table.cautions_text(assessment, width=10_000)
    for c in assessment.checks:
        if c.caution:
            assert text.split("\n").count("! " + " ".join(c.caution.split())) == 1
            assert c.name in text


def test_cures_are_told_with_what_they_break_and_mend(design, assessment):
    failed = [c for c in assessment.checks if c.verdict.name == "fails"]
    cures = {c.name: [] for c in failed}
    for name in ("farm: lighting circuits", "structure: tank A earthquake wave"):
        cures[name] = theca.study.cures(design, name)
    text = _table.cures_text(assessment, cures)
    assert "    lighting circuits: 4 to 5: " in text
    assert "then fails: " in text
    assert text.count("no single change of those known cures it") == len(failed) - 2
    assert all(c.name in text for c in failed)


def test_a_changed_design_changes_its_assessment(Q, design):
    import copy

    mine = copy.deepcopy(design)
    mine.tanks.kinds["A"].water_depth = mine.tanks.kinds["A"].water_depth - Q(3, "inch")
    before, after = theca.assess(design), theca.assess(mine)
    changed = [a.name for a, b in zip(before.checks, after.checks) if a.utilisation != b.utilisation]
    assert any(name.startswith("structure") for name in changed)


def test_demo_study_runs_and_draws(tmp_path):
    run = subprocess.run([sys.executable, "-m", "theca.studies.demo_study", "--out", str(tmp_path / "out")],
                         capture_output=True, text=True, timeout=300)
    assert run.returncode == 0, run.stderr
    assert "Cautions" in run.stdout and "fails" in run.stdout and run.stderr == ""
    for name in ("light_map.png", "bent_tank.png", "pump_curve.png", "utilisation.png"):
        data = (tmp_path / "out" / name).read_bytes()
        assert data.startswith(b"\x89PNG") and len(data) > 20_000


def test_demo_study_reports_a_bad_file(tmp_path):
    bad = tmp_path / "bad.toml"
    bad.write_text("[site]\nname = 3\n")
    run = subprocess.run([sys.executable, "-m", "theca.studies.demo_study", "--design", str(bad), "--no-pictures"],
                         capture_output=True, text=True, timeout=300)
    assert run.returncode == 1 and "bad.toml" in run.stderr and "Traceback" not in run.stderr
