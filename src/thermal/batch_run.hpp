// Runs systems of a batch, a block of steps after the other.
#pragma once

#include "batch_plan.hpp"

namespace theca::thermal::detail {

/// @throws OutOfValidity, NotConverged  as run_batch
BatchResult run_systems(const BatchPlan& plan, std::size_t first, std::size_t last);

}  // namespace theca::thermal::detail
