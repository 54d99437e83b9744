#include "folded_plate.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <memory>
#include <numbers>
#include <utility>

#include "peak.hpp"
#include "plate_basis.hpp"
#include "theca/error.hpp"

namespace theca::structure::detail {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

enum class Parity { none, even, odd };
enum Field : std::size_t { u = 0, v = 1, w = 2 };

/// Rules of every size that is used here, made once.
const GaussRule& rule_of(int points) {
  static const auto rules = [] {
    std::array<GaussRule, max_plate_degree + 3> r;
    for (int n = 1; n < static_cast<int>(r.size()); ++n) r[static_cast<std::size_t>(n)] = gauss_rule(n);
    return r;
  }();
  return rules[static_cast<std::size_t>(points)];
}

/// Integrals of f_i' f_j over -1..1, which the plate basis does not keep.
const MatrixXd& slope_value(int degree) {
  static const auto tables = [] {
    std::array<MatrixXd, max_plate_degree + 1> t;
    for (int d = min_plate_degree; d <= max_plate_degree; ++d) {
      const Index n = d + 1;
      MatrixXd m = MatrixXd::Zero(n, n);
      const GaussRule& rule = rule_of(d + 1);
      VectorXd f(n), f1(n), f2(n);
      for (Index q = 0; q < rule.point.size(); ++q) {
        evaluate(d, rule.point[q], f.data(), f1.data(), f2.data());
        m += rule.weight[q] * f1 * f.transpose();
      }
      t[static_cast<std::size_t>(d)] = m;
    }
    return t;
  }();
  return tables[static_cast<std::size_t>(degree)];
}

/// The functions of one direction that have the parity, as combinations of those of the basis.
MatrixXd make_columns(int degree, Parity parity) {
  const Index size = degree + 1;
  if (parity == Parity::none) return MatrixXd::Identity(size, size);
  const double sign = parity == Parity::even ? 1.0 : -1.0;
  MatrixXd c = MatrixXd::Zero(size, size);
  c(value_low, 0) = 1.0;
  c(value_high, 0) = sign;
  c(slope_low, 1) = 1.0;
  c(slope_high, 1) = -sign;
  Index n = 2;
  for (Index i = parity == Parity::even ? first_bubble : first_bubble + 1; i < size; i += 2) c(i, n++) = 1.0;
  return c.leftCols(n);
}

/// The functions of a direction with their integrals; made once for every degree and parity.
struct Functions {
  int degree;
  MatrixXd columns;
  MatrixXd value, slope, curvature, curvature_value;
};

const Functions& functions(int degree, Parity parity) {
  static const auto tables = [] {
    std::array<std::array<Functions, 3>, max_plate_degree + 1> t;
    for (int d = min_plate_degree; d <= max_plate_degree; ++d) {
      const PlateBasis& basis = plate_basis(d);
      for (const Parity p : {Parity::none, Parity::even, Parity::odd}) {
        const MatrixXd c = make_columns(d, p);
        t[static_cast<std::size_t>(d)][static_cast<std::size_t>(p)] = {d,
                                                                       c,
                                                                       c.transpose() * basis.value * c,
                                                                       c.transpose() * basis.slope * c,
                                                                       c.transpose() * basis.curvature * c,
                                                                       c.transpose() * basis.curvature_value * c};
      }
    }
    return t;
  }();
  return tables[static_cast<std::size_t>(degree)][static_cast<std::size_t>(parity)];
}

int axis_of(const FoldedPlate& p, Field field) { return field == u ? p.along_x : field == v ? p.along_y : p.normal; }

/// A displacement along the axis normal to the mirror is odd, the others are even.
Parity parity(bool mirrored, bool along_mirror_normal) {
  if (!mirrored) return Parity::none;
  return along_mirror_normal ? Parity::odd : Parity::even;
}

struct Discrete {
  std::array<const Functions*, 3> in_x, in_y;
  std::array<int, 3> offset{};  ///< of the fields among the unknowns
  int end = 0;
  Index nx(Field f) const { return in_x[f]->columns.cols(); }
  Index ny(Field f) const { return in_y[f]->columns.cols(); }
  int unknown(Field f, Index i, Index j) const { return offset[f] + static_cast<int>(i + nx(f) * j); }
};

Discrete discretise(const FoldedPlate& p, int first) {
  Discrete d;
  for (const Field f : {u, v, w}) {
    const int axis = axis_of(p, f);
    d.in_x[f] = &functions(p.degree_x, parity(p.mirrored_x, axis == p.along_x));
    d.in_y[f] = &functions(p.degree_y, parity(p.mirrored_y, axis == p.along_y));
    d.offset[f] = first;
    if (f != w || !p.flat) first += static_cast<int>(d.nx(f) * d.ny(f));
  }
  d.end = first;
  return d;
}

// ---- block elimination ---------------------------------------------------------------------------------------------

/// A dense symmetric piece of the system on some of the unknowns. Once its first `pivots` unknowns are eliminated, k
/// holds L, below it the coupling times L^-T, and in its lower right corner what the rest of the structure sees.
struct Front {
  std::vector<int> unknown;
  double* entries = nullptr;  ///< of k, in the arena of the solution
  VectorXd f;
  Index pivots = 0;

