"""Many designs at once: the same answers as one by one, whatever runs them, and nothing lost or double."""
import json
import pathlib
import time

import pytest

import theca

u = theca.registry()
DEMO = pathlib.Path(theca.__file__).parent / "studies" / "demo.toml"


@pytest.fixture(scope="module")
def design():
    return theca.read_design(DEMO)


def key_numbers(design):
    """A result that costs nothing, so that what is tested is the sweep."""
    return {"price": design.money.price, "share": design.production.survival}


AXES = {"money.price": [12 * u.USD, 14 * u.USD], "production.survival": [0.8, 0.9, 0.95]}


def test_a_grid_is_every_combination_in_order_and_says_what_assess_says(design):
    depths = [13 * u.inch, 14 * u.inch]
    sweep = theca.sweep(design, {"tanks.A.water_depth": depths})
    assert len(sweep) == 2
    for point, depth in zip(sweep, depths):
        assert point.inputs["tanks.A.water_depth"] == pytest.approx(depth.to("m").magnitude)
        alone = theca.assess(theca.changed(design, {"tanks.A.water_depth": depth}))
        for check in alone.checks:
            assert point.verdicts[check.name] == check.verdict.name
            if check.verdict.name != "outside_validity":
                assert point.used[check.name] == check.utilisation
        assert point.fails == [c.name for c in alone.checks if c.verdict.name == "fails"]
    grid = theca.sweep(design, AXES, of=key_numbers)
    assert [(round(p.inputs["money.price"], 6), p.inputs["production.survival"]) for p in grid] == [
        (a, b) for a in (12.0, 14.0) for b in (0.8, 0.9, 0.95)]
    assert grid[4].values["share"][0] == 0.9


def test_threads_give_what_one_core_gives(design):
    one = theca.sweep(design, {"money.price": [10 * u.USD, 14 * u.USD, 18 * u.USD]})
    two = theca.sweep(design, {"money.price": [10 * u.USD, 14 * u.USD, 18 * u.USD]}, workers=2)
    assert [p.used for p in one] == [p.used for p in two]


def test_a_point_that_is_no_design_keeps_its_reason_and_ends_nothing(design):
    # Water over the top of the wall.
    sweep = theca.sweep(design, {"tanks.A.water_depth": [14 * u.inch, 99 * u.inch]})
    assert not sweep[0].refused
    assert len(sweep.refused) == 1 or "outside_validity" in sweep[1].verdicts.values()


def test_keys_and_units_are_refused_before_anything_runs(design):
    with pytest.raises(theca.InvalidInput, match="water_depth"):
        theca.sweep(design, {"tanks.A.water_dept": [14 * u.inch]})
    with pytest.raises(theca.UnitError, match="bare number"):
        theca.sweep(design, {"tanks.A.water_depth": [14]})
    with pytest.raises(Exception, match="[Cc]annot convert"):
        theca.sweep(design, {"tanks.A.water_depth": [14 * u.kg]})
    with pytest.raises(ValueError, match="either axes"):
        theca.sweep(design)


def test_samples_fill_their_ranges_and_come_again_with_their_seed(design):
    ranges = {"tanks.A.water_depth": (12 * u.inch, 14 * u.inch), "production.survival": (0.8, 0.95)}
    for kind in ("sobol", "latin_hypercube", "random"):
        samples = theca.spread(design, ranges, 16, kind=kind, seed=3)
        depths = [s["tanks.A.water_depth"].to("inch").magnitude for s in samples]
        assert 12.0 <= min(depths) < 12.6 and 13.4 < max(depths) <= 14.0
        again = theca.spread(design, ranges, 16, kind=kind, seed=3)
        assert [s["production.survival"] for s in samples] == [s["production.survival"] for s in again]
    assert len(theca.sweep(design, samples=samples, of=key_numbers)) == 16
    with pytest.raises(ValueError, match="none of"):
        theca.spread(design, ranges, 4, kind="dice")


def test_a_sweep_goes_on_from_its_file_where_it_was_cut_off(design, tmp_path):
    file = tmp_path / "sweep.jsonl"
    calls = []

    def counted(one):
        calls.append(1)
        return key_numbers(one)

    whole = theca.sweep(design, AXES, of=counted, file=file)
    assert len(calls) == 6
    lines = file.read_text().splitlines()
    assert len(lines) == 7
    # Three points done, the fourth cut off in the middle of its line.
    file.write_text("\n".join(lines[:4]) + "\n" + lines[4][:20])
    calls.clear()
    rest = theca.sweep(design, AXES, of=counted, file=file)
    assert len(calls) == 3
    assert [p.values for p in rest] == [p.values for p in whole]
    assert sorted(json.loads(line)["index"] for line in file.read_text().splitlines()[1:]) == list(range(6))
    with pytest.raises(ValueError, match="another sweep"):
        theca.sweep(design, {"money.price": [1 * u.USD]}, of=counted, file=file)


def test_the_table_has_units_in_its_headings(design, tmp_path):
    pandas = pytest.importorskip("pandas")
    sweep = theca.sweep(design, {"tanks.A.water_depth": [13 * u.inch, 14 * u.inch], "production.survival": [0.9]})
    frame = sweep.frame()
    assert frame["tanks.A.water_depth [m]"].tolist() == pytest.approx([13 * 0.0254, 14 * 0.0254])
    assert "production.survival" in frame
    assert any(name.startswith("used: structure") for name in frame)
    sweep.save(tmp_path / "sweep.csv")
    assert len(pandas.read_csv(tmp_path / "sweep.csv")) == 2
    with pytest.raises(ValueError, match="csv"):
        sweep.save(tmp_path / "sweep.xls")


def slowly(design):
    time.sleep(0.05)
    return key_numbers(design)


def test_a_cluster_that_loses_a_worker_half_way_loses_no_point_and_does_none_twice(design, tmp_path):
    distributed = pytest.importorskip("distributed")
    prices = [(5 + 0.1 * i) * u.USD for i in range(80)]
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        with distributed.Client(cluster) as client:
            client.wait_for_workers(2)
            # One worker is killed outright while points are on their way; the cluster's nanny starts another.
            import os
            import signal
            import threading

            victim = client.run(os.getpid)
            pid = next(iter(victim.values()))
            threading.Timer(1.0, os.kill, (pid, signal.SIGKILL)).start()
            sweep = theca.sweep(design, {"money.price": prices}, of=slowly, client=client, file=tmp_path / "c.jsonl")
    assert [p.index for p in sweep] == list(range(80))
    for point, price in zip(sweep, prices):
        assert point.values["price"][0] == pytest.approx(price.magnitude)
    indices = [json.loads(line)["index"] for line in (tmp_path / "c.jsonl").read_text().splitlines()[1:]]
    assert sorted(indices) == list(range(80))


def test_the_differences_of_two_designs_are_a_table_in_growers_units(design):
    other = theca.changed(design, {"tanks.A.water_depth": 13 * u.inch, "production.survival": 0.8})
    rows = theca.differences(design, other)
    assert [(k, a, b) for k, a, b in rows] == [("tanks.A.water_depth", "14 in", "13 in"),
                                               ("production.survival", "0.9", "0.8")]
    assert str(rows).splitlines()[2].split() == ["tanks.A.water_depth", "14", "in", "13", "in"]
    assert str(theca.differences(design, design)) == "no differences"
