// Everything of the structure module: panels, braces, joints, weight, floor, water motion, sizing, checks.
#pragma once

#include "theca/structure/bend.hpp"
#include "theca/structure/checks.hpp"
#include "theca/structure/edge_on_brace.hpp"
#include "theca/structure/floor.hpp"
#include "theca/structure/joint.hpp"
#include "theca/structure/panel.hpp"
#include "theca/structure/panel_load.hpp"
#include "theca/structure/rim.hpp"
#include "theca/structure/size.hpp"
#include "theca/structure/sloshing.hpp"
#include "theca/structure/thick_panel.hpp"
#include "theca/structure/weight.hpp"
