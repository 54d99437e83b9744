#include "theca/structure/stand_checks.hpp"

#include "subject_name.hpp"
#include "theca/require.hpp"

namespace theca::structure {
namespace {
constexpr const char* collapse_caution =
    "A stand that gives way drops the tank, crushes and floods. Joints, knots, corrosion and damp are not in this "
    "figure: have a licensed engineer review the stand before it is loaded.";

CheckText words_of(const std::string& subject, const char* what, std::string question, std::string where,
                   std::string source) {
  return {detail::subject_name(subject, what), std::move(question), std::move(where), std::move(source),
          collapse_caution};
}
}  // namespace

Check beam_stress_check(const std::string& subject, const BentBeam& beam, const Pressure& allowable,
                        const std::string& source) {
  require::positive("allowable", allowable);
  return make_check(words_of(subject, "beam stress", "Is the beam of the stand strong enough?",
                             "largest bending moment", "beam theory; allowable: " + source),
                    measure(beam.stress, units::psi), measure(allowable, units::psi), 0.1);
}

Check beam_deflection_check(const std::string& subject, const BentBeam& beam, const Length& limit,
                            const std::string& source) {
  require::positive("limit", limit);
  return make_check(words_of(subject, "beam deflection", "Does the stand stay flat enough under the tank?",
                             "largest sag in a span", "beam theory with shear; limit: " + source),
                    measure(beam.deflection, units::inch), measure(limit, units::inch), 0.2);
}

Check column_check(const std::string& subject, const Force& load, const Force& buckling_load, double factor,
                   const std::string& source) {
  require::not_negative("load", load);
  require::positive("buckling load", buckling_load);
  require::positive("factor", factor);
  return make_check(words_of(subject, "column", "Does a column of the stand buckle?",
                             "weaker axis; the load carries a factor of " + number(factor), source),
                    measure(factor * load, units::pound_force), measure(buckling_load, units::pound_force), 0.2);
}

Check leg_force_check(const std::string& subject, const LegForces& legs, const Force& allowable,
                      const std::string& source) {
  require::positive("allowable", allowable);
  return make_check(words_of(subject, "leg force", "Can the floor and the foot take the most loaded leg?",
                             "most loaded leg; " + number(legs.standing) + " legs carry",
                             "statics of a rigid stand; allowable: " + source),
                    measure(legs.largest, units::pound_force), measure(allowable, units::pound_force), 0.2);
}

Check level_check(const std::string& subject, const OutOfLevel& level, const Length& limit, const std::string& source) {
  require::positive("limit", limit);
  return make_check(words_of(subject, "level", "Is the tank level enough?", "waterline from end to end",
                             "geometry; limit: " + source),
                    measure(level.waterline, units::inch), measure(limit, units::inch), 0.05);
}

}  // namespace theca::structure
