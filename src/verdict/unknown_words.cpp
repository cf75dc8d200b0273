// SPDX-License-Identifier: MIT
#include "verdict/unknown_words.hpp"

#include <algorithm>
#include <map>

#include "diagnostic/joined.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/rounding.hpp"
#include "rule/english.hpp"
#include "verdict/applicability.hpp"

namespace driftwarden {
namespace {

// By selector.
constexpr std::string_view unknown_ids[] = {"sample/unknown-sampler", "sample/unknown-method",
                                            "sample/unknown-analysis"};
constexpr std::string_view unknown_planned_ids[] = {"plan/unknown-sampler", "plan/unknown-method",
                                                    "plan/unknown-analysis"};

// A nominal flow that is written decides for itself; only one that would come from the sampler is lost with its name.
bool fails_for_the_word(const Condition& condition, Applies applies) {
  return condition.field == "nominal" ? applies == Applies::unknown : applies != Applies::yes;
}

// Whether a rule would be held to the sample if somebody described the word.
bool is_left_out(const Rule& rule, const SampleContext& context, Selector of, const RuleSet& rules) {
  const bool lacks_nominal = is_from_nominal(rule) && is_missing(context.figures.nominal_l_min);
  bool is_lost = of == Selector::sampler && lacks_nominal;
  for (const Condition& condition : rule.where) {
    if (rule.of != Subject::sample && !asks_for(condition, of)) continue;  // of a set or reading: not asked here
    const Applies applies = condition_applies(condition, context, rules.samplers);
    if (asks_for(condition, of)) {
      is_lost = is_lost || fails_for_the_word(condition, applies);
    } else if (applies == Applies::no) {
      return false;
    }
  }
  return is_lost;
}

const std::string& planned_word(const PlannedSample& planned, Selector of) {
  if (of == Selector::method) return planned.method;
  return of == Selector::analysis ? planned.analysis : planned.sampler;
}

bool is_asked(Selector of, const std::set<std::string>& known) { return of == Selector::sampler || !known.empty(); }

std::string names_of(const std::vector<const Rule*>& rules) { return joined(rules, ", ", &Rule::full_name); }

}  // namespace

const Column<TextId>& column_of(const SampleTable& samples, Selector of) {
  if (of == Selector::method) return samples.method;
  return of == Selector::analysis ? samples.analysis : samples.sampler;
}

UnknownWords::UnknownWords(const Book& book, const RuleSet& rules) : book_(book), rules_(rules) {
  for (const Selector of : selectors) {
    const std::set<std::string>& known = rules.known_words[static_cast<std::size_t>(of)];
    std::vector<bool>& unknown = unknown_[static_cast<std::size_t>(of)];
    unknown.assign(book.texts.size(), is_asked(of, known));
    for (const std::string& word : known) {
      if (const TextId id = book.texts.find(word); id != TextPool::unknown) unknown[id] = false;
    }
  }
}

TextId UnknownWords::written(Selector of, Row sample) const {
  if (book_.samples.kind[sample] == SampleKind::blank) return 0;
  return field(column_of(book_.samples, of), sample, TextId{0});
}

bool UnknownWords::is_unknown(Selector of, const std::string& word) const {
  const std::set<std::string>& known = rules_.known_words[static_cast<std::size_t>(of)];
  return !word.empty() && is_asked(of, known) && !known.contains(word);
}

std::string UnknownWords::message(Selector of, std::string_view word, const Texts& texts) {
  return filled(texts.unknown_words[static_cast<std::size_t>(of)], [&](std::string_view) { return in_quotes(word); });
}

std::string UnknownWords::hint(Selector of, std::string_view word) const {
  const std::set<std::string>& known = rules_.known_words[static_cast<std::size_t>(of)];
  return did_you_mean(word, std::vector<std::string>(known.begin(), known.end()));
}

std::string UnknownWords::near(Selector of, std::string_view word) const {
  const std::set<std::string>& known = rules_.known_words[static_cast<std::size_t>(of)];
  return nearest(word, std::vector<std::string>(known.begin(), known.end()));
}

std::vector<const Rule*> rules_left_out(const SampleContext& context, Selector of) {
  std::vector<const Rule*> left_out;
  const RuleSet& rules = context.words->rules();
  for (const Rule& rule : rules.rules) {
    if (is_left_out(rule, context, of, rules)) left_out.push_back(&rule);
  }
  return left_out;
}

namespace {

struct UnknownWord {
  std::string_view id, word;
  Place first;
  std::string in_how_many;
};

Diagnostic told(const UnknownWords& words, Selector of, const UnknownWord& unknown) {
  const std::string hint = words.hint(of, unknown.word);
  return remark(std::string(unknown.id), unknown.first,
                UnknownWords::message(of, unknown.word, english) + ", in " + unknown.in_how_many,
                hint + (hint.empty() ? "" : "; ") + "if it is meant, a [" + std::string(to_text(of)) + "." +
                    in_quotes(unknown.word) + "] entry with a title in book.toml says so");
}

void tell_recorded(const Book& book, const UnknownWords& words, Selector of, Diagnostics& remarks) {
  std::map<TextId, std::pair<Row, std::size_t>> first_and_count;
  for (Row row = 0; row < book.samples.size(); ++row) {
    const TextId word = words.written(of, row);
    if (words.is_unknown(of, word)) ++first_and_count.try_emplace(word, row, 0).first->second.second;
  }
  for (const auto& [word, found] : first_and_count)
    remarks.push_back(told(
        words, of,
        {unknown_ids[static_cast<std::size_t>(of)], book.texts.text(word),
         book.place(book.files.samples, book.samples.place[found.first]), counted(found.second, "sample", "samples")}));
}

void tell_planned(const Book& book, const UnknownWords& words, Selector of, Diagnostics& remarks) {
  std::map<std::string_view, std::pair<RowPlace, std::size_t>> first_and_count;
  for (const PlannedSample& planned : book.plan) {
    const std::string& word = planned_word(planned, of);
    if (planned.recorded != no_row || planned.kind == SampleKind::blank || !words.is_unknown(of, word)) continue;
    ++first_and_count.try_emplace(word, planned.place, 0).first->second.second;
  }
  for (const auto& [word, found] : first_and_count)
    remarks.push_back(
        told(words, of,
             {unknown_planned_ids[static_cast<std::size_t>(of)], word, book.place(book.files.plan, found.first),
              counted(found.second, "planned sample", "planned samples")}));
}

}  // namespace

Diagnostics unknown_words(const Book& book, const UnknownWords& words) {
  Diagnostics remarks;
  for (const Selector of : selectors) {
    tell_recorded(book, words, of, remarks);
    tell_planned(book, words, of, remarks);
  }
  return remarks;
}

std::string unknown_word_text(const SampleContext& context, Selector of, const Texts& texts) {
  const std::string_view word = context.basis.book.texts.text(context.words->written(of, context.figures.sample));
  const std::string near = context.words->near(of, word);
  const std::string left_out = names_of(rules_left_out(context, of));
  std::string text = UnknownWords::message(of, word, texts);
  if (!near.empty()) text += filled(texts.near_word, [&](std::string_view) { return in_quotes(near); });
  if (!left_out.empty()) text += filled(texts.left_out, [&](std::string_view) { return left_out; });
  return text;
}

}  // namespace driftwarden
