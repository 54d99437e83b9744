"""Many designs at once: what the checks say as inputs change, on one core, all cores or a cluster."""
from __future__ import annotations

import concurrent.futures
import hashlib
import itertools
import json
import os
import pathlib
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from . import units
from ._theca import Error

__all__ = ["Sweep", "SweepPoint", "spread", "sweep"]


def _measure(inputs: Mapping[str, Any], key: str, value: Any):
    """What with_input takes, from a quantity or, for counts and shares, a plain number."""
    from . import study

    if key not in inputs:
        study.with_input(_any_design(inputs), key, _measure_type()())  # names the nearest key
    unit = inputs[key].value.si_unit
    if hasattr(value, "to"):
        number = float(value.to(unit or "dimensionless").magnitude)
    elif unit:
        raise units.UnitError(key, f"a quantity in {unit}", f"the bare number {value!r}")
    else:
        number = float(value)
    return _measure_type()(si_value=number, si_unit=unit, shown_value=number, shown_unit=unit)


def _measure_type():
    import theca

    return theca.Measure


def _any_design(inputs):
    return inputs["\0design"]


def _inputs(design) -> dict[str, Any]:
    from . import study

    known = {i.key: i for i in study.design_inputs(design)}
    known["\0design"] = design
    return known


def changed(design, values: Mapping[str, Any]):
    """A copy of a design with some of its numbers changed, each named by its key.

    Parameters
    ----------
    design : study.Design
    values : mapping of key to quantity (a plain number for counts and shares)

    Raises
    ------
    InvalidInput  no such key (the nearest is named), or a value outside its range
    UnitError     a bare number for a dimensional input, or another dimension
    """
    from . import study

    known = _inputs(design)
    for key, value in values.items():
        design = study.with_input(design, key, _measure(known, key, value))
    return design


def spread(design, ranges: Mapping[str, tuple[Any, Any]], points: int = 64, *, kind: str = "sobol",
           seed: int = 1) -> list[dict[str, Any]]:
    """Samples that fill the space between a low and a high value of each input.

    Parameters
    ----------
    design : study.Design
    ranges : mapping of key to (low, high), quantities, or plain numbers for shares
    points : number of samples
    kind   : "sobol", "latin_hypercube" or "random"
    seed   : the same seed gives the same samples on every machine

    Returns
    -------
    list of mappings, for the `samples` of `sweep`
    """
    from . import study

    known = _inputs(design)
    ends = {k: (_measure(known, k, low).si_value, _measure(known, k, high).si_value) for k, (low, high) in ranges.items()}
    kinds = {k.name: k for k in (study.SamplingKind.sobol, study.SamplingKind.latin_hypercube, study.SamplingKind.random)}
    if kind not in kinds:
        raise ValueError(f"kind: {kind!r} is none of {', '.join(kinds)}")
    flat = study.unit_samples(study.Sampling(kind=kinds[kind], points=points, seed=seed), len(ends))
    quantity = units.registry().Quantity
    samples = []
    for i in range(points):
        sample = {}
        for j, (key, (low, high)) in enumerate(ends.items()):
            value = low + (high - low) * float(flat[i * len(ends) + j])
            unit = known[key].value.si_unit
            sample[key] = quantity(value, unit) if unit else value
        samples.append(sample)
    return samples


class SweepPoint:
    """One design of a sweep: the inputs that were changed, and the utilisation and verdict of each check, or why not."""

    __slots__ = ("index", "inputs", "used", "verdicts", "values", "refused")

    def __init__(self, index, inputs, used, verdicts, values, refused):
        self.index = index
        self.inputs = inputs
        self.used = used
        self.verdicts = verdicts
        self.values = values
        self.refused = refused

    def __repr__(self):
        words = ", ".join(f"{k}={v:.4g}" for k, v in self.inputs.items())
        return f"SweepPoint({self.index}: {words}" + (f"; refused: {self.refused})" if self.refused else ")")

    @property
    def fails(self) -> list[str]:
        """Names of the checks that fail."""
        return [name for name, verdict in self.verdicts.items() if verdict == "fails"]