  Eigen::Map<MatrixXd> k() const {
    const auto n = static_cast<Index>(unknown.size());
    return {entries, n, n};
  }
};

/// Memory for all fronts of a solution in few large blocks. Many blocks of their size would go back to the system after
/// every solution and be fetched again page by page, which costs more than all arithmetic here.
class Arena {
 public:
  double* take(std::size_t count) {
    if (count > left_) {
      left_ = std::max(count, block);
      blocks_.push_back(std::make_unique_for_overwrite<double[]>(left_));
      next_ = blocks_.back().get();
    }
    double* taken = next_;
    next_ += count;
    left_ -= count;
    return taken;
  }

 private:
  static constexpr std::size_t block = std::size_t{1} << 19U;  // 4 MiB: a braced tank in a quarter
  std::vector<std::unique_ptr<double[]>> blocks_;
  double* next_ = nullptr;
  std::size_t left_ = 0;
};

/// Eliminates the first n unknowns.
void eliminate(Front& front, Index n) {
  auto k = front.k();
  const Index m = k.rows() - n;
  Eigen::Ref<MatrixXd> pivots = k.topLeftCorner(n, n);
  const Eigen::LLT<Eigen::Ref<MatrixXd>> factors(pivots);
  if (factors.info() != Eigen::Success) throw NotConverged("factorisation of the folded plates", 0.0, 0);
  auto coupling = k.bottomLeftCorner(m, n);
  factors.matrixU().solveInPlace<Eigen::OnTheRight>(coupling);
  auto f = front.f.head(n);
  factors.matrixL().solveInPlace(f);
  k.bottomRightCorner(m, m).selfadjointView<Eigen::Lower>().rankUpdate(coupling, -1.0);
  front.f.tail(m).noalias() -= coupling * f;
  front.pivots = n;
}

/// Adds what is left of fronts together; unknowns from `pivot_begin` to `pivot_end` come first. Returns how many those
/// are. `position` has an entry of -1 for every unknown.
Index merge(const std::vector<const Front*>& parts, int pivot_begin, int pivot_end, std::vector<int>& position,
            Arena& arena, Front& sum) {
  for (const Front* part : parts)
    for (std::size_t i = static_cast<std::size_t>(part->pivots); i < part->unknown.size(); ++i) {
      int& seen = position[static_cast<std::size_t>(part->unknown[i])];
      if (seen < 0) sum.unknown.push_back(part->unknown[i]);
      seen = 0;
    }
  const auto middle = std::stable_partition(sum.unknown.begin(), sum.unknown.end(),
                                            [&](int q) { return q >= pivot_begin && q < pivot_end; });
  const Index n = middle - sum.unknown.begin();
  for (std::size_t i = 0; i < sum.unknown.size(); ++i)
    position[static_cast<std::size_t>(sum.unknown[i])] = static_cast<int>(i);
  const auto size = static_cast<Index>(sum.unknown.size());
  sum.entries = arena.take(sum.unknown.size() * sum.unknown.size());
  auto k = sum.k();
  k.setZero();
  sum.f = VectorXd::Zero(size);
  std::vector<Index> map;
  for (const Front* part : parts) {
    map.clear();
    for (std::size_t i = static_cast<std::size_t>(part->pivots); i < part->unknown.size(); ++i)
      map.push_back(position[static_cast<std::size_t>(part->unknown[i])]);
    const auto of_part = part->k();
    for (std::size_t j = 0; j < map.size(); ++j) {
      const Index column = part->pivots + static_cast<Index>(j);
      for (std::size_t i = j; i < map.size(); ++i)
        k(std::max(map[i], map[j]), std::min(map[i], map[j])) += of_part(part->pivots + static_cast<Index>(i), column);
      sum.f[map[j]] += part->f[column];
    }
  }
  for (const int q : sum.unknown) position[static_cast<std::size_t>(q)] = -1;
  return n;
}

// ---- plates --------------------------------------------------------------------------------------------------------

MatrixXd kronecker(const MatrixXd& x, const MatrixXd& y) {
  MatrixXd k(x.rows() * y.rows(), x.cols() * y.cols());
  for (Index l = 0; l < y.cols(); ++l)
    for (Index j = 0; j < y.rows(); ++j) k.block(j * x.rows(), l * x.cols(), x.rows(), x.cols()) = y(j, l) * x;
  return k;
}

MatrixXd mixed(const Functions& a, const Functions& b, const MatrixXd& table) {
  return a.columns.transpose() * table * b.columns;
}

/// Length over which the twisting moment grows beside a soft edge.
double twist_layer(const FoldedPlate& p) { return p.thickness / std::sqrt(10.0); }

/// Integrals of f_i' f_j' times the share of the twisting stiffness along one direction (see `twist_share`).
MatrixXd twisting_slope(const Functions& f, bool soft_low, bool soft_high, double layer_over_half) {
  // Points and weights of Gauss and Laguerre for e^-s from 0 on, Abramowitz & Stegun 1964, table 25.9.
  constexpr std::array<double, 6> point = {0.222846604179, 1.188932101673, 2.992736326059,
                                           5.775143569105, 9.837467418383, 15.982873980602};
  constexpr std::array<double, 6> weight = {0.458964673950,  0.417000830772,    0.113373382074,
                                            0.0103991974531, 0.000261017202815, 0.000000898547906430};
  MatrixXd m = f.slope;
  VectorXd value(f.degree + 1), slope(f.degree + 1), curvature(f.degree + 1);
  for (std::size_t q = 0; q < point.size(); ++q) {
    const double off = point[q] * layer_over_half;
    if (off > 2.0) break;
    for (const auto& [soft, at] : {std::pair{soft_low, -1.0 + off}, {soft_high, 1.0 - off}}) {
      if (!soft) continue;
      evaluate(f.degree, at, value.data(), slope.data(), curvature.data());
      const VectorXd reduced = f.columns.transpose() * slope;
      m -= weight[q] * layer_over_half * reduced * reduced.transpose();
    }
  }
  return m;
}

MatrixXd bending_stiffness(const FoldedPlate& p, const Discrete& d) {
  const double nu = p.poisson_ratio;
  const double rigidity = p.youngs_modulus * std::pow(p.thickness, 3) / (12.0 * (1.0 - nu * nu));
  const double gx = 4.0 / (p.length_x * p.length_x), gy = 4.0 / (p.length_y * p.length_y);
  const double area = 0.25 * p.length_x * p.length_y;
  const Functions& x = *d.in_x[w];
  const Functions& y = *d.in_y[w];
  const Index nx = d.nx(w), ny = d.ny(w);
  const MatrixXd along_x = rigidity * area * gx * gx * x.curvature + area * p.foundation * x.value;
  const double yy = rigidity * area * gy * gy, xy = 2.0 * (1.0 - nu) * rigidity * area * gx * gy,
               cross = nu * rigidity * area * gx * gy;
  const auto& [soft_bottom, soft_left, soft_right, soft_top] = p.soft_edge;
  const MatrixXd twist_x = twisting_slope(x, soft_left, soft_right, 2.0 * twist_layer(p) / p.length_x);
  const MatrixXd twist_y = twisting_slope(y, soft_bottom, soft_top, 2.0 * twist_layer(p) / p.length_y);
  MatrixXd k(nx * ny, nx * ny);
  for (Index l = 0; l < ny; ++l)
    for (Index j = l; j < ny; ++j)
      k.block(j * nx, l * nx, nx, nx) = y.value(j, l) * along_x + (yy * y.curvature(j, l)) * x.value +
                                        (xy * twist_y(j, l)) * twist_x +
                                        (cross * y.curvature_value(l, j)) * x.curvature_value +
                                        (cross * y.curvature_value(j, l)) * x.curvature_value.transpose();
  return p.images * k;
}

/// On u, then v.
MatrixXd membrane_stiffness(const FoldedPlate& p, const Discrete& d) {
  const double nu = p.poisson_ratio;
  const double c = p.youngs_modulus * p.thickness / (1.0 - nu * nu), shear = 0.5 * (1.0 - nu);
  const double gx = 2.0 / p.length_x, gy = 2.0 / p.length_y;
  const double area = 0.25 * p.length_x * p.length_y;
  const Index nu_u = d.nx(u) * d.ny(u), nu_v = d.nx(v) * d.ny(v);
  MatrixXd k(nu_u + nu_v, nu_u + nu_v);
  const double rest = area * p.tangential_foundation;
  k.topLeftCorner(nu_u, nu_u) =
      kronecker(c * area * gx * gx * d.in_x[u]->slope + rest * d.in_x[u]->value, d.in_y[u]->value) +
      kronecker(c * area * shear * gy * gy * d.in_x[u]->value, d.in_y[u]->slope);
  k.bottomRightCorner(nu_v, nu_v) =
      kronecker(c * area * shear * gx * gx * d.in_x[v]->slope + rest * d.in_x[v]->value, d.in_y[v]->value) +
      kronecker(c * area * gy * gy * d.in_x[v]->value, d.in_y[v]->slope);
  // v rows, u columns: nu u_x v_y + shear u_y v_x
  const MatrixXd& tx = slope_value(p.degree_x);
  const MatrixXd& ty = slope_value(p.degree_y);
  const double cross = c * area * gx * gy;
  k.bottomLeftCorner(nu_v, nu_u) =
      kronecker(cross * nu * mixed(*d.in_x[v], *d.in_x[u], tx.transpose()), mixed(*d.in_y[v], *d.in_y[u], ty)) +
      kronecker(cross * shear * mixed(*d.in_x[v], *d.in_x[u], tx), mixed(*d.in_y[v], *d.in_y[u], ty.transpose()));
  return p.images * k;
}

VectorXd values_at(int degree, double xi) {
  VectorXd f(degree + 1), f1(degree + 1), f2(degree + 1);
  evaluate(degree, xi, f.data(), f1.data(), f2.data());
  return f;
}

/// Integrals of all functions of a degree over a part of -1..1.
VectorXd part_integrals(int degree, double from, double to) {
  const GaussRule& rule = rule_of(degree / 2 + 1);
  VectorXd sum = VectorXd::Zero(degree + 1);
  for (Index q = 0; q < rule.point.size(); ++q)
    sum += 0.5 * (to - from) * rule.weight[q] * values_at(degree, from + 0.5 * (to - from) * (rule.point[q] + 1.0));
  return sum;
}

/// Work of the loads of a plate on the full (not mirrored) functions of its three fields, one image.
std::array<MatrixXd, 3> load_work(const FoldedPlate& p) {
  const double area = 0.25 * p.length_x * p.length_y;
  std::array<MatrixXd, 3> work;
  const VectorXd all_x = part_integrals(p.degree_x, -1.0, 1.0), all_y = part_integrals(p.degree_y, -1.0, 1.0);
  for (const Field f : {u, v, w}) {
    const double body = p.body_force[static_cast<std::size_t>(axis_of(p, f))];
    work[f] = body * area * all_x * all_y.transpose();
    for (const FoldedPlate::Patch& patch : p.patches) {
      const auto fx = part_integrals(p.degree_x, 2.0 * patch.x0 / p.length_x - 1.0, 2.0 * patch.x1 / p.length_x - 1.0);
      const auto fy = part_integrals(p.degree_y, 2.0 * patch.y0 / p.length_y - 1.0, 2.0 * patch.y1 / p.length_y - 1.0);
      const double per_area = patch.force[static_cast<std::size_t>(axis_of(p, f))] * p.length_x * p.length_y /
                              (4.0 * (patch.x1 - patch.x0) * (patch.y1 - patch.y0));
      work[f] += per_area * fx * fy.transpose();
    }
  }
  if (p.pressure) {
    const GaussRule& in_x = rule_of(p.degree_x / 2 + 2);
    const GaussRule& in_y = rule_of(p.degree_y / 2 + 2);
    for (Index i = 0; i < in_x.point.size(); ++i) {
      const double x = 0.5 * (in_x.point[i] + 1.0) * p.length_x;
      const double wet = std::clamp(p.wet_height(x) / p.length_y, 0.0, 1.0);
      VectorXd column = VectorXd::Zero(p.degree_y + 1);
      for (Index j = 0; j < in_y.point.size(); ++j) {
        const double share = 0.5 * wet * (in_y.point[j] + 1.0);
        column += in_y.weight[j] * wet * p.pressure(x, share * p.length_y) * values_at(p.degree_y, 2.0 * share - 1.0);
      }
      work[w] += (in_x.weight[i] * area) * values_at(p.degree_x, in_x.point[i]) * column.transpose();
    }
  }
  return work;
}

// ---- joints --------------------------------------------------------------------------------------------------------

/// One term of a displacement at an edge: a field, differentiated along the edge or across it or not.
struct Term {
  Field field;
  int along_order, across_order;
  double factor;
};

bool horizontal(Side s) { return s == Side::bottom || s == Side::top; }
bool high(Side s) { return s == Side::right || s == Side::top; }

/// Displacement of the bead along global axis g.
std::vector<Term> displacement_terms(const FoldedPlate& p, const JointSide& side, int g) {
  const int along = horizontal(side.edge) ? p.along_x : p.along_y;
  if (g == p.normal) return p.flat ? std::vector<Term>{} : std::vector<Term>{{w, 0, 0, 1.0}};
  std::vector<Term> terms = {{g == p.along_x ? u : v, 0, 0, 1.0}};
  if (side.eccentricity != 0.0 && !p.flat)
    terms.push_back(g == along ? Term{w, 1, 0, -side.eccentricity} : Term{w, 0, 1, -side.eccentricity});
  return terms;
}

/// Rotation about the joint line, by the right-hand rule about the positive global axis.
std::vector<Term> rotation_terms(const FoldedPlate& p, const JointSide& side) {
  if (p.flat) return {};
  const int along = horizontal(side.edge) ? p.along_x : p.along_y;
  const int across = horizontal(side.edge) ? p.along_y : p.along_x;
  const bool cyclic = (across + 1) % 3 == p.normal && (p.normal + 1) % 3 == along;
  return {{w, 0, 1, cyclic ? 1.0 : -1.0}};
}

/// Values, or first derivatives by the physical coordinate, of the functions of one direction of a field at a point.
VectorXd along_values(const Functions& functions, double length, double xi, int order) {
  VectorXd f(functions.degree + 1), f1(functions.degree + 1), f2(functions.degree + 1);
  evaluate(functions.degree, xi, f.data(), f1.data(), f2.data());
  return order == 0 ? VectorXd(functions.columns.transpose() * f)
                    : VectorXd(2.0 / length * (functions.columns.transpose() * f1));
}

/// At an end only one of the functions has a value, and only one a slope: that makes the elimination cheap.
std::pair<Index, double> across_function(const Functions& functions, double length, bool at_high, int order) {
  const Index row = order == 0 ? (at_high ? value_high : value_low) : (at_high ? slope_high : slope_low);
  for (Index j = 0; j < functions.columns.cols(); ++j)
    if (functions.columns(row, j) != 0.0) return {j, functions.columns(row, j) * (order == 0 ? 1.0 : 2.0 / length)};
  return {0, 0.0};
}

/// Coefficients of a displacement of a joint side on the unknowns.
void add_terms(const FoldedPlate& p, const Discrete& d, const JointSide& side, const std::vector<Term>& terms,
               double place, double sign, std::map<int, double>& row) {
  const bool along_x = horizontal(side.edge);
  const double start = along_x ? p.start_x : p.start_y;
  const double length = along_x ? p.length_x : p.length_y;
  const double across_length = along_x ? p.length_y : p.length_x;
  const double xi = std::clamp(2.0 * (place - start) / length - 1.0, -1.0, 1.0);
  for (const Term& t : terms) {
    const Functions& along = along_x ? *d.in_x[t.field] : *d.in_y[t.field];
    const Functions& across = along_x ? *d.in_y[t.field] : *d.in_x[t.field];
    const VectorXd f = along_values(along, length, xi, t.along_order);
    const auto [j, g] = across_function(across, across_length, high(side.edge), t.across_order);
    if (g == 0.0) continue;
    for (Index i = 0; i < f.size(); ++i)
      row[along_x ? d.unknown(t.field, i, j) : d.unknown(t.field, j, i)] += sign * t.factor * g * f[i];
  }
}

constexpr int rotation_component = 3;

std::map<int, double> joint_row(const std::vector<FoldedPlate>& plates, const std::vector<Discrete>& d,
                                const FoldedJoint& joint, int component, double place) {
  std::map<int, double> row;
  const auto add = [&](const JointSide& side, double sign) {
    if (side.plate < 0) return;
    const auto n = static_cast<std::size_t>(side.plate);
    add_terms(plates[n], d[n], side,
              component == rotation_component ? rotation_terms(plates[n], side)
                                              : displacement_terms(plates[n], side, component),
              place, sign, row);
  };
  add(joint.a, 1.0);
  add(joint.b, -1.0);
  return row;
}

double stiffness_of(const FoldedJoint& joint, int component) {
  return component == rotation_component ? joint.rotation : joint.stiffness[static_cast<std::size_t>(component)];
}

int points_of(const std::vector<FoldedPlate>& plates, const FoldedJoint& joint) {
  int degree = 4;
  for (const JointSide& side : {joint.a, joint.b})
    if (side.plate >= 0) {
      const FoldedPlate& p = plates[static_cast<std::size_t>(side.plate)];
      degree = std::max(degree, horizontal(side.edge) ? p.degree_x : p.degree_y);
    }
  return degree + 1;
}

std::vector<Front> joint_fronts(const std::vector<FoldedPlate>& plates, const std::vector<Discrete>& d,
                                const FoldedJoint& joint, Arena& arena) {
  std::vector<Front> fronts;
  const GaussRule& rule = rule_of(points_of(plates, joint));
  for (int component = 0; component <= rotation_component; ++component) {
    const double stiffness = stiffness_of(joint, component);
    if (stiffness == 0.0) continue;
    Front front;
    MatrixXd rows;
    for (Index q = 0; q < rule.point.size(); ++q) {
      const double place = joint.from + 0.5 * (joint.to - joint.from) * (rule.point[q] + 1.0);
      const auto row = joint_row(plates, d, joint, component, place);
      if (row.empty()) break;
      if (q == 0) {
        for (const auto& [unknown, unused] : row) front.unknown.push_back(unknown);
        rows.resize(rule.point.size(), static_cast<Index>(row.size()));
      }
      const double weight = std::sqrt(stiffness * joint.images * 0.5 * (joint.to - joint.from) * rule.weight[q]);
      Index c = 0;
      for (const auto& [unused, coefficient] : row) rows(q, c++) = weight * coefficient;
    }
    if (front.unknown.empty()) continue;
    front.entries = arena.take(front.unknown.size() * front.unknown.size());
    front.k().noalias() = rows.transpose() * rows;
    front.f = VectorXd::Zero(rows.cols());
    fronts.push_back(std::move(front));
  }
  return fronts;
}

}  // namespace

