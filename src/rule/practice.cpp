// SPDX-License-Identifier: MIT
#include "driftwarden/rule/practice.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view flows[] = {"mean", "lower", "pre", "nominal"};
constexpr std::string_view field_sets[] = {"ends", "line"};
constexpr std::string_view bases[] = {"pre", "post", "mean", "nominal"};
constexpr std::string_view corrections[] = {"always", "beyond 5 %", "never"};
constexpr std::string_view humidities[] = {"none", "ambient", "dry"};

constexpr PracticeKey keys[] = {
    {"flow_for_volume", flows, "mean",
     "the flow that the volume is formed with: mean of pre and post, the lower of them, pre, or the nominal flow"},
    {"field_sets", field_sets, "ends",
     "what readings during sampling do to the flow of the volume: nothing but widen its uncertainty, or it is the mean "
     "along the line through all sets, weighted with time (with flow_for_volume = mean only)"},
    {"drift_base", bases, "pre",
     "what drift is relative to: the flow before sampling, after, their mean, or the nominal flow"},
    {"rotameter_correction", corrections, "always",
     "whether a rotameter's reading is corrected to the conditions it was read at: always, where their temperature or "
     "pressure is more than 5 % from those of its scale, or never"},
    {"bubble_humidity", humidities, "none",
     "whether the vapour taken up in a soap-film meter is taken off again: not at all, down to the humidity of the "
     "ambient air, or to dry air"},
};

using Choices = std::map<std::string, PracticeChoice>;

Choices presets() {
  Choices choices;
  for (const PracticeKey& key : keys) {
    const std::string name(key.key);
    choices[name] = {name, std::string(key.preset), "what is taken where neither a pack nor the book chooses", "", {}};
  }
  return choices;
}

Diagnostic fault_of_disagreement(const PracticeChoice& first, const PracticeChoice& second) {
  return error("practice/disagreement", second.place,
               in_quotes(second.key) + " is " + in_quotes(second.value) + " here, but " + in_quotes(first.value) +
                   " at " + to_text(first.place),
               "choose one in [practice] of book.toml");
}

// A line through all sets is a mean of them; other flows leave them out.
Diagnostics fault_of_the_line(const Choices& chosen) {
  const PracticeChoice& sets = chosen.at("field_sets");
  const PracticeChoice& flow = chosen.at("flow_for_volume");
  if (sets.value != "line" || flow.value == "mean") return {};
  return {
      error("practice/line-without-mean", sets.place,
            "'field_sets' is 'line', but 'flow_for_volume' is " + in_quotes(flow.value) + " at " + to_text(flow.place),
            R"(write field_sets = "ends", or flow_for_volume = "mean", in [practice] of book.toml)")};
}

}  // namespace

std::span<const PracticeKey> practice_keys() { return keys; }

Result<std::map<std::string, PracticeChoice>> choose_practice(std::span<const PracticeChoice> of_packs,
                                                              std::span<const PracticeChoice> of_book) {
  Choices settled;
  for (const PracticeChoice& choice : of_book) settled.emplace(choice.key, choice);
  Choices chosen = settled;
  Diagnostics faults;
  for (const PracticeChoice& choice : of_packs) {
    const auto [first, is_first] = chosen.emplace(choice.key, choice);
    if (is_first || settled.contains(choice.key) || first->second.value == choice.value) continue;
    faults.push_back(fault_of_disagreement(first->second, choice));
  }
  if (!faults.empty()) return faults;
  chosen.merge(presets());
  faults = fault_of_the_line(chosen);
  if (!faults.empty()) return faults;
  return chosen;
}

}  // namespace driftwarden
