// SPDX-License-Identifier: MIT
#include "quantity/dsi_unit.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <numeric>

#include "quantity/unit_table.hpp"

namespace driftwarden {
namespace {

// Powers of length, mass, time and temperature.
using Powers = std::array<int, 4>;

// In units of m, kg, s, K: value = numerator / denominator.
struct Part {
  std::string_view name;
  double numerator;
  double denominator;
  Powers powers;
};

// The names of D-SI are those of the BIPM's SI brochure, written as the LaTeX package siunitx does (SmartCom, D-SI
// format version 1.3 and later, section on units). Factors: SI brochure, 9th edition, tables 7 and 8; mmHg as in
// unit_table.
constexpr std::array<Part, 14> units{{
    {"metre", 1, 1, {1, 0, 0, 0}},
    {"litre", 1, 1000, {3, 0, 0, 0}},
    {"kilogram", 1, 1, {0, 1, 0, 0}},
    {"gram", 1, 1000, {0, 1, 0, 0}},
    {"second", 1, 1, {0, 0, 1, 0}},
    {"minute", 60, 1, {0, 0, 1, 0}},
    {"hour", 3600, 1, {0, 0, 1, 0}},
    {"day", 86400, 1, {0, 0, 1, 0}},
    {"kelvin", 1, 1, {0, 0, 0, 1}},
    {"newton", 1, 1, {1, 1, -2, 0}},
    {"pascal", 1, 1, {-1, 1, -2, 0}},
    {"bar", 100000, 1, {-1, 1, -2, 0}},
    {"mmHg", 101325, 760, {-1, 1, -2, 0}},
    {"one", 1, 1, {0, 0, 0, 0}},
}};
constexpr std::array<Part, 10> prefixes{{
    {"deca", 10, 1, {}},
    {"hecto", 100, 1, {}},
    {"kilo", 1000, 1, {}},
    {"mega", 1e6, 1, {}},
    {"giga", 1e9, 1, {}},
    {"deci", 1, 10, {}},
    {"centi", 1, 100, {}},
    {"milli", 1, 1000, {}},
    {"micro", 1, 1e6, {}},
    {"nano", 1, 1e9, {}},
}};

// What a kind of figure is made of, and the inside unit: inside = SI · numerator / denominator.
struct Kind {
  Powers powers;
  Dimension dimension;
  double numerator;
  double denominator;
};
constexpr std::array<Kind, 4> kinds{{
    {{3, 0, -1, 0}, Dimension::flow, 60000, 1},      // m³/s -> L/min
    {{-1, 1, -2, 0}, Dimension::pressure, 1, 1000},  // Pa -> kPa
    {{0, 0, 0, 1}, Dimension::temperature, 1, 1},
    {{0, 0, 0, 0}, Dimension::ratio, 1, 1},
}};

constexpr double most_exact = 9007199254740992;  // 2^53: whole numbers up to here are exact
constexpr int most_power = 9;

template <std::size_t count>
const Part* named(const std::array<Part, count>& parts, std::string_view name) {
  const auto found = std::find_if(parts.begin(), parts.end(), [name](const Part& part) { return part.name == name; });
  return found == parts.end() ? nullptr : &*found;
}

// A product of units while it is put together.
struct Product {
  double numerator = 1;
  double denominator = 1;
  Powers powers{};

  void times(const Part& part, int power) {
    for (int i = 0; i < std::abs(power); ++i) {
      numerator *= power > 0 ? part.numerator : part.denominator;
      denominator *= power > 0 ? part.denominator : part.numerator;
      reduce();
    }
    for (std::size_t i = 0; i < powers.size(); ++i) powers[i] += power * part.powers[i];
  }
  bool is_exact() const { return numerator < most_exact && denominator < most_exact; }

 private:
  void reduce() {
    if (!is_exact()) return;
    const auto common =
        static_cast<double>(std::gcd(static_cast<std::int64_t>(numerator), static_cast<std::int64_t>(denominator)));
    numerator /= common;
    denominator /= common;
  }
};

// The names of a unit in D-SI, one after another: "\milli", "\litre", "\tothe{-1}".
class Names {
 public:
  explicit Names(std::string_view text) : text_(text) {}
  bool is_at_end() const { return text_.empty(); }
  // "" where there is none.
  std::string_view next() {
    if (!text_.starts_with('\\')) return {};
    const std::size_t end = std::min(text_.find('\\', 1), text_.size());
    const std::string_view name = text_.substr(1, end - 1);
    text_.remove_prefix(end);
    return name;
  }
  // The power that follows; 1 where none does; 0 where it is none that is understood.
  int power() {
    constexpr std::string_view opening = "\\tothe{";
    if (!text_.starts_with(opening)) return 1;
    const std::string_view written = next().substr(opening.size() - 1);
    int power = 0;
    const auto [end, fault] = std::from_chars(written.data(), written.data() + written.size(), power);
    const bool is_whole = fault == std::errc() && end + 1 == written.data() + written.size() && *end == '}';
    return is_whole && std::abs(power) <= most_power ? power : 0;
  }

 private:
  std::string_view text_;
};

// One unit with what stands before and behind it, put to the product. False: it is not understood.
bool take_unit(Names& names, Product& product) {
  std::string_view name = names.next();
  const int sign = name == "per" ? -1 : 1;
  if (sign < 0) name = names.next();
  const Part* prefix = named(prefixes, name);
  if (prefix != nullptr) name = names.next();
  const Part* unit = named(units, name);
  const int power = names.power();
  if (unit == nullptr || power == 0) return false;
  if (prefix != nullptr) product.times(*prefix, sign * power);
  product.times(*unit, sign * power);
  return product.is_exact();
}

}  // namespace

std::optional<Unit> dsi_unit(std::string_view written) {
  if (written == "\\degreecelsius") return unit_table::degree_celsius;
  if (written == "\\percent") return unit_table::percent;
  Names names(written);
  Product product;
  do {
    if (!take_unit(names, product)) return std::nullopt;
  } while (!names.is_at_end());
  for (const Kind& kind : kinds) {
    if (kind.powers != product.powers) continue;
    product.times({{}, kind.numerator, kind.denominator, {}}, 1);
    return Unit{written, kind.dimension, product.numerator, product.denominator};
  }
  return std::nullopt;
}

Unit as_difference(const Unit& unit) {
  Unit difference = unit;
  difference.offset = difference.origin = 0;
  if (unit.dimension == Dimension::temperature) difference.dimension = Dimension::temperature_difference;
  return difference;
}

}  // namespace driftwarden
