// How messages name the members of a network or a list, and say where a refusal arose.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "theca/error.hpp"

namespace theca::hydraulics::detail {

/// By its name, or else by its place counted from 1: "pipe 'main'", "pipe '3'".
template <class Member>
std::string called(std::string_view kind, const std::vector<Member>& members, std::size_t i) {
  const std::string& name = members[i].name;
  return std::string(kind) + " '" + (name.empty() ? std::to_string(i + 1) : name) + "'";
}

/// Runs a step; what it refuses is said to be `where`, put together only then: "bore" becomes "bore of pipe 'main'".
/// @throws InvalidInput, OutOfValidity  as the step
template <class Where, class Step>
void located(const Where& where, Step&& step) {
  try {
    step();
  } catch (const InvalidInput& e) {
    throw InvalidInput(e.argument() + where(), e.value(), e.accepted());
  } catch (const OutOfValidity& e) {
    throw OutOfValidity(e.correlation() + where(), e.limit());
  }
}

/// The same for the members of a list.
template <class Member, class Step>
void located_in(std::string_view kind, const std::vector<Member>& members, std::size_t i, Step&& step) {
  located([&] { return " of " + called(kind, members, i); }, step);
}

}  // namespace theca::hydraulics::detail