void FoldedStructure::solve() {
  std::vector<Discrete> discrete;
  int count = 0;
  for (const FoldedPlate& p : plates) {
    discrete.push_back(discretise(p, count));
    count = discrete.back().end;
  }
  unknowns_ = static_cast<std::size_t>(count);

  Arena arena;
  std::deque<Front> fronts;            // kept for the back substitution
  std::vector<const Front*> open;      // those with unknowns left
  std::vector<const Front*> factored;  // in the order of elimination
  std::vector<bool> shared(unknowns_, false);
  for (const FoldedJoint& joint : joints)
    for (Front& front : joint_fronts(plates, discrete, joint, arena)) {
      for (const int q : front.unknown) shared[static_cast<std::size_t>(q)] = true;
      fronts.push_back(std::move(front));
      open.push_back(&fronts.back());
    }

  // What only one plate knows goes first, bending and stretching apart.
  std::vector<int> position(unknowns_, -1);
  load_total_.assign(plates.size(), {0.0, 0.0, 0.0});
  const auto keep = [&](Front&& front, Index pivots) {
    fronts.push_back(std::move(front));
    if (pivots > 0) {
      eliminate(fronts.back(), pivots);
      factored.push_back(&fronts.back());
    }
    if (fronts.back().f.size() > pivots) open.push_back(&fronts.back());
  };
  const auto condense = [&](int begin, int end, const MatrixXd& k, const VectorXd& f) {
    Front front;
    for (const bool of_shared : {false, true})
      for (int q = begin; q < end; ++q)
        if (shared[static_cast<std::size_t>(q)] == of_shared) front.unknown.push_back(q);
    const Index n = std::count(shared.begin() + begin, shared.begin() + end, false);
    const Index size = end - begin;
    front.entries = arena.take(front.unknown.size() * front.unknown.size());
    auto in_order = front.k();
    front.f.resize(size);
    for (Index j = 0; j < size; ++j) {
      const Index oj = front.unknown[static_cast<std::size_t>(j)] - begin;
      front.f[j] = f[oj];
      for (Index i = j; i < size; ++i) {
        const Index oi = front.unknown[static_cast<std::size_t>(i)] - begin;
        in_order(i, j) = k(std::max(oi, oj), std::min(oi, oj));
      }
    }
    keep(std::move(front), n);
  };
  for (std::size_t n = 0; n < plates.size(); ++n) {
    const FoldedPlate& p = plates[n];
    const Discrete& d = discrete[n];
    const auto work = load_work(p);
    const auto of_field = [&](Field f) {
      const MatrixXd part = p.images * (d.in_x[f]->columns.transpose() * work[f] * d.in_y[f]->columns);
      return VectorXd(Eigen::Map<const VectorXd>(part.data(), part.size()));
    };
    for (const Field f : {u, v, w}) {  // value_low + value_high is one everywhere
      const auto one = [](const MatrixXd& m, Index i, Index j) { return m(i, j); };
      load_total_[n][static_cast<std::size_t>(axis_of(p, f))] =
          one(work[f], value_low, value_low) + one(work[f], value_low, value_high) +
          one(work[f], value_high, value_low) + one(work[f], value_high, value_high);
    }
    VectorXd membrane(d.offset[w] - d.offset[u]);
    membrane << of_field(u), of_field(v);
    condense(d.offset[u], d.offset[w], membrane_stiffness(p, d), membrane);
    if (!p.flat) condense(d.offset[w], d.end, bending_stiffness(p, d), of_field(w));
  }

  for (std::size_t n = 0; n < plates.size(); ++n) {
    const int begin = discrete[n].offset[u], end = discrete[n].end;
    const auto touches = [&](const Front& front) {
      return std::any_of(front.unknown.begin() + front.pivots, front.unknown.end(),
                         [&](int q) { return q >= begin && q < end; });
    };
    const auto middle = std::stable_partition(open.begin(), open.end(), [&](const Front* f) { return !touches(*f); });
    const std::vector<const Front*> parts(middle, open.end());
    open.erase(middle, open.end());
    if (parts.empty()) continue;
    Front sum;
    const Index pivots = merge(parts, begin, end, position, arena, sum);
    keep(std::move(sum), pivots);
  }

  VectorXd q = VectorXd::Zero(count);
  for (auto it = factored.rbegin(); it != factored.rend(); ++it) {
    const Front& front = **it;
    const auto k = front.k();
    const Index n = front.pivots, m = k.rows() - n;
    VectorXd known(m);
    for (Index i = 0; i < m; ++i) known[i] = q[front.unknown[static_cast<std::size_t>(n + i)]];
    VectorXd pivot = front.f.head(n) - k.bottomLeftCorner(m, n).transpose() * known;
    k.topLeftCorner(n, n).triangularView<Eigen::Lower>().transpose().solveInPlace(pivot);
    for (Index i = 0; i < n; ++i) q[front.unknown[static_cast<std::size_t>(i)]] = pivot[i];
  }
  if (!q.allFinite()) throw NotConverged("folded plates", 0.0, 0);
  shape_.clear();
  for (std::size_t n = 0; n < plates.size(); ++n) {
    const Discrete& d = discrete[n];
    std::array<MatrixXd, 3> shape;
    for (const Field f : {u, v, w}) {
      if (f == w && plates[n].flat)
        shape[f] = MatrixXd::Zero(plates[n].degree_x + 1, plates[n].degree_y + 1);
      else
        shape[f] = d.in_x[f]->columns * Eigen::Map<const MatrixXd>(q.data() + d.offset[f], d.nx(f), d.ny(f)) *
                   d.in_y[f]->columns.transpose();
    }
    shape_.push_back(std::move(shape));
  }
}

