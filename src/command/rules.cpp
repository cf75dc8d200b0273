// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "command/opened_book.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/paint.hpp"
#include "report/terminal_text.hpp"
#include "rule/example.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t page_width = 100;

std::size_t examples_in(const Pack& pack) {
  std::size_t count = 0;
  for (const Rule& rule : pack.rules) count += rule.examples.size();
  return count;
}

// The names of the shipped packs; where there is none, it is told where they were looked for.
std::vector<std::string> names_shipped(Surroundings& surroundings) {
  std::vector<std::string> names = shipped_packs(surroundings.share / "rules");
  if (names.empty()) {
    tell(surroundings.err, {error("rules/no-packs", {(surroundings.share / "rules").string(), 0, 0},
                                  "there are no rule packs here, where the program looks for those it came with",
                                  "install it whole, or name your own packs by their files")});
  }
  return names;
}

// The shipped packs that can be read; faults are told.
std::vector<Pack> read_shipped(Surroundings& surroundings, bool& has_failed) {
  std::vector<Pack> packs;
  const std::vector<std::string> names = names_shipped(surroundings);
  has_failed = has_failed || names.empty();
  for (const std::string& name : names) {
    Result<Pack> pack = read_pack(surroundings.share / "rules" / (name + ".toml"), name + ".toml");
    if (pack) {
      packs.push_back(*std::move(pack));
    } else {
      tell(surroundings.err, pack.faults());
      has_failed = true;
    }
  }
  return packs;
}

bool check_pack(const fs::path& file, Surroundings& surroundings) {
  const Result<Pack> pack = read_pack(file, file.string());
  if (!pack) {
    tell(surroundings.err, pack.faults());
    return false;
  }
  const Diagnostics faults = run_examples(*pack);
  tell(surroundings.err, faults);
  surroundings.out << pack->name << ": " << counted(pack->rules.size(), "rule", "rules") << ", "
                   << counted(examples_in(*pack), "example", "examples") << ", " << faults.size() << " failed\n";
  return faults.empty();
}

// A label and, in a column of its own, a text that may take several lines.
std::string labelled(std::string_view label, std::string_view text, std::size_t column) {
  return "  " + left(label, column - 2) + wrapped(text, column, page_width).substr(column);
}

// An end of a range as a person writes it, "2.1 L/min".
std::string end_text(Subject of, const std::string& name, double inside) {
  const Dimension dimension = fields(of)[*field_named(of, name)].dimension;
  const Unit unit = inside_unit(dimension);
  return shortest(unit.from_inside(inside)) + (unit.name.empty() ? "" : " " + std::string(unit.name));
}

// " is a or b", " is neither a nor b", " is not a", " at least 7 L/min and at most 8 L/min".
std::string asked_text(Subject of, const Condition& condition) {
  const bool is_none_of_several = condition.is_none_of && condition.words.size() > 1;
  const std::string first = is_none_of_several ? " is neither " : condition.is_none_of ? " is not " : " is ";
  const std::string next = condition.is_none_of ? " nor " : " or ";
  std::string text;
  for (const std::string& word : condition.words) text += (text.empty() ? first : next) + word;
  if (condition.at_least) text += " at least " + end_text(of, condition.field, *condition.at_least);
  if (condition.at_least && condition.at_most) text += " and";
  if (condition.at_most) text += " at most " + end_text(of, condition.field, *condition.at_most);
  return text;
}

// "4 µm at the nominal flow, spread 1.25; impactor, 1.5 to 2.5 L/min: where from", "exponent 0.5: where from".
std::string cut_in_words(const Sampler& sampler) {
  std::string text;
  const auto add = [&text](const std::string& words) { text += (text.empty() ? "" : "; ") + words; };
  if (sampler.cut_um) {
    add(shortest(*sampler.cut_um) + " µm at the nominal flow, spread " +
        shortest(sampler.cut_spread.value_or(missing)));
  }
  if (sampler.cut_kind) add(std::string(word_of(*sampler.cut_kind)));
  if (sampler.cut_exponent) add("exponent " + shortest(*sampler.cut_exponent));
  const Bounds& flows = sampler.cut_flows_l_min;
  if (!is_missing(flows.lower)) add("from " + shortest(flows.lower) + " to " + shortest(flows.upper) + " L/min");
  return text.empty() ? "" : text + ": " + sampler.cut_source;
}

std::string sampler_in_words(const Sampler& sampler) {
  std::string out = "sampler " + sampler.name + "\n";
  const auto add = [&out](std::string_view name, const std::string& text) {
    if (!text.empty()) out += labelled(name, text, 13);
  };
  add("title", sampler.title);
  if (sampler.nominal_l_min) add("nominal", shortest(*sampler.nominal_l_min) + " L/min");
  add("fraction", sampler.fraction);
  add("cut", cut_in_words(sampler));
  add("source", sampler.source + (sampler.standing ? " (" + std::string(to_text(*sampler.standing)) + ")" : ""));
  return out;
}

