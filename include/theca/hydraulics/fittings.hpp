// Local losses: fittings with their loss coefficients K, on the velocity head of the pipe they sit in.
#pragma once

#include <string>
#include <vector>

#include "theca/units.hpp"

namespace theca::hydraulics {

/// One kind of fitting in a pipe, and how many of them.
struct Fitting {
  std::string name;
  double K = 0.0;  ///< loss over v^2/(2g), >= 0
  int count = 1;   ///< >= 0
};

/// Head lost in fittings: K v^2/(2g), standard gravity.
/// @throws InvalidInput  K or velocity negative or not finite
Length minor_loss(double K, const Velocity& velocity);

/// Sum of K times count.
/// @throws InvalidInput  a K negative or not finite, or a count negative; the message names the fitting
double total_K(const std::vector<Fitting>& fittings);

/// Friction factor of complete turbulence in clean commercial steel pipe, on which Crane's coefficients rest.
///
/// The fully rough limit of Colebrook-White, f_T = 0.25 / log10(e/(3.7 D))^2, with e = 0.00015 ft.
/// @param bore  6 mm to 1 m: 1/8 in to 36 in pipe
/// @throws InvalidInput  outside that range
/// @source Crane Co., Technical Paper 410 (1982 print), table A-26 "pipe friction data for clean commercial steel
///         pipe": 0.027 for 1/2 in to 0.012 for 18-24 in, figures from memory; within 1.5 % of the package fluids by
///         hand
double complete_turbulence_friction_factor(const Length& bore);

/// Fittings of Crane TP-410, table: K = (L/D) f_T for the bore, or a constant for entrance and exit.
/// Made for steel; solvent-weld plastic fittings of small sizes are tighter and can lose a third more (common
/// practice, no source). L/D from memory.
/// @throws InvalidInput  bore out of the range of complete_turbulence_friction_factor(), count negative
Fitting elbow_90(const Length& bore, int count = 1);           ///< standard, L/D 30
Fitting elbow_45(const Length& bore, int count = 1);           ///< standard, L/D 16
Fitting tee_run(const Length& bore, int count = 1);            ///< straight through, L/D 20
Fitting tee_branch(const Length& bore, int count = 1);         ///< through the side outlet, L/D 60
Fitting ball_valve(const Length& bore, int count = 1);         ///< full bore, open, L/D 3
Fitting gate_valve(const Length& bore, int count = 1);         ///< open, L/D 8
Fitting globe_valve(const Length& bore, int count = 1);        ///< open, L/D 340
Fitting swing_check_valve(const Length& bore, int count = 1);  ///< disc fully open, seat inclined, L/D 100
Fitting entrance_flush(int count = 1);                         ///< square edged, flush with the wall, K 0.5
Fitting entrance_projecting(int count = 1);                    ///< pipe reaching into the tank, K 0.78
Fitting pipe_exit(int count = 1);                              ///< into a large volume of water, K 1.0, any edge

}  // namespace theca::hydraulics
