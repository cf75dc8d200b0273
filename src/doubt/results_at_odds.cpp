// SPDX-License-Identifier: MIT
#include "doubt/results_at_odds.hpp"

#include <map>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "diagnostic/joined.hpp"
#include "diagnostic/letters.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// What of a batch has results of one analyte.
struct Reported {
  std::vector<const LaboratoryResult*> blanks;
  std::vector<const LaboratoryResult*> samples;
};

class ResultsAtOdds {
 public:
  ResultsAtOdds(const Book& book, std::optional<Day> as_of, Diagnostics& doubts) : book_(book), doubts_(doubts) {
    for (const LaboratoryResult& result : book.results) {
      if (!as_of || result.reported <= *as_of) take(result);
    }
    for (Row row = 0; row < book.samples.size(); ++row) {
      if (is_blank(row) && batch_of(row) != 0) blanks_[batch_of(row)].push_back(row);
    }
  }

  void spelt_otherwise() {
    for (const auto& [bare, spellings] : spellings_) {
      for (auto other = std::next(spellings.begin()); other != spellings.end(); ++other) {
        tell("doubt/analyte", *other->second,
             "the analyte " + in_quotes(other->first) + " is called " + in_quotes(spellings.begin()->first) + " in " +
                 place_text(*spellings.begin()->second) + "; they are taken for one",
             "call it the same everywhere: rules and readers may not take them for one");
      }
    }
  }

  void lone_blanks() {
    for (const auto& [of, reported] : reported_) {
      if (!reported.samples.empty()) continue;
      for (const LaboratoryResult* blank : reported.blanks) {
        tell("doubt/lone-blank", *blank,
             "the blank " + name_of(blank->sample) + " has a result of " + in_quotes(blank->analyte) + " (" +
                 std::string(amount_words[blank->is_of_fibres ? 1 : 0]) + "), and no sample of its batch " +
                 in_quotes(book_.texts.text(std::get<0>(of))) + " has one: nothing leans on it",
             "the analyte, its unit, the blank or its batch is written otherwise than of the samples; or those of the "
             "samples are still to come");
      }
    }
  }

  void silent_blanks() {
    for (const auto& [of, reported] : reported_) {
      const auto all = blanks_.find(std::get<0>(of));
      if (reported.samples.empty() || all == blanks_.end()) continue;
      std::set<Row> silent(all->second.begin(), all->second.end());
      for (const LaboratoryResult* blank : reported.blanks) silent.erase(blank->sample);
      if (!silent.empty()) tell_silent(*reported.samples.front(), silent, all->second.size());
    }
  }

 private:
  using Batch = std::tuple<TextId, std::string, bool>;  // of an analyte, of fibres or not

  void take(const LaboratoryResult& result) {
    if (result.analyte.empty()) return;
    spellings_[bare_name(result.analyte)].try_emplace(result.analyte, &result);
    if (batch_of(result.sample) == 0) return;
    Reported& of = reported_[{batch_of(result.sample), bare_name(result.analyte), result.is_of_fibres}];
    (is_blank(result.sample) ? of.blanks : of.samples).push_back(&result);
  }

  void tell_silent(const LaboratoryResult& sample, const std::set<Row>& silent, std::size_t all) {
    std::vector<std::string> names;
    for (const Row blank : silent) names.push_back(name_of(blank));
    const bool is_one = silent.size() == 1;
    tell("doubt/silent-blank", sample,
         "of the " + counted(all, "blank", "blanks") + " of the batch " +
             in_quotes(book_.texts.text(batch_of(sample.sample))) + " " + joined(names, ", ") +
             (is_one ? " has" : " have") + " no result of " + in_quotes(sample.analyte) + ", and samples have",
         "add what the laboratory found on " + std::string(is_one ? "it" : "them") + ", or ask for it" +
             (silent.size() < all ? "; the others stand for the batch alone" : ""));
  }

  void tell(const char* id, const LaboratoryResult& at, const std::string& what, const std::string& hint) {
    doubts_.push_back(remark(id, book_.place(book_.files.results, at.place), what, hint));
  }
  std::string place_text(const LaboratoryResult& of) const { return book_.place_text(book_.files.results, of.place); }
  std::string name_of(Row sample) const { return std::string(book_.samples.name[sample]); }
  bool is_blank(Row sample) const { return book_.samples.kind[sample] == SampleKind::blank; }
  TextId batch_of(Row sample) const { return field(book_.samples.batch, sample, TextId{0}); }

  const Book& book_;
  Diagnostics& doubts_;
  std::map<std::string, std::map<std::string, const LaboratoryResult*>> spellings_;  // and where each stands first
  std::map<Batch, Reported> reported_;
  std::map<TextId, std::vector<Row>> blanks_;  // by batch
};

}  // namespace

void note_results(const Book& book, std::optional<Day> as_of, Diagnostics& doubts) {
  if (book.results.empty()) return;
  ResultsAtOdds odds(book, as_of, doubts);
  odds.spelt_otherwise();
  odds.lone_blanks();
  odds.silent_blanks();
}

}  // namespace driftwarden
