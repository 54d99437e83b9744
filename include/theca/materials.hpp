// What tanks and pipes are made of: everything of theca::materials in one include.
#pragma once

#include "theca/materials/acrylic.hpp"
#include "theca/materials/adhesive.hpp"
#include "theca/materials/glass.hpp"
#include "theca/materials/material.hpp"
#include "theca/materials/pipe.hpp"
#include "theca/materials/thickness.hpp"