namespace {

/// Forces, moments and the larger tension of the two faces from strains (x, y, shear) and curvatures (xx, yy, xy).
FoldedState state_of(const FoldedPlate& p, const std::array<double, 3>& strain,
                     const std::array<double, 3>& curvature) {
  const double nu = p.poisson_ratio, t = p.thickness;
  const double c = p.youngs_modulus * t / (1.0 - nu * nu), rigidity = c * t * t / 12.0;
  FoldedState s;
  s.membrane_x = c * (strain[0] + nu * strain[1]);
  s.membrane_y = c * (strain[1] + nu * strain[0]);
  s.membrane_xy = 0.5 * c * (1.0 - nu) * strain[2];
  s.moment_x = -rigidity * (curvature[0] + nu * curvature[1]);
  s.moment_y = -rigidity * (curvature[1] + nu * curvature[0]);
  s.moment_xy = -rigidity * (1.0 - nu) * curvature[2];
  const auto principal = [&](double sign) {
    const double m = sign * 6.0 / (t * t);
    const double sx = s.membrane_x / t + m * s.moment_x, sy = s.membrane_y / t + m * s.moment_y;
    const double sxy = s.membrane_xy / t + m * s.moment_xy;
    return 0.5 * (sx + sy) + std::sqrt(0.25 * (sx - sy) * (sx - sy) + sxy * sxy);
  };
  const double normal_side = principal(1.0), other_side = principal(-1.0);
  s.on_normal_side = normal_side >= other_side;
  s.tension = std::max({normal_side, other_side, 0.0});
  return s;
}

}  // namespace