def _evaluate(design, index: int, si_inputs: dict[str, float], measures, of) -> dict:
    """One point, as plain data that goes through JSON and over a network."""
    from . import assess, study

    record: dict[str, Any] = {"index": index, "inputs": si_inputs, "used": {}, "verdicts": {}, "values": {}, "refused": ""}
    try:
        for key, (value, unit) in measures.items():
            design = study.with_input(design, key, _measure_type()(si_value=value, si_unit=unit, shown_value=value,
                                                                 shown_unit=unit))
        if of is None:
            for check in assess(design).checks:
                verdict = check.verdict.name
                record["verdicts"][check.name] = verdict
                if verdict != "outside_validity":
                    record["used"][check.name] = check.utilisation
        else:
            for name, value in of(design).items():
                record["values"][name] = ([float(value.to_root_units().magnitude), f"{value.to_root_units().units:~}"]
                                          if hasattr(value, "to_root_units") else [float(value), ""])
    except Error as e:
        record["refused"] = str(e)
    return record


def _evaluate_many(design, tasks, of):
    return [_evaluate(design, index, si, measures, of) for index, si, measures in tasks]


class Sweep:
    """The points of a sweep in order, and what to do with them."""

    def __init__(self, points: list[SweepPoint], units_of: dict[str, str]):
        self.points = points
        self.units = units_of  #: SI unit of each changed input, "" for shares and counts

    def __len__(self):
        return len(self.points)

    def __iter__(self):
        return iter(self.points)

    def __getitem__(self, i):
        return self.points[i]

    @property
    def refused(self) -> list[SweepPoint]:
        """Points that are no design that can be assessed, each with its reason."""
        return [p for p in self.points if p.refused]

    def frame(self):
        """A pandas table: a column for each input and each check (utilisation), units in the headings."""
        import pandas

        def heading(key):
            return f"{key} [{self.units[key]}]" if self.units.get(key) else key

        rows = []
        for p in self.points:
            row = {heading(k): v for k, v in p.inputs.items()}
            row.update({f"used: {k}": v for k, v in p.used.items()})
            row.update({f"{k} [{unit}]" if unit else k: v for k, (v, unit) in p.values.items()})
            row["failing checks"] = len(p.fails)
            row["refused"] = p.refused
            rows.append(row)
        return pandas.DataFrame(rows)

    def save(self, file) -> None:
        """Writes the table: .csv always, .parquet and .nc where pandas' Parquet engine or xarray is installed."""
        path = pathlib.Path(file)
        frame = self.frame()
        if path.suffix == ".csv":
            frame.to_csv(path, index=False)
        elif path.suffix == ".parquet":
            frame.to_parquet(path)
        elif path.suffix == ".nc":
            frame.to_xarray().to_netcdf(path)
        else:
            raise ValueError(f"file: {path.name!r} ends in none of .csv, .parquet, .nc")


def _points_of(axes, samples) -> list[dict[str, Any]]:
    if (axes is None) == (samples is None):
        raise ValueError("give either axes (a grid) or samples (a list)")
    if samples is not None:
        return [dict(s) for s in samples]
    if not isinstance(axes, Mapping) or not axes:
        raise ValueError("axes: expected a mapping of keys to lists of values")
    keys = list(axes)
    return [dict(zip(keys, values)) for values in itertools.product(*(list(axes[k]) for k in keys))]


class _Record:
    """Finished points on disk, a line each: a line that was cut off by a crash is done again."""

    def __init__(self, path, fingerprint: str):
        self.path = pathlib.Path(path)
        self.done: dict[int, dict] = {}
        head = {"theca_sweep": 1, "fingerprint": fingerprint}
        if self.path.exists():
            lines = self.path.read_text(encoding="utf-8").splitlines()
            try:
                first = json.loads(lines[0]) if lines else None
            except json.JSONDecodeError:
                first = None
            if first != head:
                raise ValueError(f"{self.path}: holds another sweep (another design, other points or other results); "
                                 "remove it or name another file")
            for line in lines[1:]:
                try:
                    record = json.loads(line)
                except json.JSONDecodeError:
                    continue
                self.done[record["index"]] = record
            self.path.write_text("\n".join([json.dumps(head), *(json.dumps(r) for r in self.done.values())]) + "\n",
                                 encoding="utf-8")
        else:
            self.path.write_text(json.dumps(head) + "\n", encoding="utf-8")
        self._file = self.path.open("a", encoding="utf-8")

    def add(self, record: dict) -> None:
        self._file.write(json.dumps(record) + "\n")
        self._file.flush()

    def close(self):
        self._file.close()


