// All of theca. Each module also has an umbrella of its own, e.g. theca/structure.hpp, and each idea its own header.
#pragma once

#include "theca/air.hpp"
#include "theca/check.hpp"
#include "theca/error.hpp"
#include "theca/farm.hpp"
#include "theca/hydraulics.hpp"
#include "theca/light.hpp"
#include "theca/materials.hpp"
#include "theca/seawater.hpp"
#include "theca/structure.hpp"
#include "theca/study.hpp"
#include "theca/thermal.hpp"
#include "theca/units.hpp"
#include "theca/version.hpp"
