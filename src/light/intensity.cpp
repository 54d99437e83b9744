#include "theca/light/intensity.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include "limits.hpp"
#include "sampler.hpp"
#include "theca/require.hpp"

namespace theca::light {
namespace {
using std::numbers::pi;
constexpr double most_exponent = 1e4;
// 90 deg and 180 deg written in degrees may miss the radian value by a rounding.
constexpr double rounding_rad = 1e-9;

std::string numbered(const char* what, std::size_t i) { return std::string(what) + "[" + std::to_string(i) + "]"; }

void require_valid_table(const TabulatedIntensity& table) {
  const auto& angles = table.angles;
  require::that(angles.size() >= 2, "intensity: number of angles", static_cast<double>(angles.size()), "at least 2");
  require::that(table.values.size() == angles.size(), "intensity: number of values",
                static_cast<double>(table.values.size()), "one for each angle");
  require::that(si(angles.front()) == 0.0, "intensity: angles[0]", angles.front(), "0 rad");
  for (std::size_t i = 1; i < angles.size(); ++i)
    require::that(angles[i] > angles[i - 1], numbered("intensity: angles", i), angles[i], "more than the angle before");
  require::that(si(angles.back()) >= pi / 2.0 - rounding_rad && si(angles.back()) <= pi + rounding_rad,
                "intensity: last angle", angles.back(), "1.5708 to 3.14159 rad (90 to 180 deg)");
  double brightest = 0.0;
  for (std::size_t i = 0; i < angles.size(); ++i) {
    require::within(numbered("intensity: values", i), table.values[i], PhotonIntensity(), limits::brightest);
    brightest = std::max(brightest, si(table.values[i]));
  }
  require::that(brightest > 0.0, "intensity: largest value", from_si<PhotonIntensity>(brightest), "> 0 mol/s/sr");
}

void require_valid_lobe(const CosineLobe& lobe) {
  require::that(si(lobe.on_axis) > 0.0 && lobe.on_axis <= limits::brightest, "intensity: on_axis", lobe.on_axis,
                "> 0 mol/s/sr and <= 1000 mol/s/sr");
  require::within("intensity: exponent", lobe.exponent, 0.0, most_exponent);
}

/// mol/s/sr for each cd.
double photons_per_candela(const WebIntensity& form) { return si(form.flux) / si(luminous_flux(form.web)); }

void require_valid_web(const WebIntensity& form) {
  require_valid(form.web);
  require::positive("intensity: flux", form.flux);
  const auto most = std::max_element(form.web.intensities.begin(), form.web.intensities.end());
  require::within("intensity: largest value", from_si<PhotonIntensity>(photons_per_candela(form) * si(*most)),
                  PhotonIntensity(), limits::brightest);
}
}  // namespace

void require_valid(const AngularIntensity& intensity) {
  if (const auto* table = std::get_if<TabulatedIntensity>(&intensity))
    require_valid_table(*table);
  else if (const auto* lobe = std::get_if<CosineLobe>(&intensity))
    require_valid_lobe(*lobe);
  else
    require_valid_web(std::get<WebIntensity>(intensity));
}

IntensitySampler::IntensitySampler(const AngularIntensity& intensity) {
  if (const auto* table = std::get_if<TabulatedIntensity>(&intensity)) {
    for (const auto& a : table->angles) angles_.push_back(si(a));
    for (const auto& v : table->values) values_.push_back(si(v));
    angles_.back() = std::max(angles_.back(), pi / 2.0);
    const std::size_t buckets = 4 * angles_.size();
    buckets_per_rad_ = static_cast<double>(buckets) / angles_.back();
    for (std::size_t b = 0, i = 1; b < buckets; ++b) {
      while (i + 1 < angles_.size() && angles_[i] * buckets_per_rad_ <= static_cast<double>(b)) ++i;
      interval_at_.push_back(i);
    }
  } else if (const auto* lobe = std::get_if<CosineLobe>(&intensity)) {
    on_axis_ = si(lobe->on_axis);
    exponent_ = lobe->exponent;
  } else {
    const auto& form = std::get<WebIntensity>(intensity);
    web_.emplace(form.web);
    photons_per_candela_ = photons_per_candela(form);
  }
}

double IntensitySampler::toward(double x, double y, double ahead) const {
  const double sideways2 = x * x + y * y;
  if (!web_ && angles_.empty())
    return ahead > 0.0 ? on_axis_ * std::pow(ahead * ahead / (ahead * ahead + sideways2), 0.5 * exponent_) : 0.0;
  return at_angle(std::atan2(std::sqrt(sideways2), ahead), web_ && sideways2 > 0.0 ? std::atan2(y, x) : 0.0);
}

double IntensitySampler::at_angle(double theta_rad, double azimuth_rad) const {
  if (web_) return photons_per_candela_ * web_->toward(azimuth_rad, theta_rad);
  if (angles_.empty()) {
    if (theta_rad > pi / 2.0) return 0.0;
    return on_axis_ * std::pow(std::cos(theta_rad), exponent_);
  }
  return of_table(theta_rad);
}

double IntensitySampler::of_table(double theta_rad) const {
  if (theta_rad > angles_.back() + rounding_rad) return 0.0;
  const auto bucket = std::min(static_cast<std::size_t>(theta_rad * buckets_per_rad_), interval_at_.size() - 1);
  std::size_t i = interval_at_[bucket];
  while (i + 1 < angles_.size() && angles_[i] <= theta_rad) ++i;
  const double share = (theta_rad - angles_[i - 1]) / (angles_[i] - angles_[i - 1]);
  return values_[i - 1] + share * (values_[i] - values_[i - 1]);
}

PhotonIntensity intensity_at(const AngularIntensity& intensity, const Angle& from_nadir, const Angle& azimuth) {
  require_valid(intensity);
  require::finite("azimuth", azimuth);
  const auto* table = std::get_if<TabulatedIntensity>(&intensity);
  const Angle end = table ? table->angles.back() : 180.0 * units::degree;
  require::within("angle from nadir", from_nadir, Angle(), end);
  return from_si<PhotonIntensity>(IntensitySampler(intensity).at_angle(si(from_nadir), si(azimuth)));
}

PhotonFlux photon_flux(const AngularIntensity& intensity) {
  require_valid(intensity);
  if (const auto* lobe = std::get_if<CosineLobe>(&intensity))
    return from_si<PhotonFlux>(2.0 * pi * si(lobe->on_axis) / (lobe->exponent + 1.0));
  if (const auto* form = std::get_if<WebIntensity>(&intensity)) return form->flux;
  const auto& table = std::get<TabulatedIntensity>(intensity);
  double sum = 0.0;
  for (std::size_t i = 1; i < table.angles.size(); ++i) {
    const double a = si(table.angles[i - 1]), b = si(table.angles[i]);
    const double at_a = si(table.values[i - 1]), at_b = si(table.values[i]);
    sum += (at_b - at_a) / (b - a) * (std::sin(b) - std::sin(a)) + at_a * std::cos(a) - at_b * std::cos(b);
  }
  return from_si<PhotonFlux>(2.0 * pi * sum);
}

CosineLobe cosine_lobe(const PhotonFlux& flux, const Angle& beam_angle) {
  require::positive("flux", flux);
  require::that(si(beam_angle) > 0.0 && si(beam_angle) < pi, "beam angle", beam_angle, "> 0 rad and < 3.14159 rad");
  const double exponent = std::log(0.5) / std::log(std::cos(si(beam_angle) / 2.0));
  require::that(exponent <= most_exponent, "beam angle", beam_angle, "one wide enough for an exponent up to 10000");
  const CosineLobe lobe{.on_axis = from_si<PhotonIntensity>(si(flux) * (exponent + 1.0) / (2.0 * pi)),
                        .exponent = exponent};
  require_valid_lobe(lobe);
  return lobe;
}

namespace {
/// The table times what gives it this flux.
TabulatedIntensity scaled(TabulatedIntensity table, const PhotonFlux& flux) {
  const double factor = si(flux / photon_flux(table));
  for (PhotonIntensity& value : table.values) value *= factor;
  require_valid_table(table);
  return table;
}
constexpr PhotonIntensity unit_intensity = from_si<PhotonIntensity>(1.0);
}  // namespace

TabulatedIntensity beam_cone(const PhotonFlux& flux, const Angle& beam_angle, const Angle& field_angle) {
  require::positive("flux", flux);
  require::within("beam angle", beam_angle, 2.0 * units::degree, 170.0 * units::degree);
  require::that(field_angle > 1.1 * beam_angle && field_angle < 180.0 * units::degree, "field angle", field_angle,
                "more than 1.1 times the beam angle, < 3.14159 rad");
  const double half = si(beam_angle) / 2.0;
  const double m = std::log(std::log(10.0) / std::log(2.0)) / std::log(si(field_angle / beam_angle));
  TabulatedIntensity table;
  for (int i = 0; i <= 360; ++i) {
    table.angles.push_back(0.25 * i * units::degree);
    table.values.push_back(std::exp2(-std::pow(si(table.angles.back()) / half, m)) * unit_intensity);
  }
  return scaled(std::move(table), flux);
}

TabulatedIntensity reflector_cone(const PhotonFlux& flux, const Angle& cut_off) {
  require::positive("flux", flux);
  require::within("cut-off", cut_off, 1.0 * units::degree, 89.0 * units::degree);
  constexpr int steps = 200;
  constexpr double edge = 1e-6;  // of the cut-off, over which the intensity falls to nothing
  TabulatedIntensity table;
  for (int i = 0; i <= steps; ++i) {
    table.angles.push_back(static_cast<double>(i) / steps * cut_off);
    table.values.push_back(std::cos(si(table.angles.back())) * unit_intensity);
  }
  for (const Angle& dark : {(1.0 + edge) * cut_off, 90.0 * units::degree}) {
    table.angles.push_back(dark);
    table.values.emplace_back();
  }
  return scaled(std::move(table), flux);
}

}  // namespace theca::light
