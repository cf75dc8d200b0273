// SPDX-License-Identifier: MIT
#include "report/lookback_page.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/html_text.hpp"
#include "report/lookback_words.hpp"
#include "report/page_style.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"

namespace driftwarden {
namespace {

// From the first byte of the page to its heading.
void append_begin(HtmlText& html, const Book& book, const Instrument& instrument, const std::string& paper) {
  append_page_head(html, {"Look-back of calibrator " + instrument.name, std::string(lookback_css()), {}, lying(paper)});
  html.open("body").line_end().open("header", {{"class", "masthead"}});
  html.element("p", {{"class", "kicker"}}, "Look-back")
      .open("h1")
      .text("Calibrator ")
      .from_book(instrument.name)
      .close();
  html.open("p", {{"class", "days"}}).from_book(book.settings.title).text(".").close();
  html.close().line_end().open("main").line_end();
}

void append_end(HtmlText& html, std::string_view more = {}) {
  html.open("aside", {{"class", "cautions"}, {"aria-label", "Cautions"}}).open("p").text(cautions).text(more);
  html.close().close().line_end().close().close().markup("\n</html>\n");
}

constexpr std::array suppositions{Supposition::sudden, Supposition::linear};

class LookbackPage {
 public:
  LookbackPage(const Screening& screening, const Lookback& lookback, const PageMaking& making)
      : screening_(screening),
        book_(screening.book()),
        lookback_(lookback),
        window_(lookback.window),
        making_(making),
        has_linear_(lookback.window.last_good >= 0),
        html_(out_) {}

  std::string text() {
    append_begin(html_, book_, instrument(), making_.paper);
    paragraph("note", "As of " + date_text(making_.as_of) + ", driftwarden " + std::string(making_.version) + ".");
    paragraph("sum", what_happened() + " " + summary_text(lookback_));
    facts();
    if (!lookback_.samples.empty()) samples();
    method();
    measures();
    remarks();
    append_end(html_,
               " Whom to notify, and whether results that were issued are to be corrected, is for the organisation to "
               "decide.");
    return std::move(out_);
  }

 private:
  const Instrument& instrument() const { return book_.instruments[window_.instrument]; }
  const Certificate& certificate(std::int32_t place) const {
    return book_.certificates[static_cast<std::size_t>(place)];
  }
  void paragraph(std::string_view kind, std::string_view words) {
    html_.element("p", {{"class", kind}}, words).line_end();
  }
  void heading(std::string_view words) { html_.open("section").element("h2", words).line_end(); }
  void end_section() { html_.close().line_end(); }
  HtmlText& open_fact(std::string_view name) { return html_.open("div").element("dt", name).open("dd"); }
  void close_fact() { html_.close().close().line_end(); }
  void fact(std::string_view name, std::string_view words) {
    open_fact(name).text(words);
    close_fact();
  }
  std::string_view sample_name(const LookedBackSample& looked) const { return book_.samples.name[looked.sample]; }
  static const JudgedSample* under(const LookedBackSample& looked, Supposition supposition) {
    if (supposition == Supposition::sudden) return &looked.sudden;
    return looked.linear ? &*looked.linear : nullptr;
  }

  std::string what_happened() const {
    const double off = std::fabs(window_.as_found_percent);
    const std::string too = window_.as_found_percent < 0 ? "too little" : "too much";
    const bool is_beyond = window_.is_beyond_tolerance();
    const double limit = window_.as_found_percent < 0 ? -window_.tolerance.lower : window_.tolerance.upper;
    const std::string by =
        is_beyond && std::isfinite(limit) ? with_decimals_beyond(off, 1, limit) : with_decimals(off, 1);
    return "On " + date_text(window_.until) + " the calibrator was found to show up to " + by + " % " + too +
           (is_beyond ? ", more than its tolerance allows." : ".");
  }

