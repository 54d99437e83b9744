#include "theca/hydraulics/thin_plate_weir.hpp"

#include <algorithm>
#include <cmath>

#include "../root.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr const char* kindsvater_carter = "thin-plate weir (Kindsvater & Carter 1957)";
constexpr const char* rehbock = "full-width weir (Rehbock 1929)";
constexpr const char* kindsvater_shen = "V-notch (Kindsvater & Shen)";
constexpr const char* comb_of_slots = "comb weir";
constexpr const char* broad = "broad-crested weir (Bos 1989)";
const double root_2g = std::sqrt(2.0 * units::detail::standard_gravity);

struct Coefficients {
  double contraction, a, slope, width_m;
};
// By b/B, after Bos 1989 and ISO 1438.
constexpr Coefficients table[] = {{0.0, 0.587, -0.0023, 0.0024}, {0.2, 0.589, -0.0018, 0.0024},
                                  {0.4, 0.591, 0.0058, 0.0027},  {0.6, 0.593, 0.018, 0.0036},
                                  {0.7, 0.595, 0.030, 0.0041},   {0.8, 0.597, 0.045, 0.0042},
                                  {0.9, 0.599, 0.064, 0.0033},   {1.0, 0.602, 0.075, -0.0009}};

Coefficients coefficients(double contraction) {
  std::size_t i = 1;
  while (i + 1 < std::size(table) && contraction > table[i].contraction) ++i;
  const Coefficients &l = table[i - 1], &r = table[i];
  const double w = (contraction - l.contraction) / (r.contraction - l.contraction);
  return {contraction, l.a + w * (r.a - l.a), l.slope + w * (r.slope - l.slope),
          l.width_m + w * (r.width_m - l.width_m)};
}

void validate(const ThinPlateWeir& weir) {
  require::positive("crest length", weir.crest_length);
  require::positive("channel width", weir.channel_width);
  require::that(weir.channel_width >= weir.crest_length, "channel width", weir.channel_width,
                "at least the crest length, " + text(weir.crest_length));
  require::positive("crest height", weir.crest_height);
}
void validate(const VNotch& notch) {
  require::finite("opening", notch.opening);
  require::valid(kindsvater_shen, "opening", notch.opening, 20.0 * units::degree, 100.0 * units::degree);
  require::positive("notch height", notch.notch_height);
}
void validate(const CombWeir& comb) {
  require::that(comb.slots >= 1, "slots", static_cast<double>(comb.slots), "1 or more");
  require::positive("slot width", comb.slot_width);
  require::not_negative("tooth width", comb.tooth_width);
  require::positive("slot height", comb.slot_height);
}
void validate(const BroadCrest& crest) {
  require::positive("crest length", crest.crest_length);
  require::positive("crest breadth", crest.crest_breadth);
  require::positive("crest height", crest.crest_height);
}

double thin_plate_spread(double head_over_height) {
  return head_over_height <= 1.0 ? 0.015 : head_over_height <= 1.5 ? 0.02 : 0.03;
}
double thin_plate_flow(const ThinPlateWeir& weir, double h) {
  if (h == 0.0) return 0.0;  // the head added for surface tension would let a dry crest flow
  const double b = si(weir.crest_length);
  const Coefficients c = coefficients(b / si(weir.channel_width));
  const double width = b + c.width_m * std::min(1.0, b / 0.15);
  return (c.a + c.slope * h / si(weir.crest_height)) * 2.0 / 3.0 * root_2g * width * std::pow(h + 0.001, 1.5);
}
double v_notch(const VNotch& notch, double h) {
  if (h == 0.0) return 0.0;
  const double t = in(notch.opening, units::degree);
  const double ce = 0.607165052 + t * (-0.000874466963 + t * 6.10393334e-6);
  const double kh_ft = 0.0144902648 + t * (-0.00033955535 + t * (3.29819003e-6 - t * 1.06215442e-8));
  return ce * 8.0 / 15.0 * root_2g * std::tan(0.5 * si(notch.opening)) *
         std::pow(h + kh_ft * units::detail::foot_m, 2.5);
}
// Flow of a comb at a head of 1 m.
double comb_scale(const CombWeir& comb) {
  const double b = si(comb.slot_width);
  return comb.slots * coefficients(b / (b + si(comb.tooth_width))).a * 2.0 / 3.0 * root_2g * b;
}
double broad_scale(const BroadCrest& crest) {
  return 0.848 * std::pow(2.0 / 3.0, 1.5) * std::sqrt(units::detail::standard_gravity) * si(crest.crest_length);
}

// Root of a flow that rises with head, between 0 and `highest`. A flow below the least that the head added for surface
// tension allows has no root: any wetting passes it.
template <class F>
Length rising_root(const char* what, const F& flow_at, double flow, double highest) {
  const auto excess = [&](double h) { return flow_at(h) - flow; };
  const double lowest = 1e-9 * highest;
  const double at_low = excess(lowest), at_high = excess(highest);
  if (at_low >= 0.0) return Length();
  if (at_high <= 0.0) return from_si<Length>(highest);
  return from_si<Length>(theca::detail::root_between(what, excess, lowest, highest, at_low, at_high).at());
}
}  // namespace

