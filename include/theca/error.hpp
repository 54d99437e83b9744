// What theca throws: four kinds of failure, each carrying the facts that its message states.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace theca {

/// Base of everything this library throws on purpose.
class Error : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// An argument is impossible: negative, not finite, or outside the range the function accepts.
class InvalidInput : public Error {
 public:
  /// @param argument  name of the argument, e.g. "water depth"
  /// @param value     its value with unit, as text, e.g. "-0.2 m"
  /// @param accepted  the accepted range with unit, as text, e.g. "> 0 m"
  InvalidInput(std::string_view argument, std::string_view value, std::string_view accepted);
  const std::string& argument() const noexcept { return argument_; }
  const std::string& value() const noexcept { return value_; }
  const std::string& accepted() const noexcept { return accepted_; }

 private:
  std::string argument_, value_, accepted_;
};

/// The input is possible but lies outside the range a correlation was fitted in.
class OutOfValidity : public Error {
 public:
  /// @param correlation  which one, with author and year
  /// @param limit        the quantity that passed its limit, its value and the limit, with units
  OutOfValidity(std::string_view correlation, std::string_view limit);
  const std::string& correlation() const noexcept { return correlation_; }
  const std::string& limit() const noexcept { return limit_; }

 private:
  std::string correlation_, limit_;
};

/// An iteration ended without an answer.
class NotConverged : public Error {
 public:
  NotConverged(std::string_view solver, double residual, int iterations);
  double residual() const noexcept { return residual_; }
  int iterations() const noexcept { return iterations_; }

 private:
  double residual_;
  int iterations_;
};

/// Text that could not be read.
class ParseError : public Error {
 public:
  /// @param where     file name or other origin; empty when unknown
  /// @param line      counted from 1; 0 when unknown
  /// @param column    counted from 1; 0 when unknown
  /// @param expected  what should have stood there, and what did
  ParseError(std::string_view where, int line, int column, std::string_view expected);
  int line() const noexcept { return line_; }
  int column() const noexcept { return column_; }
  const std::string& expected() const noexcept { return expected_; }

 private:
  int line_, column_;
  std::string expected_;
};

}  // namespace theca
