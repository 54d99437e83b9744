// Properties of seawater at one atmosphere: everything of theca::seawater in one include.
#pragma once

#include "theca/seawater/carbonate.hpp"
#include "theca/seawater/density.hpp"
#include "theca/seawater/heat_capacity.hpp"
#include "theca/seawater/latent_heat.hpp"
#include "theca/seawater/light_loss.hpp"
#include "theca/seawater/range.hpp"
#include "theca/seawater/refractive_index.hpp"
#include "theca/seawater/surface_tension.hpp"
#include "theca/seawater/thermal_conductivity.hpp"
#include "theca/seawater/vapour_pressure.hpp"
#include "theca/seawater/viscosity.hpp"
