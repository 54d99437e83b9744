// Checks of one kind of tank under earthquake and scraping, and of what it puts on its legs and the floor.
#pragma once

#include <string>

#include "collector.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

void stand_and_motion_checks(const Design& design, const std::string& tank, const TankKind& kind, Collector& checks);
void sump_floor_check(const Design& design, Collector& checks);

}  // namespace theca::study
