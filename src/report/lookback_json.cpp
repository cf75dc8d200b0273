// SPDX-License-Identifier: MIT
#include "report/lookback_json.hpp"

#include "book/stamp_text.hpp"
#include "report/json_text.hpp"
#include "report/lookback_words.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

std::string_view certificate_name(const Book& book, std::int32_t certificate) {
  return certificate < 0 ? std::string_view() : book.certificates[static_cast<std::size_t>(certificate)].name;
}

void block(JsonText& json, std::string_view name, const JudgedSample* judged) {
  json.key(name);
  if (judged == nullptr) {
    json.null();
    return;
  }
  json.begin_object();
  json.member("flow_l_min", judged->flow_l_min).member("drift_percent", 100 * judged->drift);
  json.member("volume_l", judged->volume_l).member("volume_reference_l", judged->volume_reference_l);
  json.member("verdict", to_text(judged->verdict)).key("findings").begin_array();
  for (const ToldFinding& finding : judged->findings) {
    json.begin_object().member("rule", finding.rule).member("outcome", to_text(finding.outcome));
    json.member("message", finding.message).end_object();
  }
  json.end_array().member("volume_expanded_uncertainty_l", judged->volume_expanded_l);
  json.member("measured_volume_l", judged->measured_volume_l);
  json.member("measured_volume_expanded_uncertainty_l", judged->measured_expanded_l).end_object();
}

void sample(JsonText& json, const Book& book, const Lookback& lookback, const LookedBackSample& looked) {
  const Row pump = book.samples.pump[looked.sample];
  json.begin_object().member("sample", book.samples.name[looked.sample]);
  json.text_or_null("batch", batch_of(book, looked.sample));
  json.text_or_null("pump", pump == no_row ? std::string_view() : book.instruments[pump].name);
  json.key("leans").begin_array();
  for (const LeaningSet& set : looked.sets) {
    json.begin_object().member("stage", to_text(set.stage));
    json.member("calibrator", book.instruments[set.calibrator].name);
    json.text_or_null("certificate", certificate_name(book, set.certificate));
    json.member("through_another", set.calibrator != lookback.window.instrument).end_object();
  }
  json.end_array().member("bearing", bearing_word(looked.bearing));
  block(json, "before", &looked.before);
  block(json, "sudden", &looked.sudden);
  block(json, "linear", looked.linear ? &*looked.linear : nullptr);
  json.member("changes", looked.verdict_changes());
  json.member("at", book.place_text(book.files.samples, book.samples.place[looked.sample]));
  json.member("change", change_word(looked.change()));
  json.texts("had_by", looked.had_by);
  json.end_object();
}

void through(JsonText& json, const Book& book, const Lookback& lookback) {
  json.key("through").begin_array();
  for (const LeaningCertificate& each : lookback.leaning) {
    const Certificate& certificate = book.certificates[static_cast<std::size_t>(each.certificate)];
    json.begin_object().member("certificate", certificate.name);
    json.member("instrument", book.instruments[certificate.instrument].name);
    json.member("standard", book.instruments[each.standard.instrument].name);
    json.text_or_null("standard_certificate", certificate_name(book, each.standard.certificate));
    json.end_object();
  }
  json.end_array();
}

}  // namespace

std::string lookback_json(const Screening& screening, const Lookback& lookback) {
  const Book& book = screening.book();
  const LookbackWindow& window = lookback.window;
  std::string out;
  JsonText json(out);
  json.begin_object().member("instrument", book.instruments[window.instrument].name);
  json.member("certificate", certificate_name(book, window.found)).key("window").begin_object();
  json.text_or_null("from", date_text_or(window.from, ""));
  json.member("to", date_text(window.until)).end_object();
  json.text_or_null("last_good_certificate", certificate_name(book, window.last_good));
  json.member("as_found_error_percent", window.as_found_percent);
  json.key("tolerance_percent").begin_array().value(window.tolerance.lower).value(window.tolerance.upper).end_array();
  json.text_or_null("tolerance_source", window.tolerance.source);
  through(json, book, lookback);
  json.key("samples").begin_array();
  for (const LookedBackSample& looked : lookback.samples) {
    out += '\n';
    sample(json, book, lookback, looked);
  }
  json.end_array();
  json.texts("remarks", lookback.remarks);
  json.texts("had_by", lookback.holders);
  json.member("as_found_expanded_uncertainty_percent", window.as_found_expanded_percent);
  json.member("cautions", cautions).end_object();
  return out + '\n';
}

std::string lookback_json_of_nothing(const Book& book, Row instrument) {
  std::string out;
  JsonText json(out);
  json.begin_object().member("instrument", book.instruments[instrument].name).key("certificate").null();
  json.key("window").null().key("samples").begin_array().end_array().member("cautions", cautions).end_object();
  return out + '\n';
}

}  // namespace driftwarden
