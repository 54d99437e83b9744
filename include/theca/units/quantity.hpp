// The physical quantities of theca: one C++ type per dimension, checked by the compiler, as cheap as a double.
// This is the only file that spells Boost.Units machinery; everything else uses the short names below.
#pragma once

#include <boost/units/absolute.hpp>
#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/base_units/angle/radian.hpp>
#include <boost/units/base_units/angle/steradian.hpp>
#include <boost/units/base_units/si/ampere.hpp>
#include <boost/units/base_units/si/candela.hpp>
#include <boost/units/base_units/si/kelvin.hpp>
#include <boost/units/base_units/si/kilogram.hpp>
#include <boost/units/base_units/si/meter.hpp>
#include <boost/units/base_units/si/mole.hpp>
#include <boost/units/base_units/si/second.hpp>
#include <boost/units/cmath.hpp>
#include <boost/units/derived_dimension.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/pow.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>

namespace theca {

namespace bu = boost::units;

namespace detail {
struct currency_base_dimension : bu::base_dimension<currency_base_dimension, 0x7EC> {};
struct currency_base_unit : bu::base_unit<currency_base_unit, currency_base_dimension::dimension_type, 0x7EC> {
  static std::string name() { return "currency"; }
  static std::string symbol() { return "USD"; }
};
// SI with money beside it, so that a price per kilowatt-hour is checked like any other quantity.
using System = bu::make_system<bu::si::meter_base_unit, bu::si::kilogram_base_unit, bu::si::second_base_unit,
                               bu::si::ampere_base_unit, bu::si::kelvin_base_unit, bu::si::mole_base_unit,
                               bu::si::candela_base_unit, bu::angle::radian_base_unit, bu::angle::steradian_base_unit,
                               currency_base_unit>::type;
template <class Dimension>
using coherent = bu::unit<Dimension, System>;
template <class A, class B>
using times = typename bu::multiply_typeof_helper<A, B>::type;
template <class A, class B>
using over = typename bu::divide_typeof_helper<A, B>::type;
template <class A, long N>
using power = typename bu::power_typeof_helper<A, bu::static_rational<N>>::type;
}  // namespace detail

/// The coherent SI unit of each dimension, as a type.
namespace unit {
using none = detail::coherent<bu::dimensionless_type>;
using length = detail::coherent<bu::length_dimension>;
using mass = detail::coherent<bu::mass_dimension>;
using time = detail::coherent<bu::time_dimension>;
using current = detail::coherent<bu::current_dimension>;
using temperature = detail::coherent<bu::temperature_dimension>;
using amount = detail::coherent<bu::amount_dimension>;
using luminous_intensity = detail::coherent<bu::luminous_intensity_dimension>;
using angle = detail::coherent<bu::plane_angle_dimension>;
using solid_angle = detail::coherent<bu::solid_angle_dimension>;
using currency = detail::coherent<detail::currency_base_dimension::dimension_type>;

using area = detail::power<length, 2>;
using volume = detail::power<length, 3>;
using second_moment = detail::power<length, 4>;
using velocity = detail::over<length, time>;
using acceleration = detail::over<velocity, time>;
using frequency = detail::power<time, -1>;
using volume_flow = detail::over<volume, time>;
using kinematic_viscosity = detail::over<area, time>;
using density = detail::over<mass, volume>;
using mass_flow = detail::over<mass, time>;
using mass_flux = detail::over<mass_flow, area>;
using force = detail::times<mass, acceleration>;
using pressure = detail::over<force, area>;
using line_load = detail::over<force, length>;
using rotational_stiffness = detail::over<force, angle>;
using energy = detail::times<force, length>;
using beam_stiffness = detail::times<energy, length>;
using foundation_modulus = detail::over<pressure, length>;
using power = detail::over<energy, time>;
using specific_energy = detail::over<energy, mass>;
using dynamic_viscosity = detail::times<pressure, time>;
using heat_flux = detail::over<power, area>;
using thermal_transmittance = detail::over<heat_flux, temperature>;
using thermal_conductivity = detail::over<detail::over<power, length>, temperature>;
using thermal_conductance = detail::over<power, temperature>;
using thermal_resistance = detail::power<thermal_transmittance, -1>;
using heat_capacity = detail::over<energy, temperature>;
using specific_heat_capacity = detail::over<specific_energy, temperature>;
using thermal_expansion = detail::power<temperature, -1>;
using attenuation = detail::power<length, -1>;
using section_modulus_per_length = area;
using voltage = detail::over<power, current>;
using resistance = detail::over<voltage, current>;
using resistance_per_length = detail::over<resistance, length>;
using charge = detail::times<current, time>;
using luminous_flux = detail::times<luminous_intensity, solid_angle>;
using luminous_efficacy = detail::over<luminous_flux, power>;
using photon_flux = detail::over<amount, time>;
using photon_flux_density = detail::over<photon_flux, area>;
using photon_intensity = detail::over<photon_flux, solid_angle>;
using photons_per_light = detail::over<photon_flux, luminous_flux>;
using photon_dose = detail::over<amount, area>;
using photon_efficacy = detail::over<amount, energy>;
using concentration = detail::over<amount, volume>;
using molar_mass = detail::over<mass, amount>;
using molality = detail::over<amount, mass>;
using per_area = detail::power<length, -2>;
using molar_flux = photon_flux_density;
using mass_per_length = detail::over<mass, length>;
using area_density = detail::over<mass, area>;
using volume_per_length = area;
using specific_mass_flow = detail::over<mass_flow, mass>;
using currency_per_energy = detail::over<currency, energy>;
using currency_per_time = detail::over<currency, time>;
using currency_per_area_time = detail::over<detail::over<currency, area>, time>;
using currency_per_volume = detail::over<currency, volume>;
}  // namespace unit

template <class Unit, class T = double>
using Quantity = bu::quantity<Unit, T>;

using Length = Quantity<unit::length>;
using Area = Quantity<unit::area>;
using Volume = Quantity<unit::volume>;
using SecondMomentOfArea = Quantity<unit::second_moment>;
using Angle = Quantity<unit::angle>;
using SolidAngle = Quantity<unit::solid_angle>;
using Time = Quantity<unit::time>;
using Frequency = Quantity<unit::frequency>;  ///< also any rate per time
using Velocity = Quantity<unit::velocity>;
using Acceleration = Quantity<unit::acceleration>;
using VolumeFlow = Quantity<unit::volume_flow>;
using Mass = Quantity<unit::mass>;
using MassFlow = Quantity<unit::mass_flow>;
using MassFlux = Quantity<unit::mass_flux>;  ///< mass per area and time
using MassPerLength = Quantity<unit::mass_per_length>;
using AreaDensity = Quantity<unit::area_density>;             ///< mass per area
using SpecificMassFlow = Quantity<unit::specific_mass_flow>;  ///< mass per mass and time, same as Frequency
using Density = Quantity<unit::density>;
using Force = Quantity<unit::force>;
using LineLoad = Quantity<unit::line_load>;                        ///< force per length
using MomentPerLength = Quantity<unit::force>;                     ///< bending moment per length of section, N m/m
using RotationalStiffness = Quantity<unit::rotational_stiffness>;  ///< moment per length and radian
using Pressure = Quantity<unit::pressure>;                         ///< gauge pressure, stress, elastic modulus
using EdgeStiffness = Quantity<unit::pressure>;                    ///< force per length and deflection
using Energy = Quantity<unit::energy>;
using FlexuralRigidity = Quantity<unit::energy>;               ///< plate rigidity E t^3 / (12 (1 - nu^2)), N m
using Moment = Quantity<unit::energy>;                         ///< of a force about a line, N m
using FoundationModulus = Quantity<unit::foundation_modulus>;  ///< pressure per settlement of a Winkler foundation
using BeamStiffness = Quantity<unit::beam_stiffness>;          ///< E I or G J of a beam, N m2
using Power = Quantity<unit::power>;                           ///< also radiant flux
using HeatFlux = Quantity<unit::heat_flux>;                    ///< also irradiance
using DynamicViscosity = Quantity<unit::dynamic_viscosity>;
using KinematicViscosity = Quantity<unit::kinematic_viscosity>;
using SurfaceTension = Quantity<unit::line_load>;
using SpecificEnergy = Quantity<unit::specific_energy>;  ///< latent heat, enthalpy
using SpecificHeatCapacity = Quantity<unit::specific_heat_capacity>;
using HeatCapacity = Quantity<unit::heat_capacity>;
using ThermalConductivity = Quantity<unit::thermal_conductivity>;
using ThermalTransmittance = Quantity<unit::thermal_transmittance>;  ///< film coefficient, U value
using ThermalConductance = Quantity<unit::thermal_conductance>;      ///< U A
using ThermalResistance = Quantity<unit::thermal_resistance>;        ///< R value, per area
using ThermalExpansion = Quantity<unit::thermal_expansion>;
using Voltage = Quantity<unit::voltage>;
using Current = Quantity<unit::current>;
using Resistance = Quantity<unit::resistance>;  ///< electrical, also reactance
using ResistancePerLength = Quantity<unit::resistance_per_length>;
using Charge = Quantity<unit::charge>;  ///< also the capacity of a battery
using AmountOfSubstance = Quantity<unit::amount>;
using Concentration = Quantity<unit::concentration>;  ///< amount per volume; alkalinity in equivalents
using MolarMass = Quantity<unit::molar_mass>;
using Molality = Quantity<unit::molality>;       ///< amount per mass of solution, e.g. umol/kg
using AmountFlow = Quantity<unit::photon_flux>;  ///< amount per time; alkalinity in equivalents
using PerArea = Quantity<unit::per_area>;        ///< count per area
using LuminousIntensity = Quantity<unit::luminous_intensity>;
using LuminousFlux = Quantity<unit::luminous_flux>;
using LuminousEfficacy = Quantity<unit::luminous_efficacy>;
using PhotonsPerLight = Quantity<unit::photons_per_light>;      ///< photon flux per luminous flux
using PhotonFlux = Quantity<unit::photon_flux>;                 ///< PPF
using PhotonFluxDensity = Quantity<unit::photon_flux_density>;  ///< PPFD
using PhotonIntensity = Quantity<unit::photon_intensity>;       ///< per steradian
using PhotonDose = Quantity<unit::photon_dose>;                 ///< daily light integral, per day
using PhotonEfficacy = Quantity<unit::photon_efficacy>;
using MolarFlux = Quantity<unit::molar_flux>;  ///< amount per area and time
using Attenuation = Quantity<unit::attenuation>;
using Money = Quantity<unit::currency>;
using EnergyPrice = Quantity<unit::currency_per_energy>;
using MoneyRate = Quantity<unit::currency_per_time>;
using Rent = Quantity<unit::currency_per_area_time>;
using VolumePrice = Quantity<unit::currency_per_volume>;

/// A point on the temperature scale. Adding two does not compile; their difference is a TemperatureDifference.
using Temperature = bu::quantity<bu::absolute<unit::temperature>>;
using TemperatureDifference = Quantity<unit::temperature>;

/// Pressure above vacuum. Its difference to another one is a (gauge) Pressure.
using AbsolutePressure = bu::quantity<bu::absolute<unit::pressure>>;

namespace detail {
// Points can be subtracted and shifted, not scaled: 2 x 25 degC means nothing. Boost.Units lets these pass.
// They are found by argument lookup, since this namespace owns one of the base units.
Temperature operator*(double, const Temperature&) = delete;
Temperature operator*(const Temperature&, double) = delete;
Temperature operator/(const Temperature&, double) = delete;
AbsolutePressure operator*(double, const AbsolutePressure&) = delete;
AbsolutePressure operator*(const AbsolutePressure&, double) = delete;
AbsolutePressure operator/(const AbsolutePressure&, double) = delete;
}  // namespace detail

/// A quantity from its coherent SI value: the one visible door from raw numbers to typed ones.
template <class Q>
constexpr Q from_si(double value) {
  return Q::from_value(value);
}

/// The coherent SI value of a quantity or of a point on a scale.
template <class Unit, class T>
constexpr T si(const bu::quantity<Unit, T>& q) {
  return q.value();
}

/// Temperature above absolute zero, for fourth powers, gas laws and ratios.
constexpr TemperatureDifference above_absolute_zero(const Temperature& t) {
  return from_si<TemperatureDifference>(t.value());
}

/// Pressure above vacuum as a plain pressure, for gas laws and ratios.
constexpr Pressure above_vacuum(const AbsolutePressure& p) { return from_si<Pressure>(p.value()); }

/// Absolute pressure of a gauge pressure over the surrounding air.
constexpr AbsolutePressure absolute_pressure(const Pressure& gauge, const AbsolutePressure& surroundings) {
  return from_si<AbsolutePressure>(gauge.value() + surroundings.value());
}

}  // namespace theca
