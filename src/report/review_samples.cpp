// SPDX-License-Identifier: MIT
#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/explanation.hpp"
#include "report/printed_figures.hpp"
#include "report/review_parts.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_workings = 600;        // a working is about 7 kB
constexpr std::size_t most_earlier_lines = 5000;  // a line is about 0.4 kB

// Which workings stand on the page: of these days first what is amiss, then what is valid; then what was amiss before.
// A kind for which there is no room any more is left to `explain` as a whole.
class Shown {
 public:
  explicit Shown(const Review& review) {
    const auto amiss = [](const Totals& totals) { return totals.samples - totals.valid; };
    recent_amiss = fits(amiss(review.recent));
    recent_valid = fits(review.recent.valid);
    earlier_amiss = fits(amiss(review.earlier));
    earlier_valid_lines = review.earlier.samples <= most_earlier_lines;
  }

  bool has_working(const ReviewedSample& sample) const {
    const bool is_valid = sample.verdict == Verdict::valid;
    if (sample.is_recent) return is_valid ? recent_valid : recent_amiss;
    return !is_valid && earlier_amiss;
  }
  bool has_line(const ReviewedSample& sample) const {
    return sample.is_recent || sample.verdict != Verdict::valid || earlier_valid_lines;
  }

  bool recent_amiss = false;
  bool recent_valid = false;
  bool earlier_amiss = false;
  bool earlier_valid_lines = false;

 private:
  bool fits(std::size_t workings) {
    if (used_ + workings > most_workings) return false;
    used_ += workings;
    return true;
  }
  std::size_t used_ = 0;
};

class SampleLines {
 public:
  SampleLines(HtmlText& html, const ReviewPage& page)
      : html_(html), page_(page), book_(page.screening.book()), judge_(page.screening, true) {}

  void append(const ReviewedSample& sample, bool has_working) {
    const SampleResult& result = judge_.judge(sample.sample);
    html_.open("tbody", {{"id", sample_anchor(sample.sample)}});
    figures(sample, result);
    const std::vector<std::string> remarks = volume_remarks(page_.screening, result);
    const bool has_words = !result.findings.empty() || !result.near.empty() || !remarks.empty();
    if (has_working || has_words) {
      html_.open("tr", {{"class", "more"}}).open("td", {{"colspan", "12"}});
      if (has_words) words(result, remarks);
      if (has_working) working(sample.sample, result);
      html_.close().close();
    }
    html_.close().line_end();
  }

 private:
  void cell(std::string_view text) { html_.element("td", text); }
  void cell_from_book(std::string_view text) { html_.open("td").from_book(text).close(); }

  void figures(const ReviewedSample& sample, const SampleResult& result) {
    const Row row = sample.sample;
    const Row pump = book_.samples.pump[row];
    html_.open("tr").element_from_book("th", {{"scope", "row"}}, book_.samples.name[row]).open("td");
    append_verdict(html_, result.verdict);
    html_.close();
    cell_from_book(book_.texts.text(field(book_.samples.batch, row, TextId{0})));
    if (result.figures->kind == SampleKind::blank) {
      cell("blank");
    } else {
      cell_from_book(pump == no_row ? std::string_view() : std::string_view(book_.instruments[pump].name));
    }
    cell(date_text(sample.day));
    const SampleFigures f = figures_of(page_.screening, result);
    for (const std::string& text : {f.minutes, f.pre, f.post, f.drift, f.volume}) cell(text);
    cell(f.uncertainty);
    cell(f.volume_reference);
    html_.close();
  }

  void finding(std::string_view said, const SampleResult& result, const Finding& finding) {
    html_.open("li").element("span", {{"class", "outcome"}}, said).text(" ");
    html_.from_book(message_of(page_.screening, result, finding)).text(" ");
    html_.element_from_book("span", {{"class", "rule"}}, rule_name(page_.screening, finding));
    decision(finding);
    html_.close();
  }

  void decision(const Finding& finding) {
    const Decision* decision = finding.decision;
    if (decision == nullptr) return;
    html_.text(decision->ruling == Ruling::uphold ? " Upheld by " : " Overruled by ").from_book(decision->by);
    html_.text(": ").from_book(decision->reason);
  }

