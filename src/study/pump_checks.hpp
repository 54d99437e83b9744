// Checks of the return pump at its duty: where it runs, what it draws and sucks, and the surge in its main.
#pragma once

#include "collector.hpp"
#include "theca/hydraulics/manifold.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

void pump_checks(const Design& design, const hydraulics::ManifoldFlow& flow, Collector& checks);

}  // namespace theca::study
