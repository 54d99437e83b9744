#include "theca/thermal/humidity.hpp"

#include "../root.hpp"
#include "theca/require.hpp"

namespace theca::thermal {

namespace {
void require_room(const VentilatedRoom& room) {
  require::positive("room volume", room.volume);
  require::not_negative("air changes", room.air_changes);
}
}  // namespace

MassFlow ventilation_removal(const VentilatedRoom& room, const air::MoistAir& inside, const air::MoistAir& outside) {
  require_room(room);
  const double dry_air = si(room.air_changes) * si(room.volume) * si(air::dry_air_density(inside));
  return from_si<MassFlow>(dry_air * (air::humidity_ratio(inside) - air::humidity_ratio(outside)));
}

MassFlow required_dehumidification(const MassFlow& evaporation, const VentilatedRoom& room,
                                   const air::MoistAir& at_limit, const air::MoistAir& outside) {
  require::finite("evaporation", evaporation);
  return evaporation - ventilation_removal(room, at_limit, outside);
}

RelativeHumidity steady_humidity(const VentilatedRoom& room, const Temperature& inside, const air::MoistAir& outside,
                                 const std::function<MassFlow(const air::MoistAir&)>& evaporation,
                                 const MassFlow& dehumidifiers) {
  require_room(room);
  require::not_negative("dehumidifiers", dehumidifiers);
  require::that(static_cast<bool>(evaporation), "evaporation", 0.0, "a function of the room's air");
  const auto excess = [&](double humidity) {
    const air::MoistAir air{
        .temperature = inside, .humidity = RelativeHumidity(humidity), .pressure = outside.pressure};
    const MassFlow evaporated = evaporation(air);
    require::finite("evaporation", evaporated);
    return si(evaporated) - si(ventilation_removal(room, air, outside)) - si(dehumidifiers);
  };
  const double dry = excess(0.0), saturated = excess(1.0);
  if (dry < 0.0)
    throw OutOfValidity("room moisture balance",
                        "dehumidifiers and ventilation take out more than is supplied even to perfectly dry air, by " +
                            text(-dry, "kg/s"));
  if (saturated > 0.0)
    throw OutOfValidity("room moisture balance", "the room passes saturation, with " + text(saturated, "kg/s") +
                                                     " left over at 100 % RH: fog and wet walls");
  return RelativeHumidity(
      theca::detail::root_between("steady humidity of a room", excess, 0.0, 1.0, dry, saturated).at());
}

MassFlow fresh_water(const VolumeFlow& flow) {
  require::not_negative("flow", flow);
  return flow * (1000.0 * units::kilogram_per_cubic_metre);
}

Temperature inside_surface(const Pane& pane, const Temperature& inside, const Temperature& outside) {
  require::positive("U", pane.U);
  require::positive("inside film", pane.inside_film);
  require::positive("inside temperature", inside);
  require::positive("outside temperature", outside);
  const double share = si(pane.U) * si(pane.inside_film);
  require::that(share < 1.0, "inside film", pane.inside_film,
                "below 1/U, " + text(1.0 / si(pane.U), "m2 K/W") + ", of which it is a part");
  return from_si<Temperature>(si(inside) - share * (si(inside) - si(outside)));
}

Condensation condensation(const Pane& pane, const air::MoistAir& inside, const Temperature& outside) {
  return condensation(inside_surface(pane, inside.temperature, outside), inside);
}

Condensation condensation(const Temperature& surface, const air::MoistAir& inside) {
  const Temperature dew = air::dew_point(inside);
  const double held = si(air::saturation_vapour_pressure(surface));
  const double at_saturation = si(air::saturation_vapour_pressure(inside.temperature));
  return {.surface = surface,
          .dew_point = dew,
          .margin = surface - dew,
          .at_surface = RelativeHumidity(si(air::vapour_pressure(inside)) / held),
          .highest_in_room = RelativeHumidity(held / at_saturation)};
}

}  // namespace theca::thermal
