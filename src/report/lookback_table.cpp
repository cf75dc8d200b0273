// SPDX-License-Identifier: MIT
#include "report/lookback_table.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/lookback_words.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t label_width = 11;
constexpr std::size_t least_name_width = 6;
constexpr std::size_t most_name_width = 16;

class LookbackTable {
 public:
  LookbackTable(const Screening& screening, const Lookback& lookback, Paint paint)
      : screening_(screening), book_(screening.book()), lookback_(lookback), paint_(paint) {
    for (const LookedBackSample& looked : lookback.samples) {
      name_width_ = std::max(name_width_, characters_in(book_.samples.name[looked.sample]));
    }
    name_width_ = std::min(name_width_, most_name_width);
  }

  std::string text() {
    head();
    if (!lookback_.samples.empty()) samples();
    bearings();
    remarks();
    out_ += "\n" + wrapped(summary_text(lookback_), 0, table_width) + "\n" +
            wrapped(verdict_key_text(KeyOf::verdicts_and_findings), 0, table_width) + "\n" +
            wrapped(cautions, 0, table_width);
    return std::move(out_);
  }

 private:
  const Certificate& certificate(std::int32_t place) const {
    return book_.certificates[static_cast<std::size_t>(place)];
  }
  std::string place_of(const Certificate& certificate) const {
    return " [" + book_.place_text(book_.files.certificates, certificate.place) + "]";
  }

  // A label, and a text that goes on below itself.
  void labelled(std::string_view label, std::string_view text) {
    std::string lines = wrapped(text, label_width, table_width);
    out_ += left(label, label_width) + lines.substr(label_width);
  }

  void head() {
    const LookbackWindow& window = lookback_.window;
    const Instrument& instrument = book_.instruments[window.instrument];
    out_ += paint_.heading("Look-back of " + instrument.name) + "\n" + book_.settings.title + "\n\n";
    const Certificate& found = certificate(window.found);
    labelled("found",
             found.name + ": " + as_found_text(window) + " as found; tolerance " + tolerance_text(window.tolerance) +
                 (window.tolerance.source.empty() ? "" : " (" + window.tolerance.source + ")") + place_of(found));
    if (window.last_good >= 0) {
      const Certificate& good = certificate(window.last_good);
      labelled("last good", good.name + ": " + as_left_text(good) + place_of(good));
    } else {
      labelled("last good", "none in the book");
    }
    labelled("window", "from " + date_text_or(window.from, "the first record") + " to before " +
                           date_text(window.until) + days_text(window));
    for (const LeaningCertificate& each : lookback_.leaning) labelled("through", leaning_text(book_, each));
    for (const std::string& holder : lookback_.holders) labelled("had by", holder);
    labelled("sudden", supposition_sentence(Supposition::sudden));
    if (window.last_good >= 0) labelled("linear", supposition_sentence(Supposition::linear));
    labelled("", "Nobody knows which; the truth may also lie elsewhere.");
  }

  static std::string days_text(const LookbackWindow& window) {
    return window.from == no_day ? "" : " (" + std::to_string(window.until - window.from) + " days)";
  }

  void samples() {
    out_ += "\n" + wrapped(
                       "Flows in L/min, actual; volumes in L: actual, with their expanded uncertainty U "
                       "(95 %), and at the book's reference conditions (ref.). Decision rule: " +
                           decision_rule_text(screening_) + ".",
                       0, table_width);
    out_ += "\n" +
            paint_.heading(left("sample", name_width_) + "           flow  drift %   volume     U     ref.  verdict") +
            "\n";
    for (const Change change : all_changes) group(change, samples_with(lookback_, change));
  }

  void group(Change change, const std::vector<const LookedBackSample*>& samples) {
    if (samples.empty()) return;
    out_ += "\n" +
            paint_.heading(std::string(change_heading(change)) + ": " + counted(samples.size(), "sample", "samples")) +
            "\n";
    const LookedBackSample* previous = nullptr;
    for (const LookedBackSample* looked : samples) sample(*looked, std::exchange(previous, looked));
  }

  void sample(const LookedBackSample& looked, const LookedBackSample* previous) {
    const std::string batch = batch_of(book_, looked.sample);
    if (previous == nullptr || batch_of(book_, previous->sample) != batch) {
      out_ +=
          (previous == nullptr ? "" : "\n") + paint_.faint(batch.empty() ? "without a batch" : "batch " + batch) + "\n";
    }
    line(book_.samples.name[looked.sample], "before", looked.before, false);
    if (!looked.had_by.empty()) note("had by: " + joined(looked.had_by, "; "));
    under("sudden", looked, looked.sudden);
    if (looked.linear) under("linear", looked, *looked.linear);
  }

  void line(std::string_view name, std::string_view label, const JudgedSample& judged, bool changes) {
    out_ += left(name, name_width_) + " " + left(label, 6) + " " + right(with_decimals(judged.flow_l_min, 3), 7) + " " +
            right(drift_text(judged), 8) + " " + right(with_significant_digits(judged.volume_l, 4), 8) + " " +
            right(with_significant_digits(judged.volume_expanded_l, 2), 5) + " " +
            right(with_significant_digits(judged.volume_reference_l, 4), 8) + "  " +
            paint_.verdict(judged.verdict, to_text(judged.verdict)) + (changes ? "  <- changes" : "") + "\n";
    for (const std::string& remark : judged.volume_remarks) note("remark: " + remark);
  }

  void under(std::string_view label, const LookedBackSample& looked, const JudgedSample& judged) {
    line("", label, judged, judged.verdict != looked.before.verdict);
    for (const ToldFinding* finding : findings_only_in(judged, looked.before)) {
      note("+ " + std::string(to_text(finding->outcome)) + ": " + finding->message + " (" + finding->rule + ")");
    }
    for (const ToldFinding* finding : findings_only_in(looked.before, judged)) {
      note("- no longer " + std::string(to_text(finding->outcome)) + " by " + finding->rule);
    }
  }

  void note(const std::string& text) { out_ += wrapped(text, name_width_ + 3, table_width); }

  void bearings() {
    for (const Bearing bearing : all_bearings) {
      std::string names;
      for (const LookedBackSample& looked : lookback_.samples) {
        if (looked.bearing != bearing) continue;
        if (!names.empty()) names += ", ";
        names += std::string(book_.samples.name[looked.sample]) + through_text(looked);
      }
      if (names.empty()) continue;
      out_ += "\n" + wrapped(bearing_sentence(bearing), 0, table_width) + wrapped(names, 2, table_width);
    }
  }

  // Which sets lean on it, where that is not simply both.
  std::string through_text(const LookedBackSample& looked) const {
    const std::string text = leans_text(book_, lookback_, looked);
    return text == "pre, post" ? "" : " (" + text + ")";
  }

  void remarks() {
    if (lookback_.remarks.empty()) return;
    out_ += "\n" + paint_.heading("Remarks") + "\n";
    for (const std::string& remark : lookback_.remarks) out_ += wrapped("- " + remark + ".", 0, table_width);
  }

  const Screening& screening_;
  const Book& book_;
  const Lookback& lookback_;
  Paint paint_;
  std::size_t name_width_ = least_name_width;
  std::string out_;
};

}  // namespace

std::string lookback_table(const Screening& screening, const Lookback& lookback, Paint paint) {
  return LookbackTable(screening, lookback, paint).text();
}

}  // namespace driftwarden
