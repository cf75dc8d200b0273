// SPDX-License-Identifier: MIT
#include "driftwarden/engine/screened_book.hpp"

#include <algorithm>
#include <chrono>
#include <unordered_map>

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "doubt/doubtful.hpp"
#include "evidence/shipped_texts.hpp"
#include "report/explanation.hpp"
#include "verdict/book_as_of.hpp"
#include "verdict/cautions.hpp"
#include "verdict/message.hpp"

namespace driftwarden {
namespace {

[[noreturn]] void refuse(const Diagnostics& why) {
  throw UnusableBook(joined(why, "\n", [](const Diagnostic& reason) { return to_text(reason); }));
}

template <class T>
T usable(Result<T> result) {
  if (!result) refuse(result.faults());
  return *std::move(result);
}

Day as_of_day(const std::string& text, const TimeZone& zone) {
  if (text.empty()) {
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return local_day(std::chrono::duration_cast<std::chrono::seconds>(now).count(), zone);
  }
  Day day = no_day;
  StampReader reader(zone, DateOrder::iso);
  if (reader.read_date(text, day)) return day;
  const StampFault why = reader.why_date(text);
  refuse({error(why.id, {"as_of", 0, 0}, why.message, why.hint)});
}

ScreenedFinding finding_in_words(const Screening& screening, const SampleResult& result, const Finding& finding) {
  ScreenedFinding in_words{rule_name(screening, finding),
                           std::string(to_text(verdict_of(finding.judgement.outcome))),
                           message_of(screening, result, finding),
                           finding.decision == nullptr ? "" : decision_text(screening.book(), *finding.decision),
                           {}};
  for (const Place& place : places_of(screening, result, finding)) in_words.places.push_back(to_text(place));
  return in_words;
}

}  // namespace

std::string_view cautions_text() { return cautions; }

struct ScreenedBook::Contents {
  std::unique_ptr<OpenedBook> opened;
  std::vector<std::string> samples;
  std::vector<std::string> problems;
  std::unordered_map<std::string, Row> rows;

  Row row_of(const std::string& sample) const {
    const auto row = rows.find(sample);
    if (row == rows.end()) throw std::out_of_range("there is no sample " + in_quotes(sample));
    return row->second;
  }
};

ScreenedBook::ScreenedBook(const std::string& folder, const ScreeningOptions& options)
    : contents_(std::make_unique<Contents>()) {
  Book book = usable(read_book(folder, std::max(1U, options.threads)));
  const Day as_of = as_of_day(options.as_of, book.settings.zone);
  const ShippedPacks packs =
      options.packs_folder.empty() ? ShippedPacks(packs_as_shipped()) : std::filesystem::path(options.packs_folder);
  RuleSet rules = usable(read_rules(book, packs));
  add_problems(book, rules.remarks);
  Diagnostics found;  // stands among the book's problems, too
  contents_->opened = put_together(std::move(book), std::move(rules), as_of, std::max(1U, options.threads), found);
  OpenedBook& opened = *contents_->opened;
  add_problems(opened.book, doubts_of(opened.book, opened.screening->basis().samplers, as_of));
  for (const Diagnostic& problem : opened.book.problems) contents_->problems.push_back(to_text(problem));
  const SampleTable& samples = opened.book.samples;
  for (Row row = 0; row < samples.size(); ++row) {
    contents_->samples.emplace_back(samples.name[row]);
    contents_->rows.emplace(contents_->samples.back(), row);
  }
}

ScreenedBook::ScreenedBook(ScreenedBook&&) noexcept = default;
ScreenedBook& ScreenedBook::operator=(ScreenedBook&&) noexcept = default;
ScreenedBook::~ScreenedBook() = default;

const std::vector<std::string>& ScreenedBook::samples() const { return contents_->samples; }

const std::vector<std::string>& ScreenedBook::problems() const { return contents_->problems; }

bool ScreenedBook::has_faults() const { return contents_->opened->has_faults(); }

ScreenedSample ScreenedBook::judge(const std::string& sample) const {
  const Screening& screening = *contents_->opened->screening;
  SampleJudge judge(screening);
  const SampleResult& result = judge.judge(contents_->row_of(sample));
  const SampleAssessment& figures = *result.figures;
  ScreenedSample screened{sample,
                          std::string(to_text(result.verdict)),
                          std::string(to_text(result.standing)),
                          figures.pre_l_min,
                          figures.post_l_min,
                          figures.drift,
                          figures.minutes,
                          figures.volume_l,
                          result.volume_expanded_l(),
                          figures.volume_reference_l,
                          {}};
  for (const Finding& finding : result.findings)
    screened.findings.push_back(finding_in_words(screening, result, finding));
  return screened;
}

std::string ScreenedBook::explain(const std::string& sample) const {
  const Screening& screening = *contents_->opened->screening;
  SampleJudge judge(screening, true);
  return explanation_of(screening, judge.judge(contents_->row_of(sample)), Paint(false));
}

}  // namespace driftwarden