WeirFlow thin_plate_weir_flow(const ThinPlateWeir& weir, const Length& head) {
  validate(weir);
  require::not_negative("head", head);
  require::valid(kindsvater_carter, "head", head, Length(), 2.5 * weir.crest_height);
  const bool fitted = si(head) >= 0.03 && si(weir.crest_length) >= 0.15 && si(weir.crest_height) >= 0.1;
  return {from_si<VolumeFlow>(thin_plate_flow(weir, si(head))),
          fitted ? thin_plate_spread(si(head) / si(weir.crest_height)) : spread_outside_fit, fitted};
}

Length thin_plate_weir_head(const ThinPlateWeir& weir, const VolumeFlow& flow) {
  validate(weir);
  require::not_negative("flow", flow);
  const double highest = 2.5 * si(weir.crest_height);
  require::valid(kindsvater_carter, "flow", flow, VolumeFlow(), from_si<VolumeFlow>(thin_plate_flow(weir, highest)));
  return rising_root(
      "head of a thin-plate weir", [&](double h) { return thin_plate_flow(weir, h); }, si(flow), highest);
}

WeirFlow rehbock_weir_flow(const ThinPlateWeir& weir, const Length& head) {
  validate(weir);
  require::that(weir.channel_width == weir.crest_length, "channel width", weir.channel_width,
                "equal to the crest length, " + text(weir.crest_length));
  require::not_negative("head", head);
  require::valid(rehbock, "head", head, Length(), weir.crest_height);
  const double h = si(head), ratio = h / si(weir.crest_height);
  const bool fitted = h >= 0.03 && h <= 0.75 && si(weir.crest_length) >= 0.3 && si(weir.crest_height) >= 0.1;
  const double flow =
      h == 0.0 ? 0.0
               : 2.0 / 3.0 * root_2g * (0.602 + 0.083 * ratio) * si(weir.crest_length) * std::pow(h + 0.00125, 1.5);
  return {from_si<VolumeFlow>(flow), fitted ? thin_plate_spread(ratio) : spread_outside_fit, fitted};
}

WeirFlow v_notch_flow(const VNotch& notch, const Length& head) {
  validate(notch);
  require::not_negative("head", head);
  const bool fitted = si(head) >= 0.06 && si(head) <= 0.4 * si(notch.notch_height) && si(notch.notch_height) >= 0.09;
  return {from_si<VolumeFlow>(v_notch(notch, si(head))), fitted ? 0.02 : spread_outside_fit, fitted};
}

Length v_notch_head(const VNotch& notch, const VolumeFlow& flow) {
  validate(notch);
  require::not_negative("flow", flow);
  if (si(flow) == 0.0) return Length();
  // Without the head added for surface tension the head is largest.
  const double highest =
      1.001 * std::pow(si(flow) / (0.57 * 8.0 / 15.0 * root_2g * std::tan(0.5 * si(notch.opening))), 0.4);
  return rising_root(
      "head of a V-notch", [&](double h) { return v_notch(notch, h); }, si(flow), highest);
}

WeirFlow comb_weir_flow(const CombWeir& comb, const Length& head) {
  validate(comb);
  require::not_negative("head", head);
  require::valid(comb_of_slots, "head", head, Length(), comb.slot_height);
  return {from_si<VolumeFlow>(comb_scale(comb) * si(head) * std::sqrt(si(head))), 0.20, false};
}

Length comb_weir_head(const CombWeir& comb, const VolumeFlow& flow) {
  require::not_negative("flow", flow);
  require::valid(comb_of_slots, "flow", flow, VolumeFlow(), comb_weir_flow(comb, comb.slot_height).flow);
  const double q = si(flow) / comb_scale(comb);
  return from_si<Length>(std::cbrt(q * q));
}

WeirFlow broad_crest_flow(const BroadCrest& crest, const Length& head) {
  validate(crest);
  require::not_negative("head", head);
  require::valid(broad, "head", head, Length(), 0.33 * crest.crest_breadth);
  const double h = si(head);
  const bool fitted = h >= 0.06 && h >= 0.08 * si(crest.crest_breadth) && h <= 0.35 * (h + si(crest.crest_height));
  return {from_si<VolumeFlow>(broad_scale(crest) * h * std::sqrt(h)), fitted ? 0.05 : spread_outside_fit, fitted};
}

Length broad_crest_head(const BroadCrest& crest, const VolumeFlow& flow) {
  require::not_negative("flow", flow);
  require::valid(broad, "flow", flow, VolumeFlow(), broad_crest_flow(crest, 0.33 * crest.crest_breadth).flow);
  const double q = si(flow) / broad_scale(crest);
  return from_si<Length>(std::cbrt(q * q));
}

}  // namespace theca::hydraulics