  void facts() {
    html_.open("dl", {{"class", "facts"}}).line_end();
    const Instrument& i = instrument();
    open_fact("Calibrator").from_book(i.name).text(", ").text(to_text(i.principle));
    if (!i.serial.empty()) html_.text(", serial number ").from_book(i.serial);
    close_fact();
    append_certificate("Found by", certificate(window_.found), ": error as found " + as_found_text(window_));
    fact("Tolerance", tolerance_text(window_.tolerance) +
                          (window_.tolerance.source.empty() ? "" : ", by " + window_.tolerance.source));
    if (window_.last_good >= 0) {
      const Certificate& good = certificate(window_.last_good);
      append_certificate("Last good", good, ": " + as_left_text(good));
    } else {
      fact("Last good", "none in the records");
    }
    const std::string days =
        window_.from == no_day ? "" : " (" + std::to_string(window_.until - window_.from) + " days)";
    fact("Window",
         "from " + date_text_or(window_.from, "the first record") + " to before " + date_text(window_.until) + days);
    for (const LeaningCertificate& each : lookback_.leaning) fact("Also through", leaning_text(book_, each));
    if (!lookback_.holders.empty()) {
      open_fact("Had by").from_book(joined(lookback_.holders, "; "));
      close_fact();
    }
    html_.close().line_end();
  }

  void append_certificate(std::string_view name, const Certificate& c, std::string_view more) {
    open_fact(name).text("certificate ").from_book(c.name).text(" of " + date_text(c.calibrated));
    if (!c.issuer.empty()) html_.text(", ").from_book(c.issuer);
    html_.text(" [" + book_.place_text(book_.files.certificates, c.place) + "]").text(more);
    close_fact();
  }

  void samples() {
    for (const Change change : all_changes) group(change, samples_with(lookback_, change));
    paragraph("note",
              "Flows in L/min at the conditions of the readings; drift in percent; volumes in L at the conditions of "
              "sampling, with their expanded uncertainty (95 %). Shaded: the verdict is another one than before. A "
              "sample may lean on the calibrator before (pre), during (field) or after sampling (post).");
    append_verdict_key(html_, KeyOf::verdicts);
    bearings();
  }

  void group(Change change, const std::vector<const LookedBackSample*>& samples) {
    if (samples.empty()) return;
    heading(std::string(change_heading(change)) + ": " + counted(samples.size(), "sample", "samples"));
    sample_headings();
    for (const LookedBackSample* looked : samples) sample(*looked);
    html_.close().line_end();
    end_section();
  }

  int columns_of_each() const { return has_linear_ ? 3 : 2; }

  void sample_headings() {
    const std::string span = std::to_string(columns_of_each());
    html_.open("table").open("thead").open("tr");
    for (const std::string_view words : {"Sample", "Leans on it"})
      html_.element("th", {{"rowspan", "2"}, {"scope", "col"}}, words);
    for (const std::string_view words : {"Flow", "Drift %", "Volume", "Verdict"})
      html_.element("th", {{"class", "first"}, {"colspan", span}, {"scope", "colgroup"}}, words);
    html_.close().open("tr");
    for (int figure = 0; figure < 4; ++figure) {
      const std::string right = figure < 3 ? "figure" : "";
      html_.element("th", {{"class", right + " first"}, {"scope", "col"}}, "before");
      html_.element("th", {{"class", right}, {"scope", "col"}}, "sudden");
      if (has_linear_) html_.element("th", {{"class", right}, {"scope", "col"}}, "linear");
    }
    html_.close().close().line_end();
  }

  // Its row, and below it why.
  void sample(const LookedBackSample& looked) {
    html_.open("tbody", {{"class", "record"}}).open("tr");
    html_.element_from_book("th", {{"scope", "row"}}, sample_name(looked));
    html_.open("td", {{"class", "leans"}, {"data-label", "leans on it"}});
    html_.from_book(leans_text(book_, lookback_, looked)).close();
    each(looked, "flow", [this](const JudgedSample& j) { html_.text(with_decimals(j.flow_l_min, 3)); });
    each(looked, "drift %", [this](const JudgedSample& j) { html_.text(drift_text(j)); });
    each(looked, "volume", [this](const JudgedSample& j) { html_.text(volume_text(j)); });
    verdict_cell(looked, looked.before, "verdict, before");
    for (const Supposition supposition : suppositions) {
      if (const JudgedSample* judged = under(looked, supposition))
        verdict_cell(looked, *judged, "verdict, " + std::string(to_text(supposition)));
    }
    html_.close().line_end();
    why(looked);
    html_.close().line_end();
  }

