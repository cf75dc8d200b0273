// SPDX-License-Identifier: MIT
#include "report/letter.hpp"

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/html_text.hpp"
#include "report/page_style.hpp"
#include "report/printed_figures.hpp"
#include "report/said_of_all.hpp"
#include "verdict/cautions.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"

namespace driftwarden {
namespace {

// What is to be said of a sample that stands so.
std::vector<std::string> reasons_of(const Screening& screening, const SampleResult& result) {
  std::vector<std::string> reasons;
  for (const Finding& finding : result.findings) {
    const bool is_why = result.standing == Verdict::valid
                            ? finding.judgement.outcome != Outcome::note
                            : to_text(finding.judgement.outcome) == to_text(result.standing);
    if (is_why) reasons.push_back(message_of(screening, result, finding));
  }
  if (result.standing != result.verdict) reasons.push_back(standing_text(result));
  return reasons;
}

LetterLine line_of(const Screening& screening, const SampleResult& result) {
  const SampleAssessment& figures = *result.figures;
  const SampleFigures printed = figures_of(screening, result);
  const Book& book = screening.book();
  LetterLine line;
  line.sample = book.samples.name[figures.sample];
  line.verdict = result.standing;
  line.day = local_text(book.samples.started[figures.sample], book.settings.zone).substr(0, 10);
  line.minutes = printed.minutes;
  line.reasons = reasons_of(screening, result);
  if (result.standing == Verdict::void_ || is_missing(figures.volume_l)) return line;
  // To the digits that U has (JCGM 100:2008, 7.2.6).
  const std::string& expanded = printed.uncertainty;
  line.volume = expanded.empty() ? printed.volume
                                 : with_decimals(figures.volume_l, expanded.find('.') == std::string::npos ? 0 : 1) +
                                       " ± " + expanded;
  line.volume_reference = printed.volume_reference;
  return line;
}

class LetterPage {
 public:
  explicit LetterPage(const Letter& letter) : letter_(letter), html_(out_) {}

  std::string text() {
    append_page_head(html_, {"Air samples, " + letter_.about, std::string(letter_css()), {}, letter_.paper});
    html_.open("body").line_end().open("header", {{"class", "masthead"}});
    html_.element("p", {{"class", "kicker"}}, "Air volumes of samples");
    html_.open("h1").from_book(letter_.about).close().line_end();
    html_.open("p", {{"class", "days"}}).from_book(letter_.title).text(". As of " + letter_.as_of + ".").close();
    html_.close().line_end().open("main").line_end();
    sampled();
    stand();
    apart(Verdict::void_, "What is void, and why",
          "For these no air volume is stated, so no concentration can be worked out from them. That does not mean "
          "that exposure was low.");
    apart(Verdict::undecided, "What is still open",
          "Of these nobody can say yet whether they stand: a record is missing, or can't be understood.");
    next();
    check();
    foot();
    return std::move(out_);
  }

 private:
  void open(std::string_view heading) { html_.open("section").element("h2", heading).line_end(); }
  void close() { html_.close().line_end(); }

  void sampled() {
    open("What was sampled");
    html_.open("p").text(counted(letter_.lines.size(), "sample", "samples"));
    if (letter_.blanks > 0) html_.text(" and " + counted(letter_.blanks, "blank", "blanks"));
    if (!letter_.days.empty()) {
      html_.text(letter_.days.size() == 1 ? ", on " : ", from ").text(*letter_.days.begin());
      if (letter_.days.size() > 1) html_.text(" to " + *letter_.days.rbegin());
    }
    html_.text(".");
    if (!letter_.analyses.empty()) html_.text(" Wanted: ").from_book(joined(letter_.analyses, "; ")).text(".");
    if (!letter_.methods.empty()) html_.text(" Method: ").from_book(joined(letter_.methods, "; ")).text(".");
    html_.close();
    close();
  }

