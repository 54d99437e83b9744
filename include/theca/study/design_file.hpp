// Design files: a Design from TOML and back. Library theca::design_file; needs toml++ to build, not to use.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "theca/error.hpp"
#include "theca/study/design.hpp"

namespace theca::study {

/// Reads a design from a TOML file, whose quantities are strings with a unit ("55 in").
///
/// No key is skipped silently and no value is assumed: an unknown key, a missing one, a value of another kind or
/// outside its range, and parts that contradict one another (a row that names a tank which does not exist) are all
/// refused. Which inputs no check judges yet is said at `Design`.
/// @throws ParseError  naming file, line, column, key, value and what was expected; when there are several problems,
///                     line() and column() are those of the first, and the message lists all of them, one per line
Design read_design(const std::filesystem::path& file);

/// The same for TOML text; `origin` stands for the file's name in messages.
Design parse_design(std::string_view toml, std::string_view origin);

/// A design as TOML, in the order of the sections, with a unit for every quantity. Reading it gives back an equal
/// design, to the last bit.
/// @throws ParseError  the design is not one that could be read (a value out of range, parts that contradict)
std::string write_design(const Design& design);

}  // namespace theca::study
