"""Failures carry their facts across."""
import math
import pickle

import pytest

import theca
from theca import si


def test_families():
    assert issubclass(theca.InvalidInput, theca.Error) and issubclass(theca.InvalidInput, ValueError)
    assert issubclass(theca.OutOfValidity, theca.Error) and issubclass(theca.OutOfValidity, ValueError)
    assert issubclass(theca.NotConverged, theca.Error) and issubclass(theca.NotConverged, RuntimeError)
    assert issubclass(theca.ParseError, theca.Error) and issubclass(theca.ParseError, ValueError)
    assert theca.InvalidInput.__module__ == "theca"


def test_invalid_input_names_argument_value_and_range():
    with pytest.raises(theca.InvalidInput) as caught:
        si.structure.joint_stress(line_load_N_per_m=100.0, bite_m=-0.01)
    assert "bite" in caught.value.argument
    assert caught.value.value == "-0.01 m" and "> 0" in caught.value.accepted
    again = pickle.loads(pickle.dumps(caught.value))
    assert str(again) == str(caught.value) and again.value == caught.value.value


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_no_nan_goes_in_or_out(bad):
    with pytest.raises(theca.InvalidInput):
        si.structure.joint_stress(100.0, bad)


def test_overloads_say_what_each_of_them_takes():
    for name in (theca.structure.name, si.structure.name):
        with pytest.raises(TypeError) as caught:
            name("front")
        said = str(caught.value)
        assert name("hinged") == "hinged" and name("front_wall") == "front wall"
        assert "'front'" in said and "hinged" in said and "front_wall" in said and "incompatible" not in said
    with pytest.raises(TypeError, match="needs") as caught:
        si.structure.name()
    assert "incompatible" not in str(caught.value)


def test_out_of_validity(Q, wall):
    with pytest.raises(theca.OutOfValidity) as caught:
        theca.structure.bend(wall.replace(thickness=Q(100, "mm")), theca.structure.uniform(Q(1, "kPa")))
    assert caught.value.correlation and caught.value.limit


def test_parse_error_has_line_and_column(tmp_path, source):
    text = (source / "python/theca/studies/demo.toml").read_text()
    assert '"101.3 kPa"' in text
    bad = tmp_path / "bad.toml"
    bad.write_text(text.replace('"101.3 kPa"', '"101.3 parsec"'))
    with pytest.raises(theca.ParseError) as caught:
        theca.read_design(bad)
    assert caught.value.line > 1 and "air_pressure" in str(caught.value) and "bad.toml" in str(caught.value)


def test_unit_error_can_be_pickled():
    e = theca.UnitError("water depth", "a length", "3")
    assert str(pickle.loads(pickle.dumps(e))) == str(e)
