#include "theca/light/luminaire.hpp"

#include <cmath>

#include "limits.hpp"
#include "theca/require.hpp"

namespace theca::light {

void require_valid(const Luminaire& luminaire) {
  require_valid(luminaire.intensity);
  require::within("aperture length", luminaire.aperture_length, Length(), 1.0 * units::kilometre);
  require::within("aperture width", luminaire.aperture_width, Length(), 1.0 * units::kilometre);
  require::within("points along", static_cast<double>(luminaire.points_along), 1.0, 100.0);
  require::within("points across", static_cast<double>(luminaire.points_across), 1.0, 100.0);
  require::positive("power", luminaire.power);
  require::that(luminaire.ageing_factor > 0.0 && luminaire.ageing_factor <= 1.0, "ageing factor",
                luminaire.ageing_factor, "> 0 and <= 1");
}

void require_valid(const PlacedLuminaire& placed) {
  require_valid(placed.luminaire);
  require::within("luminaire x", placed.x, -limits::tank_span, limits::tank_span);
  require::within("luminaire y", placed.y, -limits::tank_span, limits::tank_span);
  limits::height("mounting height", placed.mounting_height);
  require::finite("luminaire heading", placed.heading);
  require::within("luminaire tilt", placed.tilt, Angle(), 90.0 * units::degree);
  require::finite("luminaire tilt azimuth", placed.tilt_azimuth);
  require::that(placed.dimming > 0.0 && placed.dimming <= 1.0, "dimming", placed.dimming, "> 0 and <= 1");
  const double reach = 0.5 * std::hypot(si(placed.luminaire.aperture_length), si(placed.luminaire.aperture_width)) *
                       std::sin(si(placed.tilt));
  require::that(placed.mounting_height - from_si<Length>(reach) >= limits::lowest_height, "mounting height",
                placed.mounting_height, "so high that the tilted aperture stays above the water");
}

PhotonFlux photon_flux(const PlacedLuminaire& placed) {
  require_valid(placed);
  return placed.dimming * photon_flux(placed.luminaire.intensity);
}

Power electrical_power(const PlacedLuminaire& placed) {
  require_valid(placed);
  return placed.dimming * placed.luminaire.power;
}

PhotonEfficacy photon_efficacy(const Luminaire& luminaire) {
  require_valid(luminaire);
  return from_si<PhotonEfficacy>(si(photon_flux(luminaire.intensity)) / si(luminaire.power));
}

bool apertures_overlap(const PlacedLuminaire& a, const PlacedLuminaire& b) {
  require_valid(a);
  require_valid(b);
  const auto apart_along = [&](const Angle& direction) {
    const double c = std::cos(si(direction)), s = std::sin(si(direction));
    // Half the width of an aperture's shadow on this direction.
    const auto half = [&](const PlacedLuminaire& placed) {
      const double turn = si(placed.heading - direction);
      return 0.5 * (std::abs(std::cos(turn)) * si(placed.luminaire.aperture_length) +
                    std::abs(std::sin(turn)) * si(placed.luminaire.aperture_width));
    };
    // Apertures that just touch may miss by a rounding.
    return std::abs(c * si(b.x - a.x) + s * si(b.y - a.y)) >= (1.0 - 1e-9) * (half(a) + half(b));
  };
  const auto area = [](const PlacedLuminaire& placed) {
    return si(placed.luminaire.aperture_length) * si(placed.luminaire.aperture_width);
  };
  if (area(a) == 0.0 || area(b) == 0.0) return false;
  for (const PlacedLuminaire* placed : {&a, &b})
    for (const Angle& quarter : {Angle(), 90.0 * units::degree})
      if (apart_along(placed->heading + quarter)) return false;
  return true;
}

namespace {
void require_valid_row(const Luminaire& luminaire, int count, const Length& tank_length, const Angle& heading) {
  require_valid(luminaire);
  limits::tank_side("tank length", tank_length);
  require::within("count", static_cast<double>(count), 1.0, 10000.0);
  require::finite("heading", heading);
}
}  // namespace

bool fits_in_row(const Luminaire& luminaire, int count, const Length& tank_length, const Angle& heading) {
  require_valid_row(luminaire, count, tank_length, heading);
  // A row that fits exactly may miss by a rounding.
  const Length space = (1.0 + 1e-9) / static_cast<double>(count) * tank_length;
  return count == 1 || std::abs(std::cos(si(heading))) * space >= luminaire.aperture_length ||
         std::abs(std::sin(si(heading))) * space >= luminaire.aperture_width;
}

std::vector<PlacedLuminaire> evenly_spaced(const Luminaire& luminaire, int count, const Length& tank_length,
                                           const Length& tank_width, const Length& mounting_height,
                                           const Angle& heading) {
  require_valid_row(luminaire, count, tank_length, heading);
  limits::tank_side("tank width", tank_width);
  limits::height("mounting height", mounting_height);
  require::that(fits_in_row(luminaire, count, tank_length, heading), "count", static_cast<double>(count),
                "apertures that do not overlap: " + text(luminaire.aperture_length) + " x " +
                    text(luminaire.aperture_width) + " on a tank " + text(tank_length) +
                    " long; fewer of them, or turned across the tank by the heading");
  const Length space = tank_length / static_cast<double>(count);
  std::vector<PlacedLuminaire> row;
  row.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i)
    row.push_back({.luminaire = luminaire,
                   .x = (static_cast<double>(i) + 0.5) * space,
                   .y = 0.5 * tank_width,
                   .mounting_height = mounting_height,
                   .heading = heading});
  return row;
}

}  // namespace theca::light
