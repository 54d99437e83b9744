"""The two layers say the same, and broadcast."""
import threading

import numpy as np
import pytest

import theca
from theca import si
from theca._kinds import find, kind_of

# A value that suits most functions, by kind, in SI.
SAMPLES = {"m": 0.3, "m2": 0.5, "m3": 0.4, "m/s": 0.8, "m3/s": 6e-4, "Pa": 1200.0, "temperature": 298.0,
           "absolute pressure": 101325.0, "practical salinity": 35.0, "absolute salinity": 35.2,
           "relative humidity": 0.5, "rad": 0.4, "number": 0.3, "int": 2, "kg/m3": 1023.0, "m/s2": 9.80665,
           "m2/s": 9e-7, "kg": 50.0, "s": 3.6e4, "1/s": 1e-6, "N": 100.0, "N/m": 500.0, "mol/m2/s": 2.5e-4, "W": 84.0,
           "mol/s": 1.9e-4, "1/m": 0.15, "mol/m3": 2.8, "USD": 14.0, "USD/s": 5e-3, "V": 120.0, "A": 16.0}
# Other units for the same values, so that a conversion is really made.
OTHER = {"m": "inch", "m2": "ft**2", "m3": "gallon", "m/s": "ft/s", "m3/s": "gph", "Pa": "psf", "absolute pressure": "psi",
         "rad": "degree", "kg": "lb", "s": "hour", "1/s": "1/day", "kg/m3": "lb/ft**3", "N/m": "lbf/ft",
         "mol/m2/s": "umol/m**2/s", "m2/s": "mm**2/s", "mol/m3": "dKH", "W": "Btu/hour"}


def scalar_functions():
    for name, signatures in si._table["functions"].items():
        s = signatures[0]
        if len(signatures) == 1 and not s["method"] and s["arguments"] and name not in theca._face._ROOT_SKIPPED:
            if all(a["kind"] in SAMPLES for a in s["arguments"]):
                yield name, s


def outcome(call):
    try:
        return call(), None
    except theca.Error as e:
        return None, type(e)


@pytest.mark.parametrize("name, signature", scalar_functions(), ids=lambda x: x if isinstance(x, str) else "")
def test_both_layers_give_the_same_value_or_the_same_refusal(name, signature):
    plain = {a["si_name"]: SAMPLES[a["kind"]] for a in signature["arguments"]}
    typed = {}
    for a in signature["arguments"]:
        value = kind_of(a["kind"]).from_si(SAMPLES[a["kind"]])
        if a["kind"] == "temperature":
            value = value.to("degF")
        typed[a["name"]] = value.to(OTHER[a["kind"]]) if a["kind"] in OTHER else value
    expected, refused = outcome(lambda: find(si, name)(**plain))
    got, refused_typed = outcome(lambda: find(theca, name)(**typed))
    assert refused == refused_typed
    if refused is None and signature["returns"] != "none":
        kind = kind_of(signature["returns"])
        if kind.scalar:
            # 1e-9: unit round trips cost a few ulp, and some functions amplify them
            assert kind.to_si(got, "result") == pytest.approx(expected, rel=1e-9)
        elif isinstance(got, theca.Record):
            assert type(got.si) is type(expected)
        else:
            assert got == expected


def test_most_of_them_gave_a_value():
    values = [outcome(lambda: find(si, n)(**{a["si_name"]: SAMPLES[a["kind"]] for a in s["arguments"]}))[1] is None
              for n, s in scalar_functions()]
    assert len(values) > 30 and sum(values) > 0.6 * len(values)


def test_arrays_broadcast_in_both_layers(Q):
    t, s = np.linspace(280.0, 305.0, 4)[:, None], np.array([10.0, 35.0, 40.0])
    grid = si.seawater.density(t, s)
    assert grid.shape == (4, 3)
    for i in range(4):
        for j in range(3):
            assert grid[i, j] == si.seawater.density(t[i, 0], s[j])
    typed = theca.seawater.density(Q(t - 273.15, "degC"), Q(s, "g/kg"))
    assert typed.shape == (4, 3) and typed.units == Q(1, "kg/m**3").units
    assert np.allclose(typed.magnitude, grid, rtol=1e-12, atol=0)


def test_strided_and_reversed_arrays_are_read_as_they_are():
    t = np.linspace(280.0, 305.0, 12).reshape(3, 4)
    for view in (t.T, t[::-1, ::2], t[:, ::-3]):
        assert np.array_equal(si.air.dynamic_viscosity(view), np.vectorize(si.air.dynamic_viscosity)(view))


def test_lists_and_integers_count_as_numbers():
    assert np.array_equal(si.air.dynamic_viscosity([290, 300]), si.air.dynamic_viscosity(np.array([290.0, 300.0])))
    assert si.air.dynamic_viscosity(300) == si.air.dynamic_viscosity(300.0)


