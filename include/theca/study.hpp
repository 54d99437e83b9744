// The study: a whole farm design and its assessment. Reading designs from files is in theca/study/design_file.hpp,
// which belongs to the component theca::design_file.
#pragma once

#include "theca/study/assessment.hpp"
#include "theca/study/cure.hpp"
#include "theca/study/design.hpp"
#include "theca/study/design_input.hpp"
#include "theca/study/distribution.hpp"
#include "theca/study/parts.hpp"
#include "theca/study/sampling.hpp"
#include "theca/study/sensitivity.hpp"
#include "theca/study/tornado.hpp"
#include "theca/study/uncertain_assessment.hpp"
#include "theca/study/validate.hpp"
