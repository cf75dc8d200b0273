// SPDX-License-Identifier: MIT
#include "report/lookback_csv.hpp"

#include "diagnostic/joined.hpp"
#include "report/csv_text.hpp"
#include "report/lookback_words.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view figures_of_each[] = {"flow_l_min",         "drift_percent", "volume_l",
                                                "volume_reference_l", "verdict",       "findings"};

void append_block(std::string& out, const JudgedSample* judged) {
  if (judged == nullptr) {
    out.append(std::size(figures_of_each), ',');
    return;
  }
  for (const double figure : {judged->flow_l_min, 100 * judged->drift, judged->volume_l, judged->volume_reference_l}) {
    out += ',';
    append_figure(out, figure);
  }
  (out += ',') += to_text(judged->verdict);
  out += ',';
  append_csv(out, joined(judged->findings, ";", &ToldFinding::rule));
}

constexpr std::string_view known_of_each[] = {"volume_expanded_uncertainty_l", "measured_volume_l",
                                              "measured_volume_expanded_uncertainty_l"};

void append_known(std::string& out, const JudgedSample* judged) {
  const JudgedSample& of = judged == nullptr ? JudgedSample{} : *judged;
  for (const double figure : {of.volume_expanded_l, of.measured_volume_l, of.measured_expanded_l}) {
    out += ',';
    append_figure(out, figure);
  }
}

}  // namespace

std::string lookback_csv_headings() {
  std::string line = "sample,batch,pump,leans,bearing,changes";
  for (const std::string_view block : {"before", "sudden", "linear"}) {
    for (const std::string_view figure : figures_of_each) ((line += ',') += block) += "_" + std::string(figure);
  }
  for (const std::string_view block : {"before", "sudden", "linear"}) {
    for (const std::string_view figure : known_of_each) ((line += ',') += block) += "_" + std::string(figure);
  }
  return line + ",change,had_by\n";
}

std::string lookback_csv(const Screening& screening, const Lookback& lookback) {
  const Book& book = screening.book();
  std::string out = lookback_csv_headings();
  for (const LookedBackSample& looked : lookback.samples) {
    const Row pump = book.samples.pump[looked.sample];
    append_csv(out, book.samples.name[looked.sample]);
    out += ',';
    append_csv(out, batch_of(book, looked.sample));
    out += ',';
    append_csv(out, pump == no_row ? std::string_view() : book.instruments[pump].name);
    out += ',';
    append_csv(out, leans_text(book, lookback, looked, ";"));
    (out += ',') += bearing_word(looked.bearing);
    out += looked.verdict_changes() ? ",yes" : ",no";
    append_block(out, &looked.before);
    append_block(out, &looked.sudden);
    append_block(out, looked.linear ? &*looked.linear : nullptr);
    append_known(out, &looked.before);
    append_known(out, &looked.sudden);
    append_known(out, looked.linear ? &*looked.linear : nullptr);
    (out += ',') += change_word(looked.change());
    out += ',';
    append_csv(out, joined(looked.had_by, ";"));
    out += '\n';
  }
  return out;
}

}  // namespace driftwarden
