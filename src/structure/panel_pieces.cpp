#include "panel_pieces.hpp"

#include <Eigen/Sparse>
#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <utility>

#include "local_contact.hpp"
#include "plate_stiffness.hpp"
#include "theca/error.hpp"

namespace theca::structure::detail {
namespace {

/// The longer a piece against the side, the higher its degree.
std::vector<int> degrees(const std::vector<double>& lines) {
  std::vector<int> all;
  for (std::size_t k = 0; k + 1 < lines.size(); ++k) {
    const double share = (lines[k + 1] - lines[k]) / lines.back();
    all.push_back(share > 0.3 ? 10 : share > 0.08 ? 8 : 7);
  }
  return all;
}

/// A patch along one side of the panel, and the distance from its ends over which the bending changes.
struct Stretch {
  double low, high, grain;
};

/// Rectangle on which a patch presses, none of it narrower than an ideal point's contact where there is room.
std::array<Stretch, 2> pressed(const Panel& panel, const PatchLoad& patch) {
  const double least = narrowest_contact(panel);
  const auto stretch = [least](double centre, double size, double side) {
    const double half = std::max(0.5 * size, std::min({0.5 * least, centre, side - centre}));
    return Stretch{std::max(centre - half, 0.0), std::min(centre + half, side), 0.0};
  };
  Stretch x = stretch(si(patch.x), si(patch.width), si(panel.width));
  Stretch y = stretch(si(patch.y), si(patch.height), si(panel.height));
  x.grain = y.grain = std::max(std::min(x.high - x.low, y.high - y.low), least);
  return {x, y};
}

/// Along x and along y.
std::array<std::vector<Stretch>, 2> all_pressed(const Panel& panel, const std::vector<PatchLoad>& patches) {
  std::array<std::vector<Stretch>, 2> all;
  for (const PatchLoad& patch : patches) {
    const std::array<Stretch, 2> sides = pressed(panel, patch);
    for (std::size_t k = 0; k < 2; ++k) all[k].push_back(sides[k]);
  }
  return all;
}

/// Lines at the ends of all stretches and, from each, one, four, sixteen ... grains away. Ends closer together, or
/// closer to the panel's edge, than `least` share a line.
std::vector<double> lines(double side, const std::vector<Stretch>& stretches, double least) {
  constexpr double none = std::numeric_limits<double>::infinity();
  std::map<double, double> grain_at = {{0.0, none}, {side, none}};
  for (const Stretch& s : stretches) {
    if (s.high - s.low >= side) continue;
    for (const double place : {s.low, s.high}) {
      const auto same = std::find_if(grain_at.begin(), grain_at.end(),
                                     [&](const auto& other) { return std::abs(other.first - place) < least; });
      if (same == grain_at.end())
        grain_at.emplace(place, s.grain);
      else
        same->second = std::min(same->second, s.grain);
    }
  }
  std::vector<double> all;
  for (auto end = grain_at.begin(), next = std::next(end); next != grain_at.end(); end = next++) {
    const auto [from, fine_low] = *end;
    const auto [to, fine_high] = *next;
    all.push_back(from);
    // Towards the middle from both ends, or most of the way from one if nothing ends at the other.
    const double far = (fine_low < none && fine_high < none ? 0.4 : 0.6) * (to - from);
    std::vector<double> from_high;
    for (double d = fine_low; d < far; d *= 4.0) all.push_back(from + d);
    for (double d = fine_high; d < far; d *= 4.0) from_high.push_back(to - d);
    all.insert(all.end(), from_high.rbegin(), from_high.rend());
  }
  all.push_back(side);
  return all;
}

/// The functions of one direction: those of each piece, with those at a line shared and those held at the ends left
/// out.
struct Numbering {
  std::vector<double> line;
  std::vector<int> degree;
  std::vector<std::array<Index, most>> number;  ///< by piece and function; -1 where held
  Index size = 0;