  // A figure as it was before and as it is under each supposition.
  template <class AppendFigure>
  void each(const LookedBackSample& looked, const std::string& of, AppendFigure append_figure) {
    const auto cell = [&](const JudgedSample& judged, std::string_view kind, const std::string& when) {
      html_.open("td", {{"class", kind}, {"data-label", of + ", " + when}});
      append_figure(judged);
      html_.close();
    };
    cell(looked.before, "figure first", "before");
    for (const Supposition supposition : suppositions) {
      if (const JudgedSample* judged = under(looked, supposition))
        cell(*judged, "figure", std::string(to_text(supposition)));
    }
  }

  static std::string volume_text(const JudgedSample& judged) {
    const std::string volume = with_significant_digits(judged.volume_l, 4);
    return is_missing(judged.volume_expanded_l) ? volume
                                                : volume + " ± " + with_significant_digits(judged.volume_expanded_l, 2);
  }

  void verdict_cell(const LookedBackSample& looked, const JudgedSample& judged, std::string_view label) {
    const bool is_another = judged.verdict != looked.before.verdict;
    html_.open("td", {{"class", is_another                  ? "changes"
                                : &judged == &looked.before ? "first"
                                                            : ""},
                      {"data-label", label}});
    append_verdict(html_, judged.verdict);
    html_.close();
  }

  // What each block says in words, across the table.
  void why(const LookedBackSample& looked) {
    std::vector<std::pair<std::string_view, std::vector<std::string>>> blocks{{"before", words_before(looked)}};
    for (const Supposition supposition : suppositions) {
      if (const JudgedSample* judged = under(looked, supposition))
        blocks.emplace_back(to_text(supposition), words_under(looked, *judged));
    }
    const bool has_words = std::ranges::any_of(blocks, [](const auto& block) { return !block.second.empty(); });
    if (!has_words && looked.had_by.empty()) return;
    html_.open("tr", {{"class", "below"}}).open("td", {{"colspan", std::to_string(2 + 4 * columns_of_each())}});
    if (!looked.had_by.empty())
      html_.open("p", {{"class", "had-by"}})
          .element("b", "had by")
          .text(": ")
          .from_book(joined(looked.had_by, "; "))
          .close();
    for (const auto& [label, texts] : blocks) words(label, texts);
    html_.close().close().line_end();
  }

  // Of one that is decided its figures say enough.
  std::vector<std::string> words_before(const LookedBackSample& looked) const {
    std::vector<std::string> words = looked.before.volume_remarks;
    if (looked.change() != Change::open_before) return words;
    for (const ToldFinding& finding : looked.before.findings)
      words.push_back(finding.message + " (" + finding.rule + ")");
    return words;
  }

  static std::vector<std::string> words_under(const LookedBackSample& looked, const JudgedSample& judged) {
    std::vector<std::string> words = judged.volume_remarks;
    for (const ToldFinding* finding : findings_only_in(judged, looked.before))
      words.push_back(finding->message + " (" + finding->rule + ")");
    for (const ToldFinding* finding : findings_only_in(looked.before, judged))
      words.push_back("No longer " + std::string(to_text(finding->outcome)) + " by " + finding->rule);
    return words;
  }

  void words(std::string_view label, const std::vector<std::string>& all) {
    if (all.empty()) return;
    html_.open("p").element("b", label).text(": ");
    for (const std::string& text : all) html_.from_book(text);
    html_.close();
  }

  void bearings() {
    heading("What moves");
    html_.open("ul").line_end();
    for (const Bearing bearing : all_bearings) append_bearing(bearing);
    html_.close().line_end();
    end_section();
  }

