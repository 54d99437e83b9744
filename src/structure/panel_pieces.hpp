// A panel cut along lines that crowd around its patch loads, one polynomial on each rectangle; internal to
// src/structure.
#pragma once

#include <vector>

#include "plate_panel.hpp"

namespace theca::structure::detail {

/// A rectangle of a panel: a panel itself, with the whole panel's edges where it lies on them and free ones inside.
struct PanelPiece {
  Panel panel;
  Small load;   ///< work of the load on all products of functions, over the reference pressure
  Small shape;  ///< coefficients of the dimensionless deflection
};

/// From the lower left corner along x first.
struct PanelPieces {
  std::vector<Length> lines_x, lines_y;
  std::vector<PanelPiece> all;
  int degree = 0;  ///< of all polynomials; lower ones are filled up with zeros

  std::size_t along_x() const { return lines_x.size() - 1; }
  std::size_t along_y() const { return lines_y.size() - 1; }
  const PanelPiece& at(std::size_t i, std::size_t j) const { return all[j * along_x() + i]; }
};

/// Whether the load is smooth only on pieces of the panel: a patch leaves part of it alone.
bool needs_pieces(const Panel& panel, const std::vector<PatchLoad>& patches);

/// The panel bent under pressure and patches by finite elements of high degree: on each piece products of PlateBasis'
/// functions, values and slopes shared across the lines, which run along the sides of the patches and from there go
/// four times as far at each step. A patch narrower than the contact that stands for an ideal point counts as that
/// wide.
/// @param reference  as `load_work` sets it, > 0
/// @source finite elements: F. K. Bogner, R. L. Fox, L. A. Schmit 1965 (the cubics); grading towards a singular place:
///         B. Szabo, I. Babuska, Finite Element Analysis 1991, chapter 10
PanelPieces bend_in_pieces(const Panel& panel, const PressureLoad& pressure, const std::vector<PatchLoad>& patches,
                           double reference);

/// The same under patches with one polynomial over the whole panel: what such polynomials see of them.
PanelPieces bend_in_one_piece(const Panel& panel, const std::vector<PatchLoad>& patches, double reference, int degree_x,
                              int degree_y);

/// Makes the pieces' shape that of a bent panel.
void keep_shape(BentPanel& bent, const PanelPieces& pieces);

}  // namespace theca::structure::detail
