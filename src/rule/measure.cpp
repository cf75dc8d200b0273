// SPDX-License-Identifier: MIT
#include "rule/measure.hpp"

#include "rule/measure_catalogue.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view subject_words[] = {"sample", "set", "reading", "calibrator", "pump", "batch", "result"};

}  // namespace

template <>
std::span<const std::string_view> words<Subject>() {
  return subject_words;
}

std::string_view to_text(Subject subject) { return word_of(subject); }

std::span<const Measure> measures(Subject subject) {
  switch (subject) {
    case Subject::sample:
      return catalogue::sample_measures;
    case Subject::set:
      return catalogue::set_measures;
    case Subject::reading:
      return catalogue::reading_measures;
    case Subject::calibrator:
      return catalogue::calibrator_measures;
    case Subject::pump:
      return catalogue::pump_measures;
    case Subject::batch:
      return catalogue::batch_measures;
    case Subject::result:
      return catalogue::result_measures;
  }
  return {};
}

std::string Measure::knowledge_text() const {
  constexpr std::string_view before[] = {"exact: ", "u ", "u not stated: "};
  return std::string(before[static_cast<std::size_t>(knowledge)]) + std::string(known_by);
}

std::optional<std::size_t> measure_named(Subject subject, std::string_view name) {
  const std::span<const Measure> all = measures(subject);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].name == name) return i;
  }
  return std::nullopt;
}

}  // namespace driftwarden
