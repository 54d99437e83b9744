#include "theca/light/spectrum.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "theca/require.hpp"

namespace theca::light {
namespace {
constexpr double planck_J_s = 6.62607015e-34, light_m_s = 299792458.0, avogadro_mol = 6.02214076e23;
constexpr double boltzmann_J_K = 1.380649e-23;
constexpr double nm = 1e-9;
constexpr Length shortest = 200.0 * units::nanometre, longest = 2000.0 * units::nanometre;
constexpr double most_lumens_per_watt = 683.0;  // K_cd is defined at 540 THz; K_m = 683.002 lm/W

constexpr double eye_low_nm = 380.0, eye_step_nm = 10.0;
constexpr double eye[] = {0.00004, 0.00012, 0.0004,  0.0012,  0.0040,  0.0116,  0.023,   0.038,   0.060, 0.091,  0.139,
                          0.208,   0.323,   0.503,   0.710,   0.862,   0.954,   0.995,   0.995,   0.952, 0.870,  0.757,
                          0.631,   0.503,   0.381,   0.265,   0.175,   0.107,   0.061,   0.032,   0.017, 0.0082, 0.0041,
                          0.0021,  0.00105, 0.00052, 0.00025, 0.00012, 0.00006, 0.00003, 0.000015};
constexpr double d65[] = {49.9755, 54.6482, 82.7549, 91.4860, 93.4318, 86.6823, 104.865, 117.008, 117.812,
                          114.861, 115.923, 108.811, 109.354, 107.802, 104.790, 107.689, 104.405, 104.046,
                          100.000, 96.3342, 95.7880, 88.6856, 90.0062, 89.5991, 87.6987, 83.2886, 83.6992,
                          80.0268, 80.2146, 82.2778, 78.2842, 69.7213, 71.6091, 74.3490, 61.6040, 69.8856,
                          75.0870, 63.5927, 46.4182, 66.8054, 63.3828};

double eye_response(double wavelength_nm) {
  const double place = (wavelength_nm - eye_low_nm) / eye_step_nm;
  if (place < 0.0 || place > static_cast<double>(std::size(eye) - 1)) return 0.0;
  const auto i = std::min(static_cast<std::size_t>(place), std::size(eye) - 2);
  return eye[i] + (place - static_cast<double>(i)) * (eye[i + 1] - eye[i]);
}

double power_at(const Spectrum& spectrum, double wavelength_m) {
  const auto& w = spectrum.wavelengths;
  if (wavelength_m < si(w.front()) || wavelength_m > si(w.back())) return 0.0;
  const auto above = std::upper_bound(w.begin() + 1, w.end() - 1, from_si<Length>(wavelength_m));
  const auto i = static_cast<std::size_t>(above - w.begin());
  const double share = (wavelength_m - si(w[i - 1])) / si(w[i] - w[i - 1]);
  return spectrum.power[i - 1] + share * (spectrum.power[i] - spectrum.power[i - 1]);
}

/// Integral of power times weight; exact by Simpson's rule for weights that are straight between multiples of 10 nm.
template <class Weight>
double integral(const Spectrum& spectrum, double low_m, double high_m, Weight&& weight) {
  std::vector<double> breaks;
  for (const Length& w : spectrum.wavelengths) breaks.push_back(si(w));
  low_m = std::max(low_m, breaks.front());
  high_m = std::min(high_m, breaks.back());
  if (!(low_m < high_m)) return 0.0;
  for (double at = std::ceil(low_m / (eye_step_nm * nm)); at * eye_step_nm * nm < high_m; at += 1.0)
    breaks.push_back(at * eye_step_nm * nm);
  breaks.push_back(low_m);
  breaks.push_back(high_m);
  std::sort(breaks.begin(), breaks.end());
  double sum = 0.0;
  for (std::size_t i = 1; i < breaks.size(); ++i) {
    const double a = breaks[i - 1], b = breaks[i], middle = 0.5 * (a + b);
    if (a < low_m || b > high_m) continue;
    sum += (b - a) / 6.0 *
           (power_at(spectrum, a) * weight(a) + 4.0 * power_at(spectrum, middle) * weight(middle) +
            power_at(spectrum, b) * weight(b));
  }
  return sum;
}

double one(double) { return 1.0; }
double self(double wavelength_m) { return wavelength_m; }
double eye_at(double wavelength_m) { return eye_response(wavelength_m / nm); }

void require_rising(const Length& low, const Length& high) {
  require::within("low wavelength", low, shortest, longest);
  require::that(high > low && high <= longest, "high wavelength", high, "above the low one, at most 2e-06 m");
}

double total(const Spectrum& spectrum) { return integral(spectrum, si(shortest), si(longest), one); }

Spectrum tabulated(double step_nm, double low_nm, double high_nm, double (*power)(double wavelength_m, double),
                   double T) {
  Spectrum spectrum;
  for (int i = 0; low_nm + i * step_nm <= high_nm; ++i) {
    spectrum.wavelengths.push_back((low_nm + i * step_nm) * units::nanometre);
    spectrum.power.push_back(power(si(spectrum.wavelengths.back()), T));
  }
  return spectrum;
}

/// Relative to 560 nm, so that no power of a small length is left.
double planck(double wavelength_m, double c2_over_T_m) {
  constexpr double reference_m = 560.0 * nm;
  return std::pow(reference_m / wavelength_m, 5) * std::expm1(c2_over_T_m / reference_m) /
         std::expm1(c2_over_T_m / wavelength_m);
}
}  // namespace

void require_valid(const Spectrum& spectrum) {
  const auto& w = spectrum.wavelengths;
  require::that(w.size() >= 2, "spectrum: number of wavelengths", static_cast<double>(w.size()), "at least 2");
  require::that(spectrum.power.size() == w.size(), "spectrum: number of powers",
                static_cast<double>(spectrum.power.size()), "one for each wavelength");
  double most = 0.0;
  for (std::size_t i = 0; i < w.size(); ++i) {
    const std::string at = '[' + std::to_string(i) + ']';
    require::within("spectrum: wavelengths" + at, w[i], shortest, longest);
    require::that(i == 0 || w[i] > w[i - 1], "spectrum: wavelengths" + at, w[i], "more than the one before");
    require::not_negative("spectrum: power" + at, spectrum.power[i]);
    most = std::max(most, spectrum.power[i]);
  }
  require::that(most > 0.0, "spectrum: largest power", most, "> 0");
}

Spectrum black_body(const Temperature& temperature) {
  require::within("temperature", temperature, from_si<Temperature>(1000.0), from_si<Temperature>(20000.0));
  return tabulated(5.0, 300.0, 830.0, planck, planck_J_s * light_m_s / boltzmann_J_K / si(temperature));
}

Spectrum illuminant_a() { return tabulated(5.0, 300.0, 830.0, planck, 1.4350e-2 / 2848.0); }

Spectrum illuminant_d65() {
  Spectrum spectrum;
  for (std::size_t i = 0; i < std::size(d65); ++i) {
    spectrum.wavelengths.push_back((380.0 + 10.0 * static_cast<double>(i)) * units::nanometre);
    spectrum.power.push_back(d65[i]);
  }
  return spectrum;
}

PhotonEfficacy photons_per_energy(const Spectrum& spectrum, const Length& low, const Length& high) {
  require_valid(spectrum);
  require_rising(low, high);
  return from_si<PhotonEfficacy>(integral(spectrum, si(low), si(high), self) /
                                 (avogadro_mol * planck_J_s * light_m_s * total(spectrum)));
}

LuminousEfficacy luminous_efficacy(const Spectrum& spectrum) {
  require_valid(spectrum);
  return from_si<LuminousEfficacy>(most_lumens_per_watt * integral(spectrum, si(shortest), si(longest), eye_at) /
                                   total(spectrum));
}

PhotonsPerLight photons_per_light(const Spectrum& spectrum, const Length& low, const Length& high) {
  const LuminousEfficacy efficacy = luminous_efficacy(spectrum);
  require::that(si(efficacy) > 0.0, "luminous efficacy of the spectrum", efficacy, "> 0 lm/W");
  return photons_per_energy(spectrum, low, high) / efficacy;
}

std::vector<SpectralBand> photon_bands(const Spectrum& spectrum, int count, const Length& low, const Length& high) {
  require_valid(spectrum);
  require_rising(low, high);
  require::within("number of bands", static_cast<double>(count), 1.0, 1000.0);
  const double all = integral(spectrum, si(low), si(high), self);
  require::that(all > 0.0, "photons between the wavelengths", all, "> 0");
  std::vector<SpectralBand> bands;
  for (int i = 0; i < count; ++i) {
    const double a = si(low) + si(high - low) * i / count, b = si(low) + si(high - low) * (i + 1) / count;
    const double photons = integral(spectrum, a, b, self);
    if (!(photons > 0.0)) continue;
    const double first_moment = integral(spectrum, a, b, [](double w) { return w * w; });
    bands.push_back({.wavelength = from_si<Length>(first_moment / photons), .photon_share = photons / all});
  }
  return bands;
}

}  // namespace theca::light
