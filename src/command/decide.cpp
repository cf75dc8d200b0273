// SPDX-License-Identifier: MIT
#include <algorithm>
#include <optional>
#include <ostream>
#include <utility>

#include "command/opened_book.hpp"
#include "command/selection.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/suggestion.hpp"
#include "report/screen_table.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/message.hpp"
#include "workshop/decision_log.hpp"

namespace driftwarden {
namespace {

void refuse(Surroundings& surroundings, std::string message, std::string hint) {
  tell(surroundings.err, {error("decide/refused", {"command line", 0, 0}, std::move(message), std::move(hint))});
}

std::string trimmed(const std::string& text) {
  const std::size_t from = text.find_first_not_of(" \t\r\n");
  return from == std::string::npos ? "" : text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1);
}

// Whether others can read the text as it was meant: UTF-8, and nothing that acts on a terminal. Line ends may be.
bool is_plain(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    if (length == 0) return false;
    const std::string_view character = text.substr(0, length);
    if (is_control(character) && character != "\n" && character != "\t") return false;
    text.remove_prefix(length);
  }
  return true;
}

// What was given for --by or --reason, without blanks around it; nothing (told) where it can't be a decision's.
std::optional<std::string> text_given(const std::string& option, const std::string& text, const std::string& hint,
                                      Surroundings& surroundings) {
  const std::string given = trimmed(text);
  if (given.empty()) return refuse(surroundings, option + " is empty", hint), std::nullopt;
  if (is_plain(given)) return given;
  refuse(surroundings, option + " holds characters that don't show themselves: " + in_quotes(given),
         "write plain text, in UTF-8");
  return std::nullopt;
}

// Whether the book would read the text as an empty cell (told).
bool is_mark_for_nothing(const std::string& option, const std::string& text, const Book& book,
                         Surroundings& surroundings) {
  if (!book.settings.empty_marks.hold(text)) return false;
  refuse(surroundings, option + " is " + in_quotes(text) + ", which this book reads as an empty cell",
         "write what others are to read");
  return true;
}

// The names of the rules that raised findings on a sample, each once.
std::vector<std::string> rules_with_findings(const Screening& screening, const SampleResult& result) {
  std::vector<std::string> names;
  for (const Finding& finding : result.findings) {
    const std::string name = rule_name(screening, finding);
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

// The full name of the rule meant: as written, or by its id alone where only one finding's rule has it.
std::optional<std::string> rule_meant(const std::string& written, const std::vector<std::string>& names) {
  if (std::find(names.begin(), names.end(), written) != names.end()) return written;
  const auto has_this_id = [&written](const std::string& name) { return name.ends_with("/" + written); };
  const auto first = std::find_if(names.begin(), names.end(), has_this_id);
  if (first == names.end() || std::count_if(names.begin(), names.end(), has_this_id) > 1) return std::nullopt;
  return *first;
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

bool is_rule_of(const RuleSet& rules, const std::string& written) {
  for (const auto* some : {&rules.rules, &rules.disabled}) {
    for (const Rule& rule : *some) {
      if (rule.full_name() == written || rule.id == written) return true;
    }
  }
  return false;
}

// The rule to rule on; nothing (told) where it raised no finding on the sample.
std::optional<std::string> rule_to_rule_on(const OpenedBook& opened, const SampleResult& result,
                                           const DecideOptions& options, Surroundings& surroundings) {
  const std::vector<std::string> names = rules_with_findings(*opened.screening, result);
  const std::optional<std::string> meant = rule_meant(options.rule, names);
  if (meant && *meant == faulty_records_name) {
    refuse(surroundings, "a record of " + in_quotes(options.sample) + " can't be understood; that is not ruled on",
           "mend the record: " + message_of(*opened.screening, result, result.findings.front()));
    return std::nullopt;
  }
  if (meant) return meant;
  const std::string findings = names.empty() ? "there are no findings on it" : "findings on it are by " + listed(names);
  const std::string near = nearest(options.rule, names);
  const std::string what = is_rule_of(opened.rules, options.rule)
                               ? "the rule " + in_quotes(options.rule) + " raised no finding on "
                               : "there is no rule " + in_quotes(options.rule) + " that raised a finding on ";
  refuse(surroundings, what + in_quotes(options.sample),
         (near.empty() ? "" : "did you mean " + in_quotes(near) + "? ") + findings);
  return std::nullopt;
}

// How the sample stands with the decision.
std::string standing_now(OpenedBook& opened, const Decision& decision, Row sample) {
  if (opened.book.files.decisions.empty()) opened.book.files.decisions.emplace_back("decisions.csv");
  opened.book.decisions.push_back(decision);
  const Screening screening(opened.book, opened.rules);
  SampleJudge judge(screening);
  return standing_text(judge.judge(sample));
}

}  // namespace

int run_decide(const DecideOptions& options, Surroundings& surroundings) {
  const std::optional<std::string> by =
      text_given("--by", options.by, "name who answers for the decision", surroundings);
  const std::optional<std::string> reason =
      text_given("--reason", options.reason, "say why; others will read it beside the finding", surroundings);
  if (!by || !reason) return cannot_be_used;
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  for (const auto& [option, text] : {std::pair{"--by", *by}, std::pair{"--reason", *reason}}) {
    if (is_mark_for_nothing(option, text, opened->book, surroundings)) return cannot_be_used;
  }
  const std::optional<Row> sample = sample_named(opened->book, options.sample, surroundings);
  if (!sample) return cannot_be_used;
  SampleJudge judge(*opened->screening);
  const std::optional<std::string> rule = rule_to_rule_on(*opened, judge.judge(*sample), options, surroundings);
  if (!rule) return cannot_be_used;
  const Ruling ruling = options.ruling == "overrule" ? Ruling::overrule : Ruling::uphold;
  const Decision decision{surroundings.now, *by, options.sample, *rule, ruling, *reason, {}};
  const std::string standing = standing_now(*opened, decision, *sample);
  const auto waits = [&surroundings] {
    tell(surroundings.err, {remark("decisions/waiting", {"decisions.csv", 0, 0}, "another run is writing to it",
                                   "this one waits until that is done")});
  };
  const Result<Place> place = append_decision(opened->book, decision, waits);
  if (!place) return driftwarden::refuse(place.faults(), surroundings);
  surroundings.is_done = true;
  if (ruling == Ruling::overrule) surroundings.out << wrapped(caution_on_overruling, 0, table_width);
  surroundings.out << to_text(*place) << ": " << to_text(ruling) << ' ' << *rule << " of " << options.sample << ", by "
                   << for_terminal(*by) << ", " << local_text(decision.decided, opened->book.settings.zone) << '\n'
                   << options.sample << ": " << standing << '\n';
  return all_is_well;
}

}  // namespace driftwarden