  void append_bearing(Bearing bearing) {
    const auto& all = lookback_.samples;
    const auto has_it = [bearing](const LookedBackSample& looked) { return looked.bearing == bearing; };
    if (std::none_of(all.begin(), all.end(), has_it)) return;
    html_.open("li").text(bearing_sentence(bearing)).markup("<br>");
    bool is_first = true;
    for (const LookedBackSample& looked : all) {
      if (!has_it(looked)) continue;
      html_.text(std::exchange(is_first, false) ? "" : ", ").from_book(sample_name(looked));
    }
    html_.close().line_end();
  }

  void method() {
    heading("How it was reckoned");
    paragraph("",
              "Nobody knows when the calibrator went wrong, so everything read with it in the window was worked "
              "out and judged again under " +
                  std::string(has_linear_ ? "two suppositions" : "one supposition") +
                  ", by the same steps and rules as before; only the calibrator's error is another. The truth may "
                  "also lie elsewhere.");
    html_.open("dl", {{"class", "facts"}}).line_end();
    for (const Supposition supposition : suppositions) {
      if (supposition == Supposition::sudden || has_linear_)
        fact(to_text(supposition), supposition_sentence(supposition));
    }
    html_.close().line_end();
    if (!lookback_.leaning.empty()) {
      paragraph("",
                "Where the calibrator was the standard of another certificate, each true flow of that certificate "
                "was multiplied by (1 + stated error) / (1 + supposed error) of the standard on that day.");
    }
    paragraph("", "Decision rule: " + decision_rule_text(screening_) + ".");
    append_packs();
    end_section();
  }

  void append_packs() {
    if (screening_.rules().packs.empty()) return;
    html_.open("p").text("Rule packs and their editions: ");
    bool is_first = true;
    for (const Pack& pack : screening_.rules().packs) {
      html_.text(std::exchange(is_first, false) ? "" : ", ").from_book(pack.name).text(" (").from_book(pack.edition);
      html_.text(")");
    }
    html_.close().line_end();
  }

  // What the findings on the page speak of, by the catalogue of measures.
  void measures() {
    std::map<std::string_view, std::string_view> definitions;
    for (const LookedBackSample& looked : lookback_.samples) {
      for (const JudgedSample* judged :
           {&looked.before, under(looked, Supposition::sudden), under(looked, Supposition::linear)}) {
        if (judged != nullptr) add_measures(*judged, definitions);
      }
    }
    if (definitions.empty()) return;
    heading("What the measures mean");
    html_.open("dl", {{"class", "facts"}}).line_end();
    for (const auto& [name, definition] : definitions) fact(name, definition);
    html_.close().line_end();
    end_section();
  }

  void add_measures(const JudgedSample& judged, std::map<std::string_view, std::string_view>& definitions) const {
    for (const ToldFinding& finding : judged.findings) {
      for (const Rule& rule : screening_.rules().rules) {
        if (rule.full_name() == finding.rule) definitions.emplace(measure_of(rule).name, measure_of(rule).definition);
      }
    }
  }

  void remarks() {
    if (lookback_.remarks.empty()) return;
    heading("Remarks");
    html_.open("ul").line_end();
    for (const std::string& remark : lookback_.remarks) html_.element("li", remark + ".").line_end();
    html_.close().line_end();
    end_section();
  }

  const Screening& screening_;
  const Book& book_;
  const Lookback& lookback_;
  const LookbackWindow& window_;
  const PageMaking& making_;
  bool has_linear_;
  std::string out_;
  HtmlText html_;
};

}  // namespace

std::string lookback_page(const Screening& screening, const Lookback& lookback, const PageMaking& making) {
  return LookbackPage(screening, lookback, making).text();
}

std::string lookback_page_of_nothing(const Book& book, Row instrument, const std::string& paper) {
  std::string out;
  HtmlText html(out);
  append_begin(html, book, book.instruments[instrument], paper);
  html.element("p", {{"class", "sum"}},
               "No certificate found it beyond its tolerance: there is nothing to look back on.");
  html.line_end();
  append_end(html);
  return out;
}

}  // namespace driftwarden
