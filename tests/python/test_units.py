"""Units at the door: what is refused, in which words, and what is converted."""
import numpy as np
import pint
import pytest

import theca
from theca import air, seawater, structure


def test_bare_number_for_a_length_is_refused_by_name(Q):
    with pytest.raises(theca.InvalidInput) as caught:
        structure.hydrostatic(0.3, Q(1025, "kg/m**3"))
    assert str(caught.value) == "water depth: expected a length such as 0.3 m, got the bare number 0.3"
    assert caught.value.argument == "water depth" and caught.value.value == "the bare number 0.3"
    assert isinstance(caught.value, ValueError)


def test_zero_is_a_bare_number_too(Q):
    with pytest.raises(theca.UnitError, match="water depth"):
        structure.hydrostatic(0, Q(1025, "kg/m**3"))


@pytest.mark.parametrize("value", [np.array([0.1, 0.2]), [0.1, 0.2], "0.3 m", None, np.float64(0.3)])
def test_nothing_but_a_quantity_passes_for_a_length(Q, value):
    with pytest.raises(theca.UnitError, match="water depth: expected a length"):
        structure.hydrostatic(value, Q(1025, "kg/m**3"))


def test_wrong_dimension_is_refused_with_both_names(Q):
    with pytest.raises(theca.UnitError, match=r"water depth: expected a length such as 0.3 m, got 3 second \(time\)"):
        structure.hydrostatic(Q(3, "s"), Q(1025, "kg/m**3"))


def test_a_quantity_for_a_plain_number_is_refused(Q):
    with pytest.raises(theca.UnitError, match="humidity ratio: expected a plain number"):
        air.relative_humidity(Q(25, "degC"), Q(3, "m"))
    assert air.relative_humidity(Q(25, "degC"), Q(10, "g/kg")) == air.relative_humidity(Q(25, "degC"), 0.010)


def test_angle_is_not_a_plain_number_and_pint_alone_would_not_notice(Q):
    assert theca.light.critical_angle(1.333, 1.0).check("[]")  # for pint an angle has no dimension
    with pytest.raises(theca.UnitError, match="incidence: expected an angle"):
        theca.light.refraction_angle(0.5, 1.0, 1.333)
    with pytest.raises(theca.UnitError, match="incidence: expected an angle"):
        theca.light.refraction_angle(Q(0.5, ""), 1.0, 1.333)


def test_temperature_points_and_differences_do_not_mix(Q):
    warm = air.dynamic_viscosity(Q(78, "degF"))
    assert warm == air.dynamic_viscosity(Q((78 + 459.67) / 1.8, "kelvin"))
    for wrong in (78, Q(78, "delta_degF"), Q(1, "m")):
        with pytest.raises(theca.UnitError, match="temperature"):
            air.dynamic_viscosity(wrong)


def test_fahrenheit_in_kelvin_out(Q):
    moist = air.MoistAir(temperature=Q(70, "degF"), humidity=Q(50, "percent"))
    assert moist.temperature.units == Q(1, "K").units
    assert moist.temperature.m_as("degF") == pytest.approx(70, abs=1e-10)
    assert air.dew_point(moist).units == Q(1, "K").units


def test_differences_come_back_as_differences(Q):
    from theca._kinds import kind_of

    kind = kind_of("K")
    assert str(kind.from_si(5.0).units) == "delta_degree_Celsius"
    assert kind.to_si(Q(9, "delta_degF"), "rise") == pytest.approx(5.0, rel=1e-14)
    assert kind.to_si(Q(5, "K"), "rise") == 5.0
    with pytest.raises(theca.UnitError, match="rise: expected a temperature difference .* got the temperature"):
        kind.to_si(Q(78, "degF"), "rise")


def test_salinities_and_humidity_are_kinds_of_their_own(Q):
    at = Q(25, "degC")
    absolute = theca.absolute_salinity(Q(35, "psu"))
    assert absolute.m_as("g/kg") == pytest.approx(35.16504, rel=1e-14)  # Millero et al. 2008, by definition
    for wrong in (35.0, Q(35, "psu"), Q(35, ""), Q(35, "m")):
        with pytest.raises(theca.UnitError, match="salinity"):
            seawater.density(at, wrong)
    with pytest.raises(theca.UnitError, match="humidity: expected a relative humidity such as 50 percent"):
        air.MoistAir(temperature=at, humidity=0.5)


def test_our_units_have_the_size_of_their_definition(Q):
    assert Q(1, "dKH").m_as("mmol/L") == pytest.approx(2 * 10 / 56.0774, rel=1e-12)  # 10 mg CaO per litre
    assert Q(3600, "gph").m_as("inch**3/s") == pytest.approx(231, rel=1e-12)
    assert Q(60, "gpm").m_as("inch**3/s") == pytest.approx(231, rel=1e-12)
    assert Q(144, "psf").m_as("psi") == pytest.approx(1, rel=1e-12)
    assert Q(8, "US_pint").m_as("gallon") == pytest.approx(1, rel=1e-12)
    assert Q(1, "ftH2O").m_as("Pa") == pytest.approx(2989.067, rel=1e-7)  # NIST SP 811, table B.8
    assert Q(15, "USD/kWh").check("[currency]/[energy]")


@pytest.mark.parametrize("text, unit, value", [("55 in", "m", 1.397), ("0.48 Btu/h/ft2/degF", "W/m**2/K", 2.725566),
                                               ("250 umol/m2/s", "mol/m**2/s", 250e-6), ("78 degF", "kelvin", 298.70556),
                                               ("10 %", "", 0.1)])
def test_quantities_from_text_as_design_files_spell_them(text, unit, value):
    assert theca.quantity(text).m_as(unit) == pytest.approx(value, rel=1e-6)  # NIST SP 811, table B.8


def test_text_that_is_no_quantity(Q):
    for text in ("", "deep", "3 blorps"):
        with pytest.raises(theca.UnitError):
            theca.quantity(text)


def test_quantities_belong_to_the_application_registry(Q):
    result = air.dynamic_viscosity(Q(25, "degC"))
    own = pint.get_application_registry()
    assert result + own.Quantity(0, "Pa*s") == result


def test_a_host_may_change_the_application_registry():
    before = pint.get_application_registry().get()
    try:
        pint.set_application_registry(pint.UnitRegistry())
        u = theca.registry()
        assert air.dynamic_viscosity(u.Quantity(25, "degC"))._REGISTRY is u
        assert u.Quantity(1, "dKH").check("[substance]/[volume]")
    finally:
        pint.set_application_registry(before)


def test_relative_humidity_is_a_ratio_inside_and_percent_outside(Q):
    moist = air.MoistAir(temperature=Q(25, "degC"), humidity=Q(40, "percent"))
    assert moist.si.humidity == pytest.approx(0.4, rel=1e-15)
    assert moist.humidity.magnitude == pytest.approx(40, rel=1e-15) and str(moist.humidity.units) == "percent"
    back = air.relative_humidity(Q(25, "degC"), air.humidity_ratio(moist))
    assert back.m_as("percent") == pytest.approx(40, rel=1e-9)