  // What there is to say of it: findings, near misses, and what belongs beside the volume.
  void words(const SampleResult& result, const std::vector<std::string>& remarks) {
    html_.open("ul", {{"class", "findings"}});
    for (const Finding& of : result.findings) finding(to_text(of.judgement.outcome), result, of);
    for (const Finding& of : result.near) finding("near", result, of);
    for (const std::string& remark : remarks)
      html_.open("li").element("span", {{"class", "outcome"}}, "remark").text(" ").from_book(remark).close();
    html_.close();
  }

  void working(Row sample, const SampleResult& result) {
    html_.open("details", {{"class", "working"}}).open("summary").text("Working of ");
    html_.from_book(book_.samples.name[sample]).close();
    html_.element("pre", explanation_of(page_.screening, result, Paint(false))).close();
  }

  HtmlText& html_;
  const ReviewPage& page_;
  const Book& book_;
  SampleJudge judge_;
};

void append_table(HtmlText& html, const ReviewPage& page, const Shown& shown, bool is_recent) {
  open_table(html, "samples", is_recent ? "Samples from these days" : "Earlier samples",
             {"Sample", "Verdict", "Batch", "Pump", "Day", "#Minutes", "#Pre", "#Post", "#Drift %", "#Volume", "#U",
              "#Reference"});
  SampleLines lines(html, page);
  for (const ReviewedSample& sample : page.review.samples) {
    if (sample.is_recent == is_recent && shown.has_line(sample)) lines.append(sample, shown.has_working(sample));
  }
  close_table(html);
}

// What isn't on the page, and where it is.
void append_left_out(HtmlText& html, const ReviewPage& page, const Shown& shown) {
  const Review& review = page.review;
  std::string text;
  if (!shown.recent_amiss || !shown.recent_valid) text += "There are too many samples for all workings to stand here. ";
  if (review.earlier.valid > 0 && shown.earlier_amiss)
    text += "The workings of valid samples of earlier days are not on this page. ";
  if (!shown.earlier_amiss) text += "The workings of samples of earlier days are not on this page. ";
  if (!shown.earlier_valid_lines)
    text += counted(review.earlier.valid, "valid sample", "valid samples") +
            " of earlier days have no line here; their batches do. ";
  if (!text.empty()) text += "driftwarden explain shows any sample's working. ";
  if (review.later_samples > 0)
    text += counted(review.later_samples, "sample", "samples") + " of later days are left out.";
  if (!text.empty()) html.element("p", {{"class", "note"}}, text);
}

std::string tally_of(const Totals& totals) {
  return counted(totals.samples, "sample or blank", "samples and blanks") + ": " + std::to_string(totals.void_) +
         " void, " + std::to_string(totals.undecided) + " undecided, " + std::to_string(totals.qualified) +
         " qualified, " + std::to_string(totals.valid) + " valid";
}

}  // namespace

void append_samples(HtmlText& html, const ReviewPage& page) {
  const Review& review = page.review;
  const Shown shown(review);
  open_section(html, 3, "samples", "Samples");
  html.element(
      "p", {{"class", "lead"}},
      "Flows in L/min, actual, at the conditions of the readings; volumes in L: actual, with its expanded "
      "uncertainty U (95 %), and at " +
          conditions_text(page.screening.book().settings.reference) +
          ". The gravest finding gives the verdict; a decision may overrule it. Each line opens to its working.");
  append_verdict_key(html, KeyOf::verdicts_and_findings);
  html.markup("<div id=\"filter\" hidden></div>\n");
  html.element("h3", "From these days");
  html.element("p", {{"class", "tally"}}, tally_of(review.recent) + ".");
  if (review.recent.samples > 0) append_table(html, page, shown, true);
  if (review.earlier.samples > 0) {
    html.open("details", {{"class", "earlier"}, {"id", "earlier"}});
    html.element("summary", "Earlier, " + tally_of(review.earlier));
    append_table(html, page, shown, false);
    html.close();
  }
  append_left_out(html, page, shown);
  html.close().line_end();
}

}  // namespace driftwarden
