#include "theca/farm/conductor.hpp"

#include <cmath>
#include <span>

#include "../nearest.hpp"
#include "theca/require.hpp"

namespace theca::farm {

namespace {

/// One line of a table; 0 where the table has no such conductor.
struct Row {
  std::string_view size;
  double area;  ///< circular mils, or mm2
  double copper, aluminium;
};

constexpr Row awg_rows[] = {  // ohm per 1000 ft at 75 degC
    {"14 AWG", 4110, 3.14, 0.0},           {"12 AWG", 6530, 1.98, 3.25},
    {"10 AWG", 10380, 1.24, 2.04},         {"8 AWG", 16510, 0.778, 1.28},
    {"6 AWG", 26240, 0.491, 0.808},        {"4 AWG", 41740, 0.308, 0.508},
    {"3 AWG", 52620, 0.245, 0.403},        {"2 AWG", 66360, 0.194, 0.319},
    {"1 AWG", 83690, 0.154, 0.253},        {"1/0 AWG", 105600, 0.122, 0.201},
    {"2/0 AWG", 133100, 0.0967, 0.159},    {"3/0 AWG", 167800, 0.0766, 0.126},
    {"4/0 AWG", 211600, 0.0608, 0.100},    {"250 kcmil", 250000, 0.0515, 0.0847},
    {"300 kcmil", 300000, 0.0429, 0.0707}, {"350 kcmil", 350000, 0.0367, 0.0605},
    {"400 kcmil", 400000, 0.0321, 0.0529}, {"500 kcmil", 500000, 0.0258, 0.0424}};

constexpr Row metric_rows[] = {  // ohm per km at 20 degC
    {"1.5 mm2", 1.5, 12.1, 0.0},    {"2.5 mm2", 2.5, 7.41, 0.0},     {"4 mm2", 4, 4.61, 0.0},
    {"6 mm2", 6, 3.08, 0.0},        {"10 mm2", 10, 1.83, 3.08},      {"16 mm2", 16, 1.15, 1.91},
    {"25 mm2", 25, 0.727, 1.20},    {"35 mm2", 35, 0.524, 0.868},    {"50 mm2", 50, 0.387, 0.641},
    {"70 mm2", 70, 0.268, 0.443},   {"95 mm2", 95, 0.193, 0.320},    {"120 mm2", 120, 0.153, 0.253},
    {"150 mm2", 150, 0.124, 0.206}, {"185 mm2", 185, 0.0991, 0.164}, {"240 mm2", 240, 0.0754, 0.125},
    {"300 mm2", 300, 0.0601, 0.100}};

/// The area of a circle of a thousandth of an inch across.
constexpr double circular_mil_m2 = 3.14159265358979323846 / 4.0 * 25.4e-6 * 25.4e-6;

std::vector<Conductor> conductors(std::span<const Row> rows, ConductorMetal metal, double area_m2,
                                  const NamedUnit<unit::resistance_per_length>& each, const Temperature& temperature) {
  std::vector<Conductor> list;
  for (const Row& row : rows)
    if (const double value = metal == ConductorMetal::copper ? row.copper : row.aluminium; value > 0.0)
      list.push_back({std::string(row.size), metal, from_si<Area>(row.area * area_m2), value * each, temperature});
  return list;
}

}  // namespace

std::vector<Conductor> awg_conductors(ConductorMetal metal) {
  return conductors(awg_rows, metal, circular_mil_m2, units::ohm_per_thousand_feet, celsius(75.0));
}

std::vector<Conductor> metric_conductors(ConductorMetal metal) {
  return conductors(metric_rows, metal, 1e-6, units::ohm_per_kilometre, celsius(20.0));
}

Conductor conductor(std::string_view name, ConductorMetal metal) {
  std::vector<std::string_view> known;
  for (const auto& list : {awg_conductors(metal), metric_conductors(metal)})
    for (const Conductor& candidate : list)
      if (candidate.name == name) return candidate;
  for (const Row& row : awg_rows) known.push_back(row.size);
  for (const Row& row : metric_rows) known.push_back(row.size);
  const std::string_view nearest = theca::detail::nearest_word(name, known);
  throw InvalidInput("conductor", "'" + std::string(name) + "'",
                     "the name of a conductor in a table of this metal, such as '" +
                         std::string(nearest.empty() || nearest == name ? "10 AWG" : nearest) + "'");
}

ResistancePerLength resistance_at(const Conductor& conductor, const Temperature& temperature) {
  require::positive("resistance of the conductor", conductor.resistance);
  for (const Temperature& t : {conductor.temperature, temperature})
    require::valid("resistance over temperature", "temperature of the conductor in degC", in_celsius(t), -20.0, 120.0);
  const double below_zero = conductor.metal == ConductorMetal::copper ? 234.5 : 228.0;
  return (below_zero + in_celsius(temperature)) / (below_zero + in_celsius(conductor.temperature)) *
         conductor.resistance;
}

}  // namespace theca::farm
