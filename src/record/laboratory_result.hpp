// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "quantity/number.hpp"
#include "record/instrument.hpp"
#include "record/moment.hpp"
#include "record/sample.hpp"
#include "record/text_pool.hpp"

namespace driftwarden {

// What a laboratory found an amount of: a mass in mg, or fibres that were counted.
inline constexpr std::string_view amount_words[] = {"mass", "fibres"};

// One row of results.csv: what a laboratory found of an analyte on a sample or blank. Amounts are masses in mg, or
// fibres that were counted. Missing figures are NaN.
struct LaboratoryResult {
  Row sample = no_row;
  std::string analyte;
  bool is_of_fibres = false;
  double found = missing;      // missing where the laboratory says no more than that it is less than the limit
  double before_mg = missing;  // weights of the medium, of which `found` is the difference
  double after_mg = missing;
  double limit = missing;     // of detection or of reporting, as the laboratory states it
  double expanded = missing;  // uncertainty of `found`, as an amount, or as a ratio
  bool is_relative = false;
  double coverage_factor = missing;
  std::string laboratory;
  Day reported = no_day;
  std::string balance;
  Row weighed_on = no_row;  // the balance, where it is one of instruments.csv
  Day weighed_before = no_day;
  Day weighed_after = no_day;
  std::string qualifier;
  std::string note;
  RowPlace place;
  ProblemNumber problem = no_problem;  // of its row: then nothing of it is used
  ProblemNumber twice = no_problem;    // that another row is of the same: its problem, once both are known

  bool is_weighed() const { return !is_missing(before_mg) && !is_missing(after_mg); }
  bool is_less_than() const { return is_missing(found) && !is_missing(limit); }
  // Standard uncertainty of what was found, in its unit; missing where none is stated.
  double standard_uncertainty() const;
};

// One row of results.csv of the kind control: a filter that stays in the weighing room, weighed before and after with
// the media of a batch.
struct ControlFilter {
  std::string name;
  TextId batch = 0;
  std::string analyte;
  double change_mg = missing;
  Day reported = no_day;
  RowPlace place;
  ProblemNumber problem = no_problem;
  ProblemNumber twice = no_problem;  // as of a result
};

}  // namespace driftwarden
