// The entry of a table that has a name.
#pragma once

#include <sstream>
#include <string_view>

#include "theca/error.hpp"

namespace theca::hydraulics::detail {

/// @throws InvalidInput  naming `argument` and all the names there are
template <class Table, class Entry, class Name>
const Entry& find(const Table& table, Name Entry::*member, const Name& name, std::string_view argument) {
  std::ostringstream given, known;
  for (const Entry& entry : table) {
    if (entry.*member == name) return entry;
    known << (&entry == &*table.begin() ? "one of " : "; ") << entry.*member;
  }
  given << '"' << name << '"';
  throw InvalidInput(argument, given.str(), known.str());
}

}  // namespace theca::hydraulics::detail
