// SPDX-License-Identifier: MIT
#include "history/record_action.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_records = 50;
constexpr std::size_t most_names = 8;

// "S1, S2 and 3 more"
std::string list_of(const Book& book, const std::vector<Row>& samples) {
  std::string text;
  for (std::size_t i = 0; i < samples.size() && i < most_names; ++i)
    text += (i == 0 ? "" : ", ") + std::string(book.samples.name[samples[i]]);
  if (samples.size() > most_names) text += " and " + std::to_string(samples.size() - most_names) + " more";
  return text;
}

ReviewAction action_about(const Diagnostic& problem) {
  return {ActionKind::mend_record,
          ActionSubject::records,
          to_text(problem.place),
          "Put it right in the file, from the field notes.",
          {{problem.message + (problem.hint.empty() ? "" : "; " + problem.hint), ""}},
          no_row,
          true};
}

}  // namespace

std::vector<ReviewAction> actions_about_records(const Book& book,
                                                const std::map<ProblemNumber, std::vector<Row>>& touched) {
  std::vector<ReviewAction> actions;
  std::size_t beyond = 0;
  std::size_t doubts = 0;
  for (std::size_t i = 0; i < book.problems.size(); ++i) {
    const Diagnostic& problem = book.problems[i];
    if (problem.severity == Severity::remark) {
      doubts += problem.id.starts_with("doubt/") ? 1U : 0U;
    } else if (actions.size() < most_records) {
      actions.push_back(action_about(problem));
      if (const auto found = touched.find(static_cast<ProblemNumber>(i + 1)); found != touched.end())
        actions.back().why.push_back({"Not judged because of it: " + list_of(book, found->second), ""});
    } else {
      ++beyond;
    }
  }
  if (beyond > 0) {
    actions.push_back({ActionKind::mend_record,
                       ActionSubject::records,
                       "other records",
                       "Put them right in their files.",
                       {{std::to_string(beyond) + " more records can't be understood", ""}},
                       no_row,
                       true});
  }
  if (doubts > 0) {
    actions.push_back({ActionKind::look_into,
                       ActionSubject::records,
                       "doubtful records",
                       "Ask who wrote them down. A remark proves nothing, and no verdict rests on it.",
                       {{std::to_string(doubts) + (doubts == 1 ? " record looks" : " records look") + " doubtful", ""}},
                       no_row,
                       true});
  }
  return actions;
}

}  // namespace driftwarden
