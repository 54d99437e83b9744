// Heat and moisture: films, walls, evaporation, balances, room humidity, power cuts, and their checks.
#pragma once

#include "theca/thermal/air_gap.hpp"
#include "theca/thermal/balance.hpp"
#include "theca/thermal/checks.hpp"
#include "theca/thermal/cool_down.hpp"
#include "theca/thermal/evaporation.hpp"
#include "theca/thermal/film.hpp"
#include "theca/thermal/gains.hpp"
#include "theca/thermal/humidity.hpp"
#include "theca/thermal/lid.hpp"
#include "theca/thermal/nusselt.hpp"
#include "theca/thermal/radiation.hpp"
#include "theca/thermal/wall.hpp"
#include "theca/thermal/wall_options.hpp"
#include "theca/thermal/water_surface.hpp"
