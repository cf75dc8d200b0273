// SPDX-License-Identifier: MIT
#include "driftwarden/report/lookback_page.hpp"

#include <array>
#include <cmath>
#include <map>

#include "driftwarden/book/own_page.hpp"
#include "driftwarden/book/timestamp.hpp"
#include "driftwarden/quantity/number.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/report/html_text.hpp"
#include "driftwarden/verdict/cautions.hpp"
#include "driftwarden/verdict/decision_risk.hpp"
#include "report/lookback_words.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view lookback_style = R"(
@page { size: A4 landscape; margin: 14mm; }
body { font: 10.5pt/1.45 "DejaVu Sans", Verdana, sans-serif; color: #1d1d1d; background: #fff; max-width: 72rem;
  margin: 2rem auto; padding: 0 1.5rem; }
h1 { font-size: 1.5rem; margin: 0 0 .2rem; }
h2 { font-size: 1.1rem; margin: 1.8rem 0 .5rem; break-after: avoid; }
p, ul { margin: .4rem 0; max-width: 60rem; }
.from { color: #555; }
.sum { font-size: 1.05rem; border-left: .3rem solid #5a4a78; padding: .3rem 0 .3rem .9rem; margin: 1.2rem 0; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .25rem 1.2rem; margin: .6rem 0; }
dt { color: #555; }
dd { margin: 0; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: .9em; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { padding: .22rem .5rem; text-align: left; vertical-align: top; border-bottom: 1px solid #ddd; }
th { font-weight: 600; border-bottom: 1px solid #888; }
td.n, th.n { text-align: right; }
.first { border-left: 1px solid #bbb; }
.changes { font-weight: 700; background: #f3eef9; }
.void { color: #8a1c4a; }
.undecided { color: #7a5300; }
.qualified { color: #1d5f78; }
.cautions { font-size: .9em; border-top: 1px solid #888; margin-top: 2rem; padding-top: .6rem; }
)";

std::string page_head(const Instrument& instrument) {
  std::string head = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  head += html_mark;
  head += "<meta name=\"viewport\" content=\"width=device-width\">\n<title>Look-back of calibrator " +
          html_of(instrument.name) + "</title>\n<style>";
  head += lookback_style;
  return head + "</style>\n</head>\n<body>\n<h1>Look-back of calibrator " + isolated(instrument.name) + "</h1>\n";
}

constexpr std::array suppositions{Supposition::sudden, Supposition::linear};

class LookbackPage {
 public:
  LookbackPage(const Screening& screening, const Lookback& lookback, Day as_of, std::string_view version)
      : screening_(screening),
        book_(screening.book()),
        lookback_(lookback),
        window_(lookback.window),
        as_of_(as_of),
        version_(version),
        has_linear_(lookback.window.last_good >= 0) {}

  std::string text() {
    out_ += page_head(instrument());
    paragraph("from", isolated(book_.settings.title) + ". As of " + date_text(as_of_) + ", driftwarden " +
                          html_of(version_) + ".");
    paragraph("sum", what_happened() + " " + html_of(summary_text(lookback_)));
    facts();
    if (!lookback_.samples.empty()) {
      changes();
      samples();
      bearings();
    }
    method();
    measures();
    remarks();
    append_cautions();
    out_ += "</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  const Instrument& instrument() const { return book_.instruments[window_.instrument]; }
  const Certificate& certificate(std::int32_t place) const {
    return book_.certificates[static_cast<std::size_t>(place)];
  }
  void paragraph(std::string_view kind, const std::string& content) {
    out_ += kind.empty() ? std::string("<p>") : "<p class=\"" + std::string(kind) + "\">";
    out_ += content + "</p>\n";
  }
  void heading(std::string_view text) { out_ += "<h2>" + html_of(text) + "</h2>\n"; }
  void fact(std::string_view name, const std::string& content) {
    out_ += "<dt>" + html_of(name) + "</dt><dd>" + content + "</dd>\n";
  }
  std::string sample_name(const LookedBackSample& looked) const { return isolated(book_.samples.name[looked.sample]); }
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
    out_ += "<dl>\n";
    const Instrument& i = instrument();
    fact("Calibrator", isolated(i.name) + ", " + html_of(to_text(i.principle)) +
                           (i.serial.empty() ? "" : ", serial number " + isolated(i.serial)));
    const Certificate& found = certificate(window_.found);
    fact("Found by", certificate_facts(found) + ": error as found " + html_of(as_found_text(window_)));
    fact("Tolerance", html_of(tolerance_text(window_.tolerance)) +
                          (window_.tolerance.source.empty() ? "" : ", by " + html_of(window_.tolerance.source)));
    if (window_.last_good >= 0) {
      const Certificate& good = certificate(window_.last_good);
      fact("Last good", certificate_facts(good) + ": " + html_of(as_left_text(good)));
    } else {
      fact("Last good", "none in the records");
    }
    const std::string days =
        window_.from == no_day ? "" : " (" + std::to_string(window_.until - window_.from) + " days)";
    fact("Window",
         "from " + date_text_or(window_.from, "the first record") + " to before " + date_text(window_.until) + days);
    for (const LeaningCertificate& each : lookback_.leaning) fact("Also through", html_of(leaning_text(book_, each)));
    out_ += "</dl>\n";
  }

  std::string certificate_facts(const Certificate& c) const {
    std::string text = "certificate " + isolated(c.name) + " of " + date_text(c.calibrated);
    if (!c.issuer.empty()) text += ", " + isolated(c.issuer);
    return text + " [" + html_of(book_.place_text(book_.files.certificates, c.place)) + "]";
  }

  void changes() {
    heading("Verdicts that change");
    bool is_any = false;
    for (const LookedBackSample& looked : lookback_.samples) is_any |= looked.verdict_changes();
    if (!is_any) return paragraph("", "None: every sample keeps its verdict under each supposition.");
    out_ +=
        "<table><thead><tr><th>Sample</th><th>Before</th><th>Supposition</th><th>After</th><th>Why</th></tr></thead>"
        "<tbody>\n";
    for (const LookedBackSample& looked : lookback_.samples) {
      for (const Supposition supposition : suppositions) change(looked, supposition);
    }
    out_ += "</tbody></table>\n";
  }

  void change(const LookedBackSample& looked, Supposition supposition) {
    const JudgedSample* after = under(looked, supposition);
    if (after == nullptr || after->verdict == looked.before.verdict) return;
    out_ += "<tr><td>" + sample_name(looked) + "</td>" + verdict_cell(looked.before, false, "") + "<td>" +
            html_of(to_text(supposition)) + "</td>" + verdict_cell(*after, true, "") + "<td>";
    std::string why;
    for (const ToldFinding* finding : findings_only_in(*after, looked.before)) {
      why += (why.empty() ? "" : "<br>") + html_of(finding->message) + " (" + html_of(finding->rule) + ")";
    }
    for (const ToldFinding* finding : findings_only_in(looked.before, *after)) {
      why += (why.empty() ? "" : "<br>") + ("no longer " + html_of(to_text(finding->outcome))) + " by " +
             html_of(finding->rule);
    }
    out_ += why + "</td></tr>\n";
  }

  static std::string verdict_cell(const JudgedSample& judged, bool changes, std::string_view more) {
    const std::string word(to_text(judged.verdict));
    return "<td class=\"" + word + (changes ? " changes" : "") + std::string(more) + "\">" + word + "</td>";
  }

  void samples() {
    heading("Every sample that leaned on it");
    paragraph("",
              "Flows in L/min at the conditions of the readings; drift in percent; volumes in L at the conditions of "
              "sampling, with their expanded uncertainty (95 %). Shaded: the verdict is another one than before. A "
              "sample may lean on the calibrator "
              "before (pre), during (field) or after sampling (post).");
    const std::string span = has_linear_ ? "3" : "2";
    out_ += "<table><thead><tr><th rowspan=\"2\">Sample</th><th rowspan=\"2\">Leans on it</th>";
    for (const std::string_view figure : {"Flow", "Drift %", "Volume", "Verdict"}) {
      out_ += "<th class=\"first\" colspan=\"" + span + "\">" + std::string(figure) + "</th>";
    }
    out_ += "</tr><tr>";
    for (int figure = 0; figure < 4; ++figure) {
      const std::string right = figure < 3 ? " n" : "";
      out_ += "<th class=\"first" + right + "\">before</th><th class=\"" + right + "\">sudden</th>";
      if (has_linear_) out_ += "<th class=\"" + right + "\">linear</th>";
    }
    out_ += "</tr></thead><tbody>\n";
    for (const LookedBackSample& looked : lookback_.samples) sample(looked);
    out_ += "</tbody></table>\n";
  }

  void sample(const LookedBackSample& looked) {
    out_ += "<tr><td>" + sample_name(looked) + "</td><td>" + html_of(leans_text(book_, lookback_, looked)) + "</td>";
    figures(looked, [](const JudgedSample& j) { return with_decimals(j.flow_l_min, 3); });
    figures(looked, [](const JudgedSample& j) { return drift_text(j); });
    figures(looked, [](const JudgedSample& j) { return volume_cell(j); });
    out_ += verdict_cell(looked.before, false, " first");
    for (const Supposition supposition : suppositions) {
      const JudgedSample* judged = under(looked, supposition);
      if (judged != nullptr) out_ += verdict_cell(*judged, judged->verdict != looked.before.verdict, "");
    }
    out_ += "</tr>\n";
  }

  // The volume, and what belongs beside it.
  static std::string volume_cell(const JudgedSample& judged) {
    std::string cell = with_significant_digits(judged.volume_l, 4);
    if (!is_missing(judged.volume_expanded_l)) cell += " ± " + with_significant_digits(judged.volume_expanded_l, 2);
    for (const std::string& remark : judged.volume_remarks) cell += "<br><small>" + html_of(remark) + "</small>";
    return cell;
  }

  template <class TextOf>
  void figures(const LookedBackSample& looked, TextOf text_of) {
    out_ += "<td class=\"n first\">" + text_of(looked.before) + "</td>";
    for (const Supposition supposition : suppositions) {
      const JudgedSample* judged = under(looked, supposition);
      if (judged != nullptr) out_ += "<td class=\"n\">" + text_of(*judged) + "</td>";
    }
  }

  void bearings() {
    heading("What moves");
    out_ += "<ul>\n";
    for (const Bearing bearing : {Bearing::on_the_volume, Bearing::on_drift_too, Bearing::on_checks_only}) {
      std::string names;
      for (const LookedBackSample& looked : lookback_.samples) {
        if (looked.bearing == bearing) names += (names.empty() ? "" : ", ") + sample_name(looked);
      }
      if (!names.empty()) out_ += "<li>" + html_of(bearing_sentence(bearing)) + "<br>" + names + "</li>\n";
    }
    out_ += "</ul>\n";
  }

  void method() {
    heading("How it was reckoned");
    paragraph("",
              "Nobody knows when the calibrator went wrong, so everything read with it in the window was worked out "
              "and judged again under " +
                  std::string(has_linear_ ? "two suppositions" : "one supposition") +
                  ", by the same steps and rules as before; only the calibrator's error is another. The truth may "
                  "also lie elsewhere.");
    out_ += "<dl>\n";
    for (const Supposition supposition : suppositions) {
      if (supposition == Supposition::sudden || has_linear_)
        fact(to_text(supposition), html_of(supposition_sentence(supposition)));
    }
    out_ += "</dl>\n";
    if (!lookback_.leaning.empty()) {
      paragraph("",
                "Where the calibrator was the standard of another certificate, each true flow of that certificate "
                "was multiplied by (1 + stated error) / (1 + supposed error) of the standard on that day.");
    }
    paragraph("", html_of("Decision rule: " + decision_rule_text(screening_) + "."));
    std::string packs;
    for (const Pack& pack : screening_.rules().packs) {
      packs += (packs.empty() ? "" : ", ") + isolated(pack.name) + " (" + isolated(pack.edition) + ")";
    }
    if (!packs.empty()) paragraph("", "Rule packs and their editions: " + packs + ".");
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
    out_ += "<dl>\n";
    for (const auto& [name, definition] : definitions) fact(name, html_of(definition));
    out_ += "</dl>\n";
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
    out_ += "<ul>\n";
    for (const std::string& remark : lookback_.remarks) out_ += "<li>" + html_of(remark) + ".</li>\n";
    out_ += "</ul>\n";
  }

  void append_cautions() {
    paragraph("cautions", std::string(cautions) +
                              " Whom to notify, and whether results that were issued are to be corrected, is for the "
                              "organisation to decide.");
  }

  const Screening& screening_;
  const Book& book_;
  const Lookback& lookback_;
  const LookbackWindow& window_;
  Day as_of_;
  std::string_view version_;
  bool has_linear_;
  std::string out_;
};

}  // namespace

std::string lookback_page(const Screening& screening, const Lookback& lookback, Day as_of, std::string_view version) {
  return LookbackPage(screening, lookback, as_of, version).text();
}

std::string lookback_page_of_nothing(const Book& book, Row instrument) {
  return page_head(book.instruments[instrument]) + "<p class=\"from\">" + isolated(book.settings.title) +
         ".</p>\n<p class=\"sum\">No certificate found it beyond its tolerance: there is nothing to look back "
         "on.</p>\n<p class=\"cautions\">" +
         std::string(cautions) + "</p>\n</body>\n</html>\n";
}

}  // namespace driftwarden