double twist_share(const FoldedPlate& p, double x, double y) {
  const auto& [bottom, left, right, top] = p.soft_edge;
  const double layer = twist_layer(p);
  double share = 1.0;
  for (const auto& [soft, off] : {std::pair{left, x}, {right, p.length_x - x}, {bottom, y}, {top, p.length_y - y}})
    if (soft) share *= -std::expm1(-off / layer);
  return share;
}

FoldedState FoldedStructure::at(std::size_t plate, double x, double y) const {
  const FoldedPlate& p = plates[plate];
  constexpr std::size_t most = max_plate_degree + 1;
  std::array<double, most> x0, x1, x2, y0, y1, y2;
  evaluate(p.degree_x, 2.0 * x / p.length_x - 1.0, x0.data(), x1.data(), x2.data());
  evaluate(p.degree_y, 2.0 * y / p.length_y - 1.0, y0.data(), y1.data(), y2.data());
  const Index nx = p.degree_x + 1, ny = p.degree_y + 1;
  const double gx = 2.0 / p.length_x, gy = 2.0 / p.length_y;
  const auto& shape = shape_[plate];
  double ux = 0, uy = 0, vx = 0, vy = 0, w_xx = 0, w_yy = 0, w_xy = 0, u0 = 0, v0 = 0, w0 = 0;
  for (Index j = 0; j < ny; ++j) {
    const auto jj = static_cast<std::size_t>(j);
    double a[3] = {0, 0, 0}, b[3] = {0, 0, 0}, c0 = 0;  // values and slopes of u, v, w along x; curvature of w
    for (Index i = 0; i < nx; ++i) {
      const auto ii = static_cast<std::size_t>(i);
      for (std::size_t f = 0; f < 3; ++f) {
        const double q = shape[f](i, j);
        a[f] += q * x0[ii];
        b[f] += q * x1[ii];
      }
      c0 += shape[w](i, j) * x2[ii];
    }
    u0 += a[0] * y0[jj];
    v0 += a[1] * y0[jj];
    w0 += a[2] * y0[jj];
    ux += b[0] * y0[jj];
    uy += a[0] * y1[jj];
    vx += b[1] * y0[jj];
    vy += a[1] * y1[jj];
    w_xx += c0 * y0[jj];
    w_yy += a[2] * y2[jj];
    w_xy += b[2] * y1[jj];
  }
  std::array<double, 3> curvature = {gx * gx * w_xx, gy * gy * w_yy, gx * gy * w_xy};
  if (p.sharp_curvature) {
    const std::array<double, 3> sharp = p.sharp_curvature(x, y);
    for (std::size_t i = 0; i < 3; ++i) curvature[i] += sharp[i];
  }
  curvature[2] *= twist_share(p, x, y);
  FoldedState s = state_of(p, {gx * ux, gy * vy, gy * uy + gx * vx}, curvature);
  s.displacement[static_cast<std::size_t>(p.along_x)] = u0;
  s.displacement[static_cast<std::size_t>(p.along_y)] = v0;
  s.displacement[static_cast<std::size_t>(p.normal)] = w0;
  return s;
}

