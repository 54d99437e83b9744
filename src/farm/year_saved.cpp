// A state as text: 16 hexadecimal digits of each number, so that not a bit is lost.
#include <bit>
#include <charconv>
#include <cstdint>
#include <limits>
#include <string_view>
#include <type_traits>

#include "theca/farm/year_state.hpp"
#include "theca/require.hpp"

namespace theca::farm {

namespace {

constexpr std::size_t digits = 16;
constexpr std::string_view heading = "theca year state 1\n";

/// Every field once, for both ways: `a(x)` writes or reads x.
template <class Archive>
void fields(Archive& a, FailureClock& c) {
  a(c.failed), a(c.since), a(c.next), a(c.drawn), a(c.failures), a(c.down);
}
template <class Archive>
void fields(Archive& a, AlarmBook& b) {
  a(b.on), a(b.raised), a(b.days), a(b.first_day);
}
template <class Archive>
void fields(Archive& a, MassBook& b) {
  a(b.start), a(b.added), a(b.renewed_in), a(b.renewed_out), a(b.overflowed), a(b.used), a(b.now);
}
template <class Archive>
void fields(Archive& a, AmountBook& b) {
  a(b.start), a(b.added), a(b.renewed_in), a(b.renewed_out), a(b.overflowed), a(b.used), a(b.now);
}
template <class Archive>
void fields(Archive& a, YearCohort& c) {
  a(c.alive), a(c.dying), a(c.area), a(c.healing), a(c.factor);
}
template <class Archive>
void fields(Archive& a, YearTank& t) {
  a(t.stocked), a(t.cohorts), a(t.pest_adults), a(t.start), a(t.cut), a(t.dead), a(t.sold), a(t.no_room);
  a(t.slot_days), a(t.lowest), a(t.highest), a(t.degree_days), a(t.cold), a(t.warm);
}
template <class Archive>
void fields(Archive& a, YearSystem& s) {
  a(s.water), a(s.salt), a(s.alkalinity), a(s.calcium), a(s.uptake), a(s.dry), a(s.without_power), a(s.fallow);
  a(s.tanks), a(s.clocks), a(s.arrivals), a(s.growth_drawn), a(s.alarms), a(s.heated), a(s.chilled), a(s.lit);
  a(s.temperature), a(s.temperature_rate), a(s.heater_on), a(s.chiller_on);
}
template <class Archive>
void fields(Archive& a, YearState& s) {
  a(s.day), a(s.first), a(s.seed), a(s.power), a(s.systems);
}

template <class T>
inline constexpr bool is_list = false;
template <class T>
inline constexpr bool is_list<std::vector<T>> = true;

class Writer {
 public:
  explicit Writer(std::string& text) : text_(text) {}
  template <class T>
  void operator()(T& x) {
    if constexpr (std::is_same_v<T, double>) {
      put(std::bit_cast<std::uint64_t>(x));
    } else if constexpr (std::is_integral_v<T>) {
      put(static_cast<std::uint64_t>(static_cast<std::int64_t>(x)));
    } else if constexpr (is_list<T>) {
      put(x.size());
      for (auto& entry : x) (*this)(entry);
    } else if constexpr (requires { si(x); }) {
      put(std::bit_cast<std::uint64_t>(si(x)));
    } else {
      fields(*this, x);
    }
  }

 private:
  void put(std::uint64_t bits) {
    for (int i = 60; i >= 0; i -= 4) text_.push_back("0123456789abcdef"[(bits >> i) & 15U]);
  }
  std::string& text_;
};

class Reader {
 public:
  explicit Reader(std::string_view text) : left_(text) {}
  bool done() const { return left_.empty(); }
  template <class T>
  void operator()(T& x) {
    if constexpr (std::is_same_v<T, double>) {
      x = std::bit_cast<double>(take());
    } else if constexpr (std::is_integral_v<T>) {
      const auto value = static_cast<std::int64_t>(take());
      if (value < static_cast<std::int64_t>(std::numeric_limits<T>::min()) ||
          value > static_cast<std::int64_t>(std::numeric_limits<T>::max()))
        refuse();
      x = static_cast<T>(value);
    } else if constexpr (is_list<T>) {
      const std::uint64_t size = take();
      // No entry is shorter than a number: a length that the text cannot hold is none.
      if (size > left_.size() / digits) refuse();
      x.resize(size);
      for (auto& entry : x) (*this)(entry);
    } else if constexpr (requires { si(x); }) {
      x = from_si<T>(std::bit_cast<double>(take()));
    } else {
      fields(*this, x);
    }
  }
  [[noreturn]] static void refuse() {
    throw InvalidInput("state of a year", "text that `saved` has not written", "one that it has");
  }

 private:
  std::uint64_t take() {
    if (left_.size() < digits) refuse();
    std::uint64_t bits = 0;
    const auto read = std::from_chars(left_.data(), left_.data() + digits, bits, 16);
    if (read.ec != std::errc() || read.ptr != left_.data() + digits) refuse();
    left_.remove_prefix(digits);
    return bits;
  }
  std::string_view left_;
};

}  // namespace

std::string saved(const YearState& state) {
  std::string text(heading);
  YearState copy = state;
  Writer write(text);
  write(copy);
  return text;
}

YearState restored(const std::string& text) {
  if (!std::string_view(text).starts_with(heading)) Reader::refuse();
  YearState state;
  Reader read(std::string_view(text).substr(heading.size()));
  read(state);
  if (!read.done()) Reader::refuse();
  return state;
}

}  // namespace theca::farm
