// Quantities, named units, literals, salinity: everything needed to write down a number with its unit.
#pragma once

#include "theca/units/literals.hpp"
#include "theca/units/named.hpp"
#include "theca/units/quantity.hpp"
#include "theca/units/salinity.hpp"
#include "theca/units/symbol.hpp"
