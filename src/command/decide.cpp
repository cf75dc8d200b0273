// SPDX-License-Identifier: MIT
#include <algorithm>
#include <optional>
#include <ostream>
#include <set>
#include <utility>

#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "command/given_text.hpp"
#include "command/opened_book.hpp"
#include "command/selection.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/rounding.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/message.hpp"
#include "workshop/grown_table.hpp"

namespace driftwarden {
namespace {

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

// What was asked for on the command line: samples by name, then the rule and the ruling.
struct Asked {
  std::vector<std::string> samples;
  std::string rule;
  Ruling ruling = Ruling::uphold;
};

std::optional<Asked> asked_of(const DecideOptions& options, const Refuse& refuse) {
  Asked asked;
  asked.samples.assign(options.words.begin(), options.words.end() - 2);
  asked.rule = options.words[options.words.size() - 2];
  const std::string& ruling = options.words.back();
  if (ruling != "uphold" && ruling != "overrule") {
    refuse("the last word, " + in_quotes(ruling) + ", is no ruling",
           "write the samples, the rule, and then uphold or overrule");
    return std::nullopt;
  }
  asked.ruling = ruling == "overrule" ? Ruling::overrule : Ruling::uphold;
  if (!asked.samples.empty() || !options.batches.empty() || options.all) return asked;
  refuse("no sample is named", "name samples before the rule, or a batch with --batch, or all of them with --all");
  return std::nullopt;
}

// Finds what to rule on: the rule's finding on each sample that was asked for.
class FindingsMeant {
 public:
  FindingsMeant(const OpenedBook& opened, const DecideOptions& options, const Asked& asked, const Refuse& refuse,
                Surroundings& surroundings)
      : opened_(opened),
        book_(opened.book),
        options_(options),
        asked_(asked),
        refuse_(refuse),
        surroundings_(surroundings),
        judge_(*opened.screening) {}

  // Samples and the rules' full names; nothing (told) where one that was named has no such finding.
  std::optional<std::vector<std::pair<Row, std::string>>> all() {
    const auto named = rows_named(book_, asked_.samples, surroundings_);
    const auto batches = batches_named(book_, options_.batches, surroundings_);
    if (!named || !batches) return std::nullopt;
    bool is_refused = false;
    for (Row row = 0; row < book_.samples.size(); ++row) {
      if (named->count(row) > 0) {
        is_refused = !take_named(row) || is_refused;
      } else if (options_.all || batches->count(field(book_.samples.batch, row, TextId{0})) > 0) {
        take_alike(row);
      }
    }
    if (is_refused) return std::nullopt;
    if (!found_.empty()) return std::move(found_);
    refuse_(ruled_on_ == 0 ? "the rule " + in_quotes(asked_.rule) + " raised no finding on any of these samples"
                           : "all of these samples are ruled on by now",
            ruled_on_ == 0 ? "'driftwarden screen' shows the findings and the rules behind them"
                           : "name the samples to rule on them anew");
    return std::nullopt;
  }

  std::size_t ruled_on() const { return ruled_on_; }

 private:
  // Whether the finding is there.
  bool take_named(Row row) {
    const std::optional<std::string> rule = rule_to_rule_on(judge_.judge(row));
    if (rule) found_.emplace_back(row, *rule);
    return rule.has_value();
  }

  // Of a batch, or of all, those are meant that have the finding and on which nobody has ruled.
  void take_alike(Row row) {
    const SampleResult& result = judge_.judge(row);
    const std::optional<std::string> rule = rule_meant(asked_.rule, rules_with_findings(*opened_.screening, result));
    if (!rule || *rule == faulty_records_name) return;
    if (ruling_on(opened_.screening->rulings().about(book_.samples.name[row]), *rule) != nullptr) {
      ++ruled_on_;
    } else {
      found_.emplace_back(row, *rule);
    }
  }

  // The rule to rule on; nothing (refused) where it raised no finding on the sample.
  std::optional<std::string> rule_to_rule_on(const SampleResult& result) {
    const std::vector<std::string> names = rules_with_findings(*opened_.screening, result);
    const std::string sample = in_quotes(book_.samples.name[result.figures->sample]);
    const std::optional<std::string> meant = rule_meant(asked_.rule, names);
    if (meant && *meant == faulty_records_name) {
      refuse_("a record of " + sample + " can't be understood; that is not ruled on",
              "mend the record: " + message_of(*opened_.screening, result, result.findings.front()));
      return std::nullopt;
    }
    if (meant) return meant;
    const std::string findings =
        names.empty() ? "there are no findings on it" : "findings on it are by " + listed(names);
    const std::string near = nearest(asked_.rule, names);
    const std::string what = is_rule_of(opened_.rules, asked_.rule)
                                 ? "the rule " + in_quotes(asked_.rule) + " raised no finding on "
                                 : "there is no rule " + in_quotes(asked_.rule) + " that raised a finding on ";
    refuse_(what + sample, (near.empty() ? "" : "did you mean " + in_quotes(near) + "? ") + findings);
    return std::nullopt;
  }

