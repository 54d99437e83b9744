// Rigid PVC for pipes and fittings.
#pragma once

#include "theca/materials/material.hpp"

namespace theca::materials {

/// Unplasticised PVC (PVC-U).
Material pvc();

/// Wall roughness of clean drawn plastic tube, for the friction factor. Films and lime raise it with the years.
/// @source 0.0015 mm for drawn tubing, Moody 1944 (Transactions of the ASME 66, 671-684), Fig. 1
Length pvc_roughness();

}  // namespace theca::materials