  void stand() {
    std::vector<const LetterLine*> standing = letter_.of(Verdict::valid);
    for (const LetterLine* line : letter_.of(Verdict::qualified)) standing.push_back(line);
    open("What stands");
    if (standing.empty()) {
      html_.element("p", "None of the samples stands.");
      return close();
    }
    html_.element("p", "The air volume is stated with its expanded uncertainty (95 %), where that is known.")
        .line_end();
    std::vector<const Sayings*> reasons;
    for (const LetterLine* line : standing) reasons.push_back(&line->reasons);
    const Sayings common = said_of_all(reasons);
    for (const std::string& reason : common)
      html_.open("p").text("Of each of them: ").from_book(reason).text(".").close();
    html_.open("table");
    html_.open("thead").open("tr");
    const std::string of_reference = "L at " + letter_.reference;
    for (const std::string_view words : {"Sample", "Day", "Minutes", "Air volume, L", of_reference.c_str(), "Verdict"})
      html_.element("th", {{"scope", "col"}}, words);
    html_.close().close().open("tbody").line_end();
    for (const LetterLine* line : standing) {
      html_.open("tr").element_from_book("th", {{"scope", "row"}}, line->sample).element("td", line->day);
      html_.element("td", line->minutes).element("td", line->volume).element("td", line->volume_reference).open("td");
      append_verdict(html_, line->verdict);
      append_reasons(without(common, line->reasons));
      html_.close().close().line_end();
    }
    html_.close().close().line_end();
    append_verdict_key(html_, KeyOf::verdicts);
    close();
  }

  void append_reasons(const Sayings& reasons) {
    for (const std::string& reason : reasons) html_.open("p").from_book(reason).text(".").close();
  }

  void apart(Verdict verdict, std::string_view heading, std::string_view words) {
    const std::vector<const LetterLine*> lines = letter_.of(verdict);
    if (lines.empty()) return;
    open(heading);
    html_.element("p", words).open("dl", {{"class", "apart"}}).line_end();
    for (const LetterLine* line : lines) {
      html_.open("dt").from_book(line->sample).text(line->day.empty() ? "" : ", " + line->day).close().open("dd");
      append_reasons(line->reasons);
      html_.close().line_end();
    }
    html_.close();
    close();
  }

  void next() {
    open("What comes next");
    html_.open("ul").element("li",
                             "What the laboratory finds on each sample and its air volume together give the "
                             "concentration.");
    if (!letter_.of(Verdict::void_).empty())
      html_.element("li", "Where the answer is needed, void samples have to be taken again.");
    if (!letter_.of(Verdict::undecided).empty())
      html_.element("li", "Open samples wait until their records are complete.");
    html_.close();
    close();
  }

  void check() {
    open("How to check it");
    html_.element("p",
                  "Every figure comes from the readings and times as they were written down, by driftwarden " +
                      letter_.version +
                      ". How each was worked out, down to the line of its record, can be asked for: the working of a "
                      "sample, or an evidence package that anybody can judge anew.");
    html_.open("dl", {{"class", "sign"}});
    for (const std::string_view what : {"Name", "Function", "Date", "Signature"})
      html_.open("div").element("dt", what).element("dd", "").close();
    html_.close();
    close();
  }

  void foot() {
    html_.open("aside", {{"class", "cautions"}, {"aria-label", "Cautions"}}).element("p", cautions).close().line_end();
    html_.close().close().markup("\n</html>\n");
  }

  const Letter& letter_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::vector<const LetterLine*> Letter::of(Verdict verdict) const {
  std::vector<const LetterLine*> found;
  for (const LetterLine& line : lines) {
    if (line.verdict == verdict) found.push_back(&line);
  }
  return found;
}

Letter letter_of(const Screening& screening, const std::vector<Row>& samples) {
  const Book& book = screening.book();
  Letter letter;
  letter.title = book.settings.title;
  letter.reference = conditions_text(book.settings.reference);
  SampleJudge judge(screening);
  for (const Row sample : samples) {
    const SampleResult& result = judge.judge(sample);
    if (result.figures->kind == SampleKind::blank) {
      ++letter.blanks;
      continue;
    }
    letter.lines.push_back(line_of(screening, result));
    if (const std::string& day = letter.lines.back().day; !day.empty()) letter.days.insert(day);
    for (const auto& [words, column] :
         {std::pair{&letter.methods, &book.samples.method}, std::pair{&letter.analyses, &book.samples.analysis}}) {
      if (std::string word = words_of(book, *column, sample); !word.empty()) words->insert(std::move(word));
    }
  }
  return letter;
}

std::string letter_page(const Letter& letter) { return LetterPage(letter).text(); }

}  // namespace driftwarden