  const OpenedBook& opened_;
  const Book& book_;
  const DecideOptions& options_;
  const Asked& asked_;
  const Refuse& refuse_;
  Surroundings& surroundings_;
  SampleJudge judge_;
  std::vector<std::pair<Row, std::string>> found_;
  std::size_t ruled_on_ = 0;
};

// How the samples stand with the decisions, a line each.
std::string standings_now(OpenedBook& opened, const std::vector<Decision>& decisions, const std::vector<Row>& samples) {
  if (opened.book.files.decisions.empty()) opened.book.files.decisions.emplace_back("decisions.csv");
  opened.book.decisions.insert(opened.book.decisions.end(), decisions.begin(), decisions.end());
  const Screening screening(opened.book, opened.rules);
  SampleJudge judge(screening);
  std::string text;
  for (const Row sample : samples)
    text += std::string(opened.book.samples.name[sample]) + ": " + standing_text(judge.judge(sample)) + '\n';
  return text;
}

std::string said_of(const Decision& decision, const TimeZone& zone) {
  return std::string(to_text(decision.ruling)) + ' ' + decision.rule + " of " + decision.subject + ", by " +
         for_terminal(decision.by) + ", " + local_text(decision.decided, zone) + '\n';
}

}  // namespace

int run_decide(const DecideOptions& options, Surroundings& surroundings) {
  const Refuse refuse = [&surroundings](std::string message, std::string hint) {
    tell(surroundings.err, {error("decide/refused", {"command line", 0, 0}, std::move(message), std::move(hint))});
  };
  const GivenText given_by{"--by", options.by, "name who answers for the decision"};
  const GivenText given_reason{"--reason", options.reason, "say why; others will read it beside the finding"};
  const std::optional<std::string> by = text_given(given_by, refuse);
  const std::optional<std::string> reason = text_given(given_reason, refuse);
  const std::optional<Asked> asked = asked_of(options, refuse);
  if (!by || !reason || !asked) return cannot_be_used;
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  for (const GivenText& given : {GivenText{"--by", *by, ""}, GivenText{"--reason", *reason, ""}}) {
    if (is_mark_for_nothing(given, opened->book, refuse)) return cannot_be_used;
  }
  FindingsMeant meant(*opened, options, *asked, refuse, surroundings);
  const auto found = meant.all();
  if (!found) return cannot_be_used;
  const TimeZone& zone = opened->book.settings.zone;
  std::vector<Decision> decisions;
  std::vector<Row> samples;
  NewRows rows{decisions_spec, opened->book.files.decisions, {}};
  for (const auto& [sample, rule] : *found) {
    decisions.push_back(
        {surroundings.now, *by, std::string(opened->book.samples.name[sample]), rule, asked->ruling, *reason, {}});
    samples.push_back(sample);
    rows.cells.push_back(cells_of(decisions.back(), zone));
  }
  std::vector<std::string> where(decisions.size(), "would be written");
  if (!options.dry_run) {
    const Result<std::vector<Place>> places =
        append_rows(opened->book, rows, tells_of_waiting(decisions_spec, surroundings));
    if (!places) return driftwarden::refuse(places.faults(), surroundings);
    surroundings.is_done = true;
    for (std::size_t i = 0; i < where.size(); ++i) where[i] = to_text((*places)[i]);
  }
  if (asked->ruling == Ruling::overrule) surroundings.out << wrapped(caution_on_overruling, 0, table_width);
  for (std::size_t i = 0; i < where.size(); ++i) surroundings.out << where[i] << ": " << said_of(decisions[i], zone);
  surroundings.out << standings_now(*opened, decisions, samples);
  if (meant.ruled_on() > 0)
    surroundings.out << counted(meant.ruled_on(), "sample was", "samples were")
                     << " ruled on before and left as decided; name one to rule on it anew\n";
  if (options.dry_run) surroundings.out << "nothing was written\n";
  return all_is_well;
}

}  // namespace driftwarden
