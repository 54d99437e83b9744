#include "theca/hydraulics/weir.hpp"

#include "../root.hpp"
#include "theca/require.hpp"

namespace theca::hydraulics {

namespace {
constexpr const char* correlation = "weir flow (Francis 1855)";

void require_contractions(int n) {
  require::that(n >= 0 && n <= 2, "end contractions", static_cast<double>(n), "0, 1 or 2");
}
void validate(const Weir& weir) {
  require::positive("crest length", weir.crest_length);
  require_contractions(weir.end_contractions);
}
}  // namespace

VolumeFlow weir_flow(const Weir& weir, const Length& weir_head) {
  validate(weir);
  require::not_negative("weir head", weir_head);
  require::valid(correlation, "weir head", weir_head, Length(), weir.crest_length / 3.0);
  return from_si<VolumeFlow>(kernel::weir_flow(si(weir.crest_length), weir.end_contractions, si(weir_head)));
}

Length weir_head(const Weir& weir, const VolumeFlow& flow) {
  validate(weir);
  require::not_negative("flow", flow);
  const double longest = si(weir.crest_length) / 3.0;
  const auto excess = [&](double h) {
    return kernel::weir_flow(si(weir.crest_length), weir.end_contractions, h) - si(flow);
  };
  require::valid(correlation, "flow", flow, VolumeFlow(), from_si<VolumeFlow>(excess(longest) + si(flow)));
  if (si(flow) == 0.0) return Length();
  // Without contractions the head is least; that and the largest head enclose the root, since flow rises with head.
  const double least = std::cbrt(std::pow(si(flow) / (1.84 * si(weir.crest_length)), 2.0)) * (1.0 - 1e-12);
  const double at_least = excess(least), at_longest = excess(longest);
  if (at_least >= 0.0 || least >= longest) return from_si<Length>(least);
  if (at_longest <= 0.0) return from_si<Length>(longest);
  return from_si<Length>(theca::detail::root_between("weir head", excess, least, longest, at_least, at_longest).at());
}

bool weir_in_fitted_range(const Weir& weir, const Length& weir_head) {
  validate(weir);
  require::finite("weir head", weir_head);
  return si(weir_head) >= 0.03 && si(weir_head) <= si(weir.crest_length) / 3.0;
}

Length weir_crest_for(const VolumeFlow& flow, const Length& weir_head, int end_contractions) {
  require::positive("flow", flow);
  require::positive("weir head", weir_head);
  require_contractions(end_contractions);
  const double h = si(weir_head);
  const Length crest = from_si<Length>(si(flow) / (1.84 * h * std::sqrt(h)) + 0.1 * end_contractions * h);
  require::valid(correlation, "weir head", weir_head, Length(), crest / 3.0);
  return crest;
}

}  // namespace theca::hydraulics