JointProfile FoldedStructure::profile(std::size_t joint) const {
  const FoldedJoint& j = joints[joint];
  JointProfile profile;
  profile.from_ = j.from;
  profile.to_ = j.to;
  profile.points_ = points_of(plates, j);
  for (int c = 0; c <= rotation_component; ++c) profile.stiffness_[static_cast<std::size_t>(c)] = stiffness_of(j, c);
  for (const auto& [side, sign] : {std::pair{&j.a, 1.0}, {&j.b, -1.0}}) {
    if (side->plate < 0) continue;
    const FoldedPlate& p = plates[static_cast<std::size_t>(side->plate)];
    const auto& shape = shape_[static_cast<std::size_t>(side->plate)];
    const bool along_x = horizontal(side->edge);
    const int across_degree = along_x ? p.degree_y : p.degree_x;
    JointProfile::Side s;
    s.degree = along_x ? p.degree_x : p.degree_y;
    s.start = along_x ? p.start_x : p.start_y;
    s.length = along_x ? p.length_x : p.length_y;
    s.sign = sign;
    std::array<VectorXd, 3> end;
    end.fill(VectorXd(across_degree + 1));
    evaluate(across_degree, high(side->edge) ? 1.0 : -1.0, end[0].data(), end[1].data(), end[2].data());
    end[1] *= 2.0 / (along_x ? p.length_y : p.length_x);
    for (int c = 0; c <= rotation_component; ++c) {
      VectorXd value = VectorXd::Zero(s.degree + 1), slope = VectorXd::Zero(s.degree + 1);
      for (const Term& t : c == rotation_component ? rotation_terms(p, *side) : displacement_terms(p, *side, c)) {
        const VectorXd& across = end[static_cast<std::size_t>(t.across_order)];
        const VectorXd trace =
            along_x ? VectorXd(shape[t.field] * across) : VectorXd(shape[t.field].transpose() * across);
        (t.along_order == 0 ? value : slope) += t.factor * (t.along_order == 0 ? 1.0 : 2.0 / s.length) * trace;
      }
      s.value[static_cast<std::size_t>(c)] = value;
      s.slope[static_cast<std::size_t>(c)] = slope;
    }
    profile.sides_.push_back(std::move(s));
  }
  return profile;
}