  Numbering(std::vector<double> lines, std::vector<int> degrees, const Springs& low, const Springs& high)
      : line(std::move(lines)), degree(std::move(degrees)) {
    const std::size_t pieces = line.size() - 1;
    const auto held = [](double stiffness) { return std::isinf(stiffness); };
    number.resize(pieces);
    Index value = held(low.translation) ? -1 : size++, slope = held(low.rotation) ? -1 : size++;
    for (std::size_t k = 0; k < pieces; ++k) {
      number[k][value_low] = value;
      number[k][slope_low] = slope;
      for (int i = first_bubble; i <= degree[k]; ++i) number[k][static_cast<std::size_t>(i)] = size++;
      const bool last = k + 1 == pieces;
      value = last && held(high.translation) ? -1 : size++;
      slope = last && held(high.rotation) ? -1 : size++;
      number[k][value_high] = value;
      number[k][slope_high] = slope;
    }
  }
  double length(std::size_t k) const { return line[k + 1] - line[k]; }
  /// Of a function of a piece over the shared function: slopes count per half of the whole side.
  double scale(std::size_t k, Index i) const {
    return i == slope_low || i == slope_high ? length(k) / line.back() : 1.0;
  }
};

/// All functions of a degree.
Direction direction(const PlateBasis& basis) {
  const auto unit = [&basis](Index i) -> SmallVector { return SmallVector::Unit(basis.size, i); };
  return {basis.curvature, basis.slope,     basis.curvature_value, basis.value,
          unit(value_low), unit(slope_low), unit(value_high),      unit(slope_high)};
}

Panel piece_of(const Panel& whole, const Numbering& x, const Numbering& y, std::size_t i, std::size_t j) {
  Panel p = whole;
  p.width = from_si<Length>(x.length(i));
  p.height = from_si<Length>(y.length(j));
  if (j > 0) p.bottom = free_edge();
  if (i > 0) p.left = free_edge();
  if (i + 1 < x.degree.size()) p.right = free_edge();
  if (j + 1 < y.degree.size()) p.top = free_edge();
  return p;
}

SmallVector pressure_on(int degree, double low, double high, double water_depth) {
  if (std::isinf(water_depth)) return load_integrals(degree, 1.0, 1.0, 1.0);
  const double top = std::min(high, water_depth);
  if (top <= low) return SmallVector::Zero(degree + 1);
  return load_integrals(degree, (top - low) / (high - low), 1.0 - low / water_depth, 1.0 - top / water_depth);
}

/// Share of a unit force on a stretch that falls between two lines, times the functions' means there.
SmallVector push_on(int degree, const Stretch& s, double low, double high) {
  const auto local = [&](double place) { return std::clamp(2.0 * (place - low) / (high - low) - 1.0, -1.0, 1.0); };
  if (s.high > s.low) {
    const double covered = std::min(s.high, high) - std::max(s.low, low);
    if (covered <= 0.0) return SmallVector::Zero(degree + 1);
    return covered / (s.high - s.low) * mean_values(degree, local(s.low), local(s.high));
  }
  if (s.low > high || (s.low <= low && low > 0.0)) return SmallVector::Zero(degree + 1);
  return mean_values(degree, local(s.low), local(s.low));
}

PanelPieces bend_pieces(const Panel& panel, const PressureLoad& pressure, const std::vector<PatchLoad>& patches,
                        double reference, const Numbering& x, const Numbering& y) {
  const double a = si(panel.width), b = si(panel.height), rigidity = si(flexural_rigidity(panel));
  const auto [in_x, in_y] = all_pressed(panel, patches);
  const std::size_t nx = x.degree.size(), ny = y.degree.size();

  PanelPieces pieces;
  pieces.degree = std::max(*std::max_element(x.degree.begin(), x.degree.end()),
                           *std::max_element(y.degree.begin(), y.degree.end()));
  for (const double line : x.line) pieces.lines_x.push_back(from_si<Length>(line));
  for (const double line : y.line) pieces.lines_y.push_back(from_si<Length>(line));

  // Unknowns count the deflection in p0 (a b)^2 / (16 D) of the whole panel, pieces in their own.
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd f = Eigen::VectorXd::Zero(x.size * y.size);
  const auto each_function = [&](std::size_t i, std::size_t j, const auto& visit) {
    for (Index q = 0; q <= y.degree[j]; ++q)
      for (Index p = 0; p <= x.degree[i]; ++p) {
        const Index in_x_at = x.number[i][static_cast<std::size_t>(p)],
                    in_y_at = y.number[j][static_cast<std::size_t>(q)];
        visit(p, q, in_x_at < 0 || in_y_at < 0 ? -1 : in_x_at * y.size + in_y_at, x.scale(i, p) * y.scale(j, q));
      }
  };
  for (std::size_t j = 0; j < ny; ++j)
    for (std::size_t i = 0; i < nx; ++i) {
      PanelPiece piece{piece_of(panel, x, y, i, j), {}, {}};
      const double area = x.length(i) * y.length(j);
      piece.load = si(pressure.at_bottom) / reference * load_integrals(pieces.degree, 1.0, 1.0, 1.0) *
                   pressure_on(pieces.degree, y.line[j], y.line[j + 1], si(pressure.water_depth)).transpose();
      for (std::size_t k = 0; k < patches.size(); ++k)
        piece.load += 4.0 * si(patches[k].force) / (reference * area) *
                      push_on(pieces.degree, in_x[k], x.line[i], x.line[i + 1]) *
                      push_on(pieces.degree, in_y[k], y.line[j], y.line[j + 1]).transpose();

      std::array<Springs, 4> spring;
      for (const Side side : all_sides) spring[number(side)] = springs(piece.panel, side, rigidity);
      const Eigen::MatrixXd stiffness =
          plate_stiffness(direction(plate_basis(x.degree[i])), direction(plate_basis(y.degree[j])),
                          y.length(j) / x.length(i), panel.material.poisson_ratio, spring);
      const double share = area / (a * b);
      Index row = 0;
      each_function(i, j, [&](Index p, Index q, Index r, double row_scale) {
        if (r >= 0) {
          f[r] += share * row_scale * piece.load(p, q);
          Index column = 0;
          each_function(i, j, [&](Index, Index, Index c, double column_scale) {
            if (c >= 0 && c <= r)
              entries.emplace_back(
                  r, c, row_scale * column_scale / share * stiffness(std::max(row, column), std::min(row, column)));
            ++column;
          });
        }
        ++row;
      });
      pieces.all.push_back(std::move(piece));
    }
  Eigen::SparseMatrix<double> k(f.size(), f.size());
  k.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SimplicialLLT<Eigen::SparseMatrix<double>> factors(k);
  Eigen::VectorXd c = factors.solve(f);
  c += factors.solve(f - k.selfadjointView<Eigen::Lower>() * c);  // slender pieces cost digits
  if (factors.info() != Eigen::Success || !c.allFinite()) throw NotConverged("plate stiffness factorisation", 0.0, 0);

  for (std::size_t j = 0; j < ny; ++j)
    for (std::size_t i = 0; i < nx; ++i) {
      PanelPiece& piece = pieces.all[j * nx + i];
      const double share = x.length(i) * y.length(j) / (a * b);
      piece.shape = Small::Zero(pieces.degree + 1, pieces.degree + 1);
      each_function(i, j, [&](Index p, Index q, Index at, double scale) {
        if (at >= 0) piece.shape(p, q) = scale * c[at] / (share * share);
      });
    }
  return pieces;
}

}  // namespace

bool needs_pieces(const Panel& panel, const std::vector<PatchLoad>& patches) {
  return std::any_of(patches.begin(), patches.end(), [&panel](const PatchLoad& patch) {
    return patch.width < panel.width || patch.height < panel.height;
  });
}

PanelPieces bend_in_pieces(const Panel& panel, const PressureLoad& pressure, const std::vector<PatchLoad>& patches,
                           double reference) {
  const auto [in_x, in_y] = all_pressed(panel, patches);
  const double least = 0.1 * narrowest_contact(panel), rigidity = si(flexural_rigidity(panel));
  const std::vector<double> along_x = lines(si(panel.width), in_x, least);
  const std::vector<double> along_y = lines(si(panel.height), in_y, least);
  return bend_pieces(
      panel, pressure, patches, reference,
      {along_x, degrees(along_x), springs(panel, Side::left, rigidity), springs(panel, Side::right, rigidity)},
      {along_y, degrees(along_y), springs(panel, Side::bottom, rigidity), springs(panel, Side::top, rigidity)});
}

PanelPieces bend_in_one_piece(const Panel& panel, const std::vector<PatchLoad>& patches, double reference, int degree_x,
                              int degree_y) {
  const double rigidity = si(flexural_rigidity(panel));
  return bend_pieces(
      panel, uniform(Pressure()), patches, reference,
      {{0.0, si(panel.width)}, {degree_x}, springs(panel, Side::left, rigidity), springs(panel, Side::right, rigidity)},
      {{0.0, si(panel.height)},
       {degree_y},
       springs(panel, Side::bottom, rigidity),
       springs(panel, Side::top, rigidity)});
}

void keep_shape(BentPanel& bent, const PanelPieces& pieces) {
  bent.lines_x = pieces.lines_x;
  bent.lines_y = pieces.lines_y;
  bent.degree = pieces.degree;
  for (const PanelPiece& piece : pieces.all)
    bent.shape.insert(bent.shape.end(), piece.shape.data(), piece.shape.data() + piece.shape.size());
}

}  // namespace theca::structure::detail
