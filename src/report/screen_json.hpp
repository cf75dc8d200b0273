// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/moment.hpp"
#include "verdict/sample_judge.hpp"
#include "verdict/subjects.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

struct ScreenHead {
  std::string_view version;
  Day as_of = no_day;
};

// `screen --format json` in three pieces, so that it can be streamed: all up to the first sample, a sample (with a
// comma before it unless it is the first), and all behind the last. docs/screen.schema.json describes the whole.
void append_screen_json_head(std::string& out, const Screening& screening, const ScreenHead& head);
void append_screen_json(std::string& out, const Screening& screening, const SampleResult& result, bool is_first);
void append_screen_json_tail(std::string& out, const Screening& screening, const Totals& totals,
                             const std::vector<SubjectResult>& subjects);

}  // namespace driftwarden
