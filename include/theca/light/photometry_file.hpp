// Measured photometry from the files that luminaires are published with: IES LM-63 and EULUMDAT.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "theca/light/photometric_web.hpp"
#include "theca/units.hpp"

namespace theca::light {

/// What a file says of a luminaire, symmetry unfolded.
struct Photometry {
  PhotometricWeb web;  ///< intensities of the luminaire as the file states them, all multipliers applied
  LuminousFlux flux;   ///< of the luminaire: luminous_flux(web)
  std::optional<LuminousFlux> lamp_flux;  ///< rated, of all lamps; none where photometry is absolute (LED luminaires)
  std::optional<double> light_output_ratio;  ///< flux over lamp_flux
  std::optional<Power> power;                ///< electrical input; none where the file says 0
  // Luminous opening; a round one has its diameter as length and width.
  Length opening_length{};  ///< LM-63: along the plane of 0 deg; EULUMDAT: along C90
  Length opening_width{};
  Length opening_height{};
  bool round = false;
  std::string format;  ///< "IES:LM-63-2019", "EULUMDAT"; "LM-63-1986" for files that do not say
  std::string name;    ///< of the luminaire, as far as the file has one
  struct Keyword {
    std::string name, text;
  };
  std::vector<Keyword> keywords;  ///< LM-63: [NAME] text, in order, [MORE] lines joined
  struct TiltFactor {
    Angle tilt;
    double factor;
  };
  std::vector<TiltFactor> tilt_factors;  ///< LM-63: lamp output against tilt; not in the web, which holds untilted
};

/// Reads IES LM-63 text: the forms of 1986, 1991, 1995, 2002 and 2019, TILT=NONE and TILT=INCLUDE, types A, B and C,
/// all symmetries (about the axis, by quadrants, about the plane 0-180 or 90-270 deg, none).
///
/// Intensities are multiplied by the candela multiplier and the ballast factor; by the ballast-lamp factor in the forms
/// of 1986 and 1991, whose later successors put other things in its place. A distribution that ends at 90 deg has
/// nothing beyond. Strict: a number too few or too many, one that is none, angles that do not rise or do not begin and
/// end where the type allows, a negative intensity and text after the end are refused.
/// @param origin  stands for the file's name in messages
/// @throws ParseError  naming origin and line: what was expected and what stood there; TILT=<file name> (the lamp's
///                     factors are then in another file; remove it if the luminaire is not tilted); a flux above 1.05
///                     of the lamps'
/// @source ANSI/IES LM-63-19, IES LM-63-02, -95, -91, -86: from memory, checked against the description of the 1991
/// form
///         in a CAD program's handbook
Photometry parse_ies(std::string_view text, std::string_view origin);

/// The same from a file; a TILT=<file name> is read beside it.
/// @throws ParseError  also where a file cannot be opened
Photometry read_ies(const std::filesystem::path& file);

/// Reads EULUMDAT text (.ldt): all symmetry indicators, equal or unequal steps, several lamp sets (the first is used),
/// absolute photometry (a negative number of lamps).
///
/// Intensities in the file are per 1000 lm of the lamps; here they are those of the luminaire, multiplied by the
/// conversion factor. Numbers have a point; a comma is refused.
/// @throws ParseError  naming origin and line; also where flux and light output ratio, or the downward flux
///                     fraction, disagree by more than 5 %
/// @source Stockmar 1990, "EULUMDAT - ein Leuchtendatenformat fuer den europaeischen Beleuchtungsplaner", Tagungsband
///         Licht '90:641-644, as lighting programs' handbooks print it; negative number of lamps: common practice
Photometry parse_eulumdat(std::string_view text, std::string_view origin);

/// The same from a file.
/// @throws ParseError  also where the file cannot be opened
Photometry read_eulumdat(const std::filesystem::path& file);

}  // namespace theca::light