JointForce JointProfile::at(double place) const {
  std::array<double, 4> force{};
  std::array<double, max_plate_degree + 1> f, f1, f2;
  for (const Side& s : sides_) {
    evaluate(s.degree, std::clamp(2.0 * (place - s.start) / s.length - 1.0, -1.0, 1.0), f.data(), f1.data(), f2.data());
    const Eigen::Map<const VectorXd> values(f.data(), s.degree + 1), slopes(f1.data(), s.degree + 1);
    for (std::size_t c = 0; c < 4; ++c)
      if (stiffness_[c] > 0.0) force[c] += stiffness_[c] * s.sign * (values.dot(s.value[c]) + slopes.dot(s.slope[c]));
  }
  return {{force[0], force[1], force[2]}, force[3]};
}

JointForce JointProfile::total() const {
  const GaussRule& rule = rule_of(points_);
  JointForce total;
  for (Index q = 0; q < rule.point.size(); ++q) {
    const double weight = 0.5 * (to_ - from_) * rule.weight[q];
    const JointForce f = at(from_ + 0.5 * (to_ - from_) * (rule.point[q] + 1.0));
    for (std::size_t g = 0; g < 3; ++g) total.force[g] += weight * f.force[g];
    total.moment += weight * f.moment;
  }
  return total;
}

