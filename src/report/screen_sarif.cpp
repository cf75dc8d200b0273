// SPDX-License-Identifier: MIT
#include "report/screen_sarif.hpp"

#include <vector>

#include "diagnostic/hexadecimal.hpp"
#include "report/json_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/message.hpp"

namespace driftwarden {
namespace {

std::string_view level_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::void_:
      return "error";
    case Outcome::undecided:
    case Outcome::qualified:
      return "warning";
    case Outcome::note:
      return "note";
    case Outcome::met:
    case Outcome::skipped:
      break;
  }
  return "none";
}

// A text as a SARIF message (3.11.5, 3.11.6): braces would be placeholders, brackets links.
std::string message_text(std::string_view text) {
  std::string escaped;
  for (const char c : text) {
    if (c == '{' || c == '}') escaped += c;
    if (c == '[' || c == ']' || c == '\\') escaped += '\\';
    escaped += c;
  }
  return escaped;
}

void text_member(JsonText& json, std::string_view name, std::string_view text) {
  json.key(name).begin_object().member("text", text).end_object();
}

void logical_location(JsonText& json, std::string_view name, std::string_view kind) {
  json.begin_object().member("name", name).member("kind", kind).end_object();
}

// A workbook has no lines that a region could name: a cell of a sheet is told by its name, "week 46!C12".
void location(JsonText& json, const Place& place, std::string_view sample) {
  const auto [file, sheet] = split_sheet(place.file);
  json.begin_object().key("physicalLocation").begin_object().key("artifactLocation").begin_object();
  json.member("uri", percent_encoded(file)).member("uriBaseId", "BOOK").end_object();
  if (place.line > 0 && sheet.empty()) {
    json.key("region").begin_object().member("startLine", std::size_t{place.line});
    if (place.column > 0) json.member("startColumn", std::size_t{place.column});
    json.end_object();
  }
  json.end_object();
  if (!sample.empty() || !sheet.empty()) {
    json.key("logicalLocations").begin_array();
    if (!sample.empty()) logical_location(json, sample, "sample");
    if (!sheet.empty()) logical_location(json, place_in_workbook(place), place.column > 0 ? "cell" : "row");
    json.end_array();
  }
  json.end_object();
}

void suppression(JsonText& json, const Book& book, const Finding& finding) {
  if (!is_overruled(finding)) return;
  json.key("suppressions").begin_array().begin_object().member("kind", "external").member("status", "accepted");
  json.member("justification", decision_text(book, *finding.decision)).end_object().end_array();
}

void rule_descriptor(JsonText& json, const Rule& rule) {
  json.begin_object().member("id", rule.full_name());
  text_member(json, "shortDescription", message_text(std::string(measure_of(rule).name) + " " + rule.limit.text));
  text_member(json, "fullDescription", message_text(rule.reason));
  text_member(json, "help", message_text("Source: " + rule.source));
  json.key("defaultConfiguration").begin_object().member("level", level_of(outcome_of(rule.otherwise)));
  json.end_object().end_object();
}

}  // namespace

std::string sarif_head(const Screening& screening, std::string_view version) {
  std::string out;
  JsonText json(out);
  json.begin_object().member("$schema",
                             "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json");
  json.member("version", "2.1.0").key("runs").begin_array().begin_object();
  json.key("tool").begin_object().key("driver").begin_object().member("name", "driftwarden").member("version", version);
  json.key("rules").begin_array();
  for (const Rule& rule : screening.rules().rules) rule_descriptor(json, rule);
  json.begin_object().member("id", faulty_records_name);
  text_member(json, "shortDescription", "a record that a sample leans on can't be understood");
  json.end_object().end_array().end_object().end_object();
  json.member("columnKind", "unicodeCodePoints").key("originalUriBaseIds").begin_object().key("BOOK").begin_object();
  text_member(json, "description", "the folder of the book");
  json.end_object().end_object();
  return out + ",\n\"results\":[";
}

void append_sarif(std::string& out, const Screening& screening, const SampleResult& result) {
  const Book& book = screening.book();
  const std::string_view sample = book.samples.name[result.figures->sample];
  for (const Finding& finding : result.findings) {
    out += ",\n";
    JsonText json(out);
    json.begin_object().member("ruleId", rule_name(screening, finding));
    const bool is_rule = finding.rule != Finding::faulty_records;
    json.member("ruleIndex", is_rule ? std::size_t{finding.rule} : screening.rules().rules.size());
    json.member("level", level_of(finding.judgement.outcome));
    text_member(json, "message", message_text(std::string(sample) + ": " + message_of(screening, result, finding)));
    const std::vector<Place> at = places_of(screening, result, finding);
    json.key("locations").begin_array();
    location(json, at.front(), sample);
    json.end_array().key("relatedLocations").begin_array();
    for (std::size_t i = 1; i < at.size(); ++i) location(json, at[i], "");
    json.end_array();
    suppression(json, book, finding);
    json.key("properties").begin_object().member("sample", sample);
    json.member("outcome", to_text(finding.judgement.outcome));
    json.member("verdict", to_text(result.verdict)).member("standing", to_text(result.standing));
    if (is_rule) {
      const Rule& rule = screening.rules().rules[finding.rule];
      json.member("measure", measure_of(rule).name).member("limit", rule.limit.text);
    }
    json.end_object().end_object();
  }
}

void append_sarif(std::string& out, const Diagnostic& problem) {
  out += ",\n";
  JsonText json(out);
  json.begin_object().member("ruleId", problem.id);
  json.member("level", is_error(problem) ? "error" : "note");
  const std::string text = problem.message + (problem.hint.empty() ? "" : "; " + problem.hint);
  text_member(json, "message", message_text(text));
  json.key("locations").begin_array();
  location(json, problem.place, "");
  json.end_array().end_object();
}

std::string sarif_tail() {
  std::string properties;
  JsonText(properties).begin_object().member("cautions", cautions).end_object();
  return "\n],\n\"properties\":" + properties + "}]}\n";
}

}  // namespace driftwarden