def test_empty_arrays_stay_empty():
    assert si.air.dynamic_viscosity(np.array([])).shape == (0,)


def test_shapes_that_do_not_fit():
    with pytest.raises(ValueError, match="do not broadcast"):
        si.seawater.density(np.full(3, 298.0), np.full(4, 35.0))


def test_one_bad_element_raises():
    with pytest.raises(theca.InvalidInput, match="temperature"):
        si.air.dynamic_viscosity(np.array([300.0, np.nan]))


def test_thin_layer_refuses_what_is_no_number(Q):
    for wrong in ("300", None, True, Q(300, "K"), np.array(["300"]), np.array([True])):
        with pytest.raises(TypeError, match="temperature_K: expected a number"):
            si.air.dynamic_viscosity(wrong)


def test_arguments_carry_their_unit():
    with pytest.raises(TypeError):
        si.air.dynamic_viscosity(temperature=300.0)
    assert si.air.dynamic_viscosity(temperature_K=300.0) > 0


def test_results_that_are_structs_become_arrays_of_structs(Q, wall):
    bent = theca.structure.bend(wall, theca.structure.hydrostatic(Q(14, "inch"), Q(1023, "kg/m**3")))
    heights = Q(np.array([0.0, 6.0, 12.0]), "inch")
    states = bent.at(Q(0.7, "m"), heights)
    assert states.shape == (3,)
    assert states[1].deflection == bent.at(Q(0.7, "m"), Q(6, "inch")).deflection
    assert states[0].deflection.magnitude == 0.0  # hinged at the bottom


def test_overloads_are_told_apart(Q, wall):
    bent = theca.structure.bend(wall, theca.structure.uniform(Q(1, "kPa")))
    place = theca.structure.PanelPlace(x=Q(0.3, "m"), y=Q(0.1, "m"))
    assert bent.at(place) == bent.at(Q(0.3, "m"), Q(0.1, "m"))
    assert bent.at(place=place) == bent.at(x=Q(0.3, "m"), y=Q(0.1, "m"))
    with pytest.raises(theca.UnitError, match="y: expected a length"):
        bent.at(Q(0.3, "m"), 0.1)
    with pytest.raises(TypeError):
        bent.at()


def test_unit_table_states_what_the_signatures_say():
    assert si._units["seawater.density"] == ("kg/m3", ("temperature", "absolute salinity"))
    assert si._units["structure.Panel"]["thickness"] == "m"
    for signatures in si._table["functions"].values():
        for s in signatures:
            for a in s["arguments"]:
                assert kind_of(a["kind"]) is not None


def test_plate_rigidity_against_the_closed_form(Q, wall):
    E, nu, t = wall.material.youngs_modulus, wall.material.poisson_ratio, wall.thickness
    expected = (E * t**3 / (12 * (1 - nu**2))).m_as("N*m")
    assert theca.structure.flexural_rigidity(wall).m_as("J") == pytest.approx(expected, rel=1e-13)


def test_long_calls_let_other_threads_run(Q, wall):
    load = theca.structure.hydrostatic(Q(14, "inch"), Q(1023, "kg/m**3"))
    results = [None] * 4

    def work(i):
        results[i] = theca.structure.bend(wall, load, 12 + 2 * (i % 2)).max_deflection.magnitude

    threads = [threading.Thread(target=work, args=(i,)) for i in range(4)]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    assert results[0] == results[2] and results[1] == results[3]


def test_modules_can_be_imported_by_name_in_both_layers():
    import importlib

    for name in si._table["modules"]:
        assert importlib.import_module(f"theca.{name}") is getattr(theca, name)
        assert importlib.import_module(f"theca.si.{name}") is getattr(si, name)
        assert set(getattr(theca, name).__all__) == set(dir(getattr(theca, name)))


def test_constants_carry_their_unit(Q):
    assert si.air.triple_point_K == pytest.approx(273.16, rel=1e-15)
    assert theca.air.triple_point.m_as("K") == pytest.approx(273.16, rel=1e-15)
    with pytest.raises(AttributeError, match="theca.air"):
        theca.air.no_such_thing


def test_a_unit_template_is_bound_for_both_of_its_units(Q):
    # 10 % changed 3 times leaves 0.9^3 of the difference
    assert theca.farm.after_changes(Q(10, "mg/L"), Q(0, "mg/L"), 0.1, 3).m_as("mg/L") == pytest.approx(7.29, rel=1e-12)
    assert theca.farm.after_changes(Q(6, "dKH"), Q(8, "dKH"), 0.1, 3).m_as("dKH") == pytest.approx(8 - 2 * 0.729, rel=1e-12)
    with pytest.raises(theca.UnitError):
        theca.farm.after_changes(Q(6, "dKH"), Q(8, "mg/L"), 0.1, 3)