namespace {

/// Rows: points; values and two derivatives by the physical coordinate.
struct GridTable {
  VectorXd point;
  std::array<MatrixXd, 3> f;
  GridTable(int degree, double length, double from, double to) : point(degree + 3) {
    const Index n = point.size();
    for (MatrixXd& m : f) m.resize(degree + 1, n);
    for (Index i = 0; i < n; ++i) {
      point[i] = from + 0.5 * (to - from) * (1.0 - std::cos(std::numbers::pi * double(i) / double(n - 1)));
      evaluate(degree, 2.0 * point[i] / length - 1.0, f[0].col(i).data(), f[1].col(i).data(), f[2].col(i).data());
    }
    f[1] *= 2.0 / length;
    f[2] *= 4.0 / (length * length);
  }
};

template <class F>
Peak largest(const F& f, const MatrixXd& on_grid, const VectorXd& x, const VectorXd& y) {
  const Rectangle within{x[0], x[x.size() - 1], y[0], y[y.size() - 1]};
  return highest_from_grid(on_grid, x, y, [&](const Peak& from, double step_x, double step_y) {
    return climb(f, from, step_x, step_y, 6, within);
  });
}

}  // namespace

Peak FoldedStructure::largest_tension(std::size_t plate, double x0, double x1, double y0, double y1) const {
  const FoldedPlate& p = plates[plate];
  if (p.mirrored_x) x1 = 0.5 * p.length_x;
  if (p.mirrored_y) y1 = 0.5 * p.length_y;
  const GridTable x(p.degree_x, p.length_x, x0, x1), y(p.degree_y, p.length_y, y0, y1);
  const auto in = [&](Field f, std::size_t order_x, std::size_t order_y) {
    return MatrixXd(x.f[order_x].transpose() * (shape_[plate][f] * y.f[order_y]));
  };
  const MatrixXd u_x = in(u, 1, 0), u_y = in(u, 0, 1), v_x = in(v, 1, 0), v_y = in(v, 0, 1);
  const MatrixXd w_xx = in(w, 2, 0), w_yy = in(w, 0, 2), w_xy = in(w, 1, 1);
  MatrixXd tension(u_x.rows(), u_x.cols());
  for (Index j = 0; j < tension.cols(); ++j)
    for (Index i = 0; i < tension.rows(); ++i)
      tension(i, j) = state_of(p, {u_x(i, j), v_y(i, j), u_y(i, j) + v_x(i, j)},
                               {w_xx(i, j), w_yy(i, j), w_xy(i, j) * twist_share(p, x.point[i], y.point[j])})
                          .tension;
  const auto tension_at = [&](double at_x, double at_y) { return at(plate, at_x, at_y).tension; };
  Peak peak = largest(tension_at, tension, x.point, y.point);
  if (!p.sharp_curvature) return peak;
  // The grid has seen the polynomials only; they peak near a patch, too, and there the climb begins.
  peak.value = tension_at(peak.x, peak.y);
  for (const FoldedPlate::Patch& patch : p.patches) {
    const double step_x = 0.25 * (patch.x1 - patch.x0), step_y = 0.25 * (patch.y1 - patch.y0);
    for (int i = 0; i <= 4; ++i) {
      const double at_x = std::clamp(patch.x0 + i * step_x, x0, x1), at_y = std::clamp(patch.y1, y0, y1);
      const Peak under =
          climb(tension_at, Peak{tension_at(at_x, at_y), at_x, at_y}, step_x, step_y, 6, Rectangle{x0, x1, y0, y1});
      if (under.value > peak.value) peak = under;
    }
  }
  return peak;
}

Peak FoldedStructure::largest_deflection(std::size_t plate) const {
  const FoldedPlate& p = plates[plate];
  const auto n = static_cast<std::size_t>(p.normal);
  const GridTable x(p.degree_x, p.length_x, 0.0, p.mirrored_x ? 0.5 * p.length_x : p.length_x);
  const GridTable y(p.degree_y, p.length_y, 0.0, p.mirrored_y ? 0.5 * p.length_y : p.length_y);
  const MatrixXd deflection = (x.f[0].transpose() * (shape_[plate][w] * y.f[0])).cwiseAbs();
  return largest([&](double at_x, double at_y) { return std::abs(at(plate, at_x, at_y).displacement[n]); }, deflection,
                 x.point, y.point);
}

}  // namespace theca::structure::detail
