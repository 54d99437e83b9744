// Hydraulics: pipes, pumps and manifolds; overflows, drains and drain-back; intakes, turnover and jets; their checks.
#pragma once

#include "theca/hydraulics/checks.hpp"
#include "theca/hydraulics/drain_back.hpp"
#include "theca/hydraulics/draining_time.hpp"
#include "theca/hydraulics/duty_point.hpp"
#include "theca/hydraulics/fittings.hpp"
#include "theca/hydraulics/friction.hpp"
#include "theca/hydraulics/gravity_main.hpp"
#include "theca/hydraulics/intake.hpp"
#include "theca/hydraulics/manifold.hpp"
#include "theca/hydraulics/pipe.hpp"
#include "theca/hydraulics/pump.hpp"
#include "theca/hydraulics/standpipe.hpp"
#include "theca/hydraulics/thin_plate_weir.hpp"
#include "theca/hydraulics/turnover.hpp"
#include "theca/hydraulics/water_hammer.hpp"
#include "theca/hydraulics/weir.hpp"