def sweep(design, axes: Mapping[str, Iterable[Any]] | None = None, *, samples: Sequence[Mapping[str, Any]] | None = None,
          of: Callable[[Any], Mapping[str, Any]] | None = None, workers: int | None = 1, client=None, file=None,
          progress: bool | None = None) -> Sweep:
    """Assesses a design with some of its numbers changed in many ways.

    Parameters
    ----------
    design : study.Design
    axes : mapping of key to values
        every combination of them is a point. Keys as `study.design_inputs` lists them ("tanks.A.water_depth"), values
        quantities, or plain numbers for counts and shares
    samples : list of mappings of key to value
        the points one by one; `spread` makes them
    of : function of a design, optional
        its mapping of names to quantities or numbers is kept instead of the checks. On a cluster it must be one that
        pickles
    workers : int or None
        threads; None for all cores. The calculations release Python's lock
    client : distributed.Client, optional
        a Dask cluster; a worker that dies is replaced by others, and its points are done again
    file : path, optional
        finished points are written there as they come. A second call with the same file goes on where the first ended
    progress : bool, optional
        a bar on the terminal; by default where there is one

    Returns
    -------
    Sweep, points in order. A point that is no design that can be assessed keeps its reason and ends nothing.

    Raises
    ------
    InvalidInput  a key that the design does not have (the nearest is named)
    UnitError     a bare number for a dimensional input, or another dimension
    ValueError    neither axes nor samples, or a file of another sweep
    """
    from tqdm import tqdm

    assignments = _points_of(axes, samples)
    known = _inputs(design)
    tasks = []
    for index, values in enumerate(assignments):
        measured = {k: _measure(known, k, v) for k, v in values.items()}
        tasks.append((index, {k: m.si_value for k, m in measured.items()},
                      {k: (m.si_value, m.si_unit) for k, m in measured.items()}))
    words = repr(design.to_dict() if hasattr(design, "to_dict") else [(i.key, i.value.si_value) for k, i in known.items()
                                                                      if k != "\0design"])
    fingerprint = hashlib.sha256(
        (words + repr([t[1:] for t in tasks]) + (getattr(of, "__qualname__", "") if of else "")).encode()).hexdigest()
    record = _Record(file, fingerprint) if file is not None else None
    done = dict(record.done) if record else {}
    left = [t for t in tasks if t[0] not in done]
    shown = sys.stderr.isatty() if progress is None else progress
    bar = tqdm(total=len(tasks), initial=len(done), disable=not shown, file=sys.stderr, unit="design")

    def keep(one: dict):
        if one["index"] in done:
            return
        done[one["index"]] = one
        if record:
            record.add(one)
        bar.update()

    try:
        if client is not None:
            _on_cluster(client, design, left, of, keep)
        elif workers == 1:
            for task in left:
                keep(_evaluate(design, *task, of))
        else:
            with concurrent.futures.ThreadPoolExecutor(workers or os.cpu_count()) as pool:
                futures = [pool.submit(_evaluate, design, *task, of) for task in left]
                try:
                    for future in concurrent.futures.as_completed(futures):
                        keep(future.result())
                except BaseException:
                    pool.shutdown(wait=False, cancel_futures=True)
                    raise
    finally:
        bar.close()
        if record:
            record.close()
    points = [SweepPoint(**done[i]) for i in range(len(tasks))]
    unit_of = {k: known[k].value.si_unit for values in assignments for k in values}
    return Sweep(points, unit_of)


def _on_cluster(client, design, tasks, of, keep) -> None:
    import distributed

    # Chunks large enough that the network does not count, small enough that a dead worker loses little.
    size = max(1, min(32, len(tasks) // 64 or 1))
    chunks = [tasks[i:i + size] for i in range(0, len(tasks), size)]
    # The design, some 14 kB, goes with each chunk: what is scattered beforehand may die with its worker.
    futures = [client.submit(_evaluate_many, design, chunk, of, pure=False, retries=5) for chunk in chunks]
    for _, records in distributed.as_completed(futures, with_results=True):
        for one in records:
            keep(one)
