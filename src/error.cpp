#include "theca/error.hpp"

#include <cstdio>

namespace theca {
namespace {
std::string join(std::string_view a, std::string_view b, std::string_view c, std::string_view d = "",
                 std::string_view e = "") {
  std::string s;
  for (const auto part : {a, b, c, d, e}) s += part;
  return s;
}

std::string convergence_text(std::string_view solver, double residual, int iterations) {
  char tail[96];
  std::snprintf(tail, sizeof tail, " did not converge: residual %.3g after %d iterations", residual, iterations);
  return join(solver, tail, "");
}

std::string position(std::string_view where, int line, int column) {
  std::string s(where.empty() ? "input" : where);
  // Not ":" + to_string(line): with the precompiled header g++ 12 warns, wrongly, of an overflowing copy.
  if (line > 0) s.append(":").append(std::to_string(line));
  if (line > 0 && column > 0) s.append(":").append(std::to_string(column));
  return s;
}
}  // namespace

InvalidInput::InvalidInput(std::string_view argument, std::string_view value, std::string_view accepted)
    : Error(join(argument, " = ", value, " is not accepted; expected ", accepted)),
      argument_(argument),
      value_(value),
      accepted_(accepted) {}

OutOfValidity::OutOfValidity(std::string_view correlation, std::string_view limit)
    : Error(join("outside the range of ", correlation, ": ", limit)), correlation_(correlation), limit_(limit) {}

NotConverged::NotConverged(std::string_view solver, double residual, int iterations)
    : Error(convergence_text(solver, residual, iterations)), residual_(residual), iterations_(iterations) {}

ParseError::ParseError(std::string_view where, int line, int column, std::string_view expected)
    : Error(join(position(where, line, column), ": ", expected)), line_(line), column_(column), expected_(expected) {}

}  // namespace theca
