// Moist and dry air: everything of theca::air in one include.
#pragma once

#include "theca/air/moist_air.hpp"
#include "theca/air/saturation.hpp"
#include "theca/air/transport.hpp"
