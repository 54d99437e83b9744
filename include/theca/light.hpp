// Light over and under water: luminaires, the refracted field, placement and checks.
#pragma once

#include "theca/light/checks.hpp"
#include "theca/light/field.hpp"
#include "theca/light/fresnel.hpp"
#include "theca/light/intensity.hpp"
#include "theca/light/luminaire.hpp"
#include "theca/light/map_measures.hpp"
#include "theca/light/photometric_web.hpp"
#include "theca/light/photometry_file.hpp"
#include "theca/light/placement.hpp"
#include "theca/light/plane_map.hpp"
#include "theca/light/ppfd_map.hpp"
#include "theca/light/refraction.hpp"
#include "theca/light/spectrum.hpp"
#include "theca/light/tank_parts.hpp"
#include "theca/light/water_bands.hpp"
#include "theca/light/waterbody.hpp"
