// SPDX-License-Identifier: MIT
#include "rule/practice.hpp"

namespace driftwarden {

namespace {

// A setter of one practice; its words are those of its enumeration.
template <class Value, Value AssessmentPractice::*member>
void act(AssessmentPractice& practice, std::size_t value) {
  practice.*member = static_cast<Value>(value);
}
template <class Value, Value CorrectionPractice::*member>
void act_on_correction(AssessmentPractice& practice, std::size_t value) {
  practice.correction.*member = static_cast<Value>(value);
}

constexpr PracticeKey keys[] = {
    {"flow_for_volume", flow_for_volume_words,
     "the flow that the volume is formed with: mean of pre and post, the lower of them, pre, or the nominal flow",
     act<FlowForVolume, &AssessmentPractice::flow_for_volume>},
    {"field_sets", field_sets_words,
     "what readings during sampling do to the flow of the volume: nothing but widen its uncertainty, or it is the mean "
     "along the line through all sets, weighted with time (with flow_for_volume = mean only)",
     act<FieldSets, &AssessmentPractice::field_sets>},
    {"drift_base", drift_base_words,
     "what drift is relative to: the flow before sampling, after, their mean, or the nominal flow",
     act<DriftBase, &AssessmentPractice::drift_base>},
    {"rotameter_correction", rotameter_correction_words,
     "whether a rotameter's reading is corrected to the conditions it was read at: always, where their temperature or "
     "pressure is more than 5 % from those of its scale, or never",
     act_on_correction<RotameterCorrection, &CorrectionPractice::rotameter>},
    {"bubble_humidity", bubble_humidity_words,
     "whether the vapour taken up in a soap-film meter is taken off again: not at all, down to the humidity of the "
     "ambient air, or to dry air",
     act_on_correction<BubbleHumidity, &CorrectionPractice::bubble_humidity>},
    {"blank_correction", blank_correction_words,
     "what is taken off an amount that the laboratory found: nothing, or the mean of the field blanks of its batch",
     act<BlankCorrection, &AssessmentPractice::blank_correction>, true},
    {"control_correction", control_correction_words,
     "what is taken off a mass that was weighed, where no blank is: nothing, or the mean change of the control filters "
     "of its batch, which stayed in the weighing room",
     act<ControlCorrection, &AssessmentPractice::control_correction>, true},
    {"concentration_volume", concentration_volume_words,
     "the volume that a concentration is formed with: the actual one, or that at reference conditions",
     act<ConcentrationVolume, &AssessmentPractice::concentration_volume>, true},
};

constexpr bool are_complete() {
  for (const PracticeKey& each : keys) {
    if (each.key.empty() || each.values.empty() || each.meaning.empty() || each.act == nullptr) return false;
  }
  return true;
}
#ifndef __SANITIZE_ADDRESS__  // with undefined behaviour watched, g++ 12 takes no function's address for a constant
static_assert(are_complete());
#endif

using Choices = std::map<std::string, PracticeChoice>;

Choices presets() {
  Choices choices;
  for (const PracticeKey& key : keys) {
    if (key.is_of_results) continue;
    choices[std::string(key.key)] = {&key, 0, "what is taken where neither a pack nor the book chooses", "", {}};
  }
  return choices;
}

Diagnostic fault_of_disagreement(const PracticeChoice& first, const PracticeChoice& second) {
  return error("practice/disagreement", second.place,
               in_quotes(second.key()) + " is " + in_quotes(second.word()) + " here, but " + in_quotes(first.word()) +
                   " at " + to_text(first.place),
               "choose one in [practice] of book.toml");
}

// A line through all sets is a mean of them; other flows leave them out.
Diagnostics fault_of_the_line(const Choices& chosen) {
  const PracticeChoice& sets = chosen.at("field_sets");
  const PracticeChoice& flow = chosen.at("flow_for_volume");
  const AssessmentPractice practice = practice_of(chosen);
  if (practice.field_sets != FieldSets::line || practice.flow_for_volume == FlowForVolume::mean) return {};
  return {
      error("practice/line-without-mean", sets.place,
            "'field_sets' is 'line', but 'flow_for_volume' is " + in_quotes(flow.word()) + " at " + to_text(flow.place),
            R"(write field_sets = "ends", or flow_for_volume = "mean", in [practice] of book.toml)")};
}

}  // namespace

std::span<const PracticeKey> practice_keys() { return keys; }

Result<std::map<std::string, PracticeChoice>> choose_practice(std::span<const PracticeChoice> of_packs,
                                                              std::span<const PracticeChoice> of_book) {
  Choices settled;
  for (const PracticeChoice& choice : of_book) settled.emplace(choice.key(), choice);
  Choices chosen = settled;
  Diagnostics faults;
  for (const PracticeChoice& choice : of_packs) {
    const auto [first, is_first] = chosen.emplace(choice.key(), choice);
    if (is_first || settled.contains(choice.key()) || first->second.value == choice.value) continue;
    faults.push_back(fault_of_disagreement(first->second, choice));
  }
  if (!faults.empty()) return faults;
  chosen.merge(presets());
  faults = fault_of_the_line(chosen);
  if (!faults.empty()) return faults;
  return chosen;
}

AssessmentPractice practice_of(const std::map<std::string, PracticeChoice>& chosen) {
  AssessmentPractice practice;
  for (const auto& [key, choice] : chosen) choice.of->act(practice, choice.value);
  return practice;
}

}  // namespace driftwarden