// A method or an analysis, with what is stated of its masses and blanks.
std::string word_in_words(const DescribedWord& word) {
  std::string out = std::string(to_text(word.of)) + " " + word.word + "\n" + labelled("title", word.title, 17);
  if (!word.source.empty()) out += labelled("source", word.source, 17);
  for (const MassFactKind kind : mass_fact_kinds) {
    if (const auto& fact = word.facts.of(kind))
      out += labelled(word_of(kind),
                      fact->written + ": " + fact->source + " (" + std::string(to_text(fact->standing)) + ")", 17);
  }
  return out;
}

std::string rule_in_words(const Rule& rule) {
  std::string out = rule.full_name() + (rule.enabled ? "" : " (switched off)") + "\n";
  const auto add = [&out](std::string_view name, const std::string& text) {
    if (!text.empty()) out += labelled(name, text, 13);
  };
  add("measure", std::string(measure_of(rule).name) + " of a " + std::string(to_text(rule.of)) +
                     (rule.base == Base::by_practice ? "" : ", base " + std::string(to_text(rule.base))));
  std::string where;
  for (const Condition& condition : rule.where) {
    where += (where.empty() ? "" : ", ") + condition.field + asked_text(rule.of, condition);
  }
  add("where", where);
  add("limit", rule.limit.text + ", otherwise " + std::string(to_text(rule.otherwise)) +
                   "; when missing: " + std::string(to_text(rule.absent)));
  add("sentence", rule.sentence);
  add("reason", rule.reason);
  add("source", rule.source + " (" + known_by_text(rule) + ")");
  add("note", rule.note);
  return out;
}

// "name one of a/drift, b/drift"
std::string one_of(const std::vector<Rule>& rules) {
  std::string names;
  for (const Rule& rule : rules) names += (names.empty() ? "name one of " : ", ") + rule.full_name();
  return names;
}

void print_measures(Subject subject, std::ostream& out) {
  out << "of a " << to_text(subject) << ":\n";
  for (const Measure& measure : measures(subject)) {
    const std::string unit = measure.kind == MeasureKind::number
                                 ? std::string(measure.unit.empty() ? "count" : measure.unit)
                             : measure.kind == MeasureKind::yes_no ? "yes/no"
                                                                   : "word";
    out << labelled(left(measure.name, 31) + unit,
                    std::string(measure.definition) + " [" + measure.knowledge_text() + "]", 41);
  }
}

}  // namespace

int run_rules_check(const RulesOptions& options, Surroundings& surroundings) {
  bool all_good = true;
  std::vector<fs::path> files(options.packs.begin(), options.packs.end());
  if (files.empty()) {
    const std::vector<std::string> names = names_shipped(surroundings);
    all_good = !names.empty();
    for (const std::string& name : names) files.push_back(surroundings.share / "rules" / (name + ".toml"));
  }
  for (const fs::path& file : files) all_good = check_pack(file, surroundings) && all_good;
  return all_good ? all_is_well : cannot_be_used;
}

int run_rules_list(const RulesOptions&, Surroundings& surroundings) {
  bool has_failed = false;
  for (const Pack& pack : read_shipped(surroundings, has_failed)) {
    surroundings.out << left(pack.name, 24) << " " << pack.edition << "  " << pack.title << "\n";
  }
  return has_failed ? cannot_be_used : all_is_well;
}

int run_rules_show(const RulesOptions& options, Surroundings& surroundings) {
  bool has_failed = false;
  std::vector<std::string> known;
  std::vector<Rule> called_so;  // by their id alone
  for (const Pack& pack : read_shipped(surroundings, has_failed)) {
    known.push_back(pack.name);
    if (pack.name == options.name) {
      surroundings.out << pack.title << "\nedition " << pack.edition << ", sha256 " << pack.sha256 << "\n";
      if (!pack.note.empty()) surroundings.out << wrapped(pack.note, 0, page_width);
      for (const Sampler& sampler : pack.samplers) surroundings.out << "\n" << sampler_in_words(sampler);
      for (const DescribedWord& word : pack.words) surroundings.out << "\n" << word_in_words(word);
      for (const Rule& rule : pack.rules) surroundings.out << "\n" << rule_in_words(rule);
      return all_is_well;
    }
    for (const Rule& rule : pack.rules) {
      known.push_back(rule.full_name());
      if (rule.id == options.name) called_so.push_back(rule);
      if (rule.full_name() != options.name) continue;
      surroundings.out << rule_in_words(rule);
      return all_is_well;
    }
  }
  if (known.empty()) return cannot_be_used;
  if (called_so.size() == 1) {
    surroundings.out << rule_in_words(called_so.front());
    return all_is_well;
  }
  tell(surroundings.err, {error("command/unknown-name", {"command line", 0, 0},
                                called_so.empty() ? "no pack or rule " + in_quotes(options.name) + " is shipped"
                                                  : "several packs have a rule " + in_quotes(options.name),
                                called_so.empty() ? did_you_mean(options.name, known) : one_of(called_so))});
  return cannot_be_used;
}

int run_rules_measures(const RulesOptions& options, Surroundings& surroundings) {
  for (const Subject subject : {Subject::sample, Subject::set, Subject::reading, Subject::calibrator, Subject::pump,
                                Subject::batch, Subject::result}) {
    if (options.subject.empty() || options.subject == to_text(subject)) print_measures(subject, surroundings.out);
  }
  return all_is_well;
}

}  // namespace driftwarden
