// Lines and numbers of a photometry file, each with the line it stands on for messages.
#pragma once

#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include "theca/error.hpp"

namespace theca::light {

inline std::string_view trimmed(std::string_view s) {
  const char* const blank = " \t\r\f\v";
  const std::size_t first = s.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(blank) - first + 1);
}

class PhotometryText {
 public:
  PhotometryText(std::string_view text, std::string_view origin) : origin_(origin) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);  // byte order mark
    while (!text.empty()) {
      const std::size_t end = text.find('\n');
      lines_.push_back(text.substr(0, end));
      text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    while (!lines_.empty() && (trimmed(lines_.back()).empty() || trimmed(lines_.back()) == "\x1A")) lines_.pop_back();
  }

  bool at_end() const { return next_ == lines_.size() && rest_.find_first_not_of(" \t,") == std::string_view::npos; }
  /// The line last touched, counted from 1.
  int line() const { return static_cast<int>(next_); }

  [[noreturn]] void fail(const std::string& expected) const { throw ParseError(origin_, line(), 0, expected); }

  std::string_view peek_line() const { return next_ < lines_.size() ? trimmed(lines_[next_]) : std::string_view{}; }

  std::string_view next_line(const std::string& what) {
    if (next_ == lines_.size()) fail(what + ", but the file ends here");
    return trimmed(lines_[next_++]);
  }

  /// The next word of a list that may run over any number of lines; blanks and commas part words.
  std::string_view word(const std::string& what) {
    const char* const between = " \t\r,";
    while (rest_.find_first_not_of(between) == std::string_view::npos) rest_ = next_line(what);
    rest_.remove_prefix(rest_.find_first_not_of(between));
    const std::string_view found = rest_.substr(0, rest_.find_first_of(between));
    rest_.remove_prefix(found.size());
    return found;
  }

  double number(const std::string& what) { return read_number(word(what), what); }
  double line_number(const std::string& what) { return read_number(next_line(what), what); }
  int whole(const std::string& what, int least, int most) { return as_whole(number(what), what, least, most); }
  int line_whole(const std::string& what, int least, int most) {
    return as_whole(line_number(what), what, least, most);
  }

 private:
  double read_number(std::string_view text, const std::string& what) const {
    double value = 0.0;
    const std::string_view digits = !text.empty() && text.front() == '+' ? text.substr(1) : text;
    const auto [end, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (problem != std::errc{} || end != digits.data() + digits.size() || !std::isfinite(value))
      fail(what + ": a number, not \"" + std::string(text.substr(0, 40)) + '"');
    return value;
  }

  int as_whole(double value, const std::string& what, int least, int most) const {
    if (value != std::floor(value) || value < least || value > most)
      fail(what + ": a whole number from " + std::to_string(least) + " to " + std::to_string(most));
    return static_cast<int>(value);
  }

  std::string_view origin_, rest_;
  std::vector<std::string_view> lines_;
  std::size_t next_ = 0;
};

inline std::string content_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  if (!stream) throw ParseError(file.string(), 0, 0, "a file that can be opened and read");
  return text;
}

}  // namespace theca::light
