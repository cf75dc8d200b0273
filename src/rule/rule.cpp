// SPDX-License-Identifier: MIT
#include "rule/rule.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view otherwise_words[] = {"note", "qualify", "void"};
constexpr std::string_view absent_words[] = {"undecided", "void", "qualify", "skip"};
constexpr std::string_view standing_words[] = {"read", "common practice", "house", "memory"};
constexpr std::string_view base_words[] = {"practice", "pre", "post", "mean", "nominal"};

}  // namespace

template <>
std::span<const std::string_view> words<Otherwise>() {
  return otherwise_words;
}
template <>
std::span<const std::string_view> words<Absent>() {
  return absent_words;
}
template <>
std::span<const std::string_view> words<Standing>() {
  return standing_words;
}
template <>
std::span<const std::string_view> words<Base>() {
  return base_words;
}

std::string_view to_text(Otherwise otherwise) { return word_of(otherwise); }
std::string_view to_text(Absent absent) { return word_of(absent); }
std::string_view to_text(Standing standing) { return word_of(standing); }
std::string_view to_text(Base base) { return word_of(base); }

std::string Rule::full_name() const { return pack + '/' + id; }

bool is_from_nominal(const Rule& rule) {
  return rule.base == Base::nominal || (rule.base == Base::by_practice && measure_of(rule).from_nominal);
}

std::string known_by_text(const Rule& rule) {
  return std::string(to_text(rule.standing)) + (rule.after.empty() ? "" : ", after " + rule.after);
}

const Measure& measure_of(const Rule& rule) { return measures(rule.of)[rule.measure]; }

}  // namespace driftwarden
