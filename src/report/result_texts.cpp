// SPDX-License-Identifier: MIT
#include "report/result_texts.hpp"

#include <algorithm>
#include <array>
#include <variant>
#include <vector>

#include "book/stamp_text.hpp"
#include "report/csv_text.hpp"
#include "report/result_working.hpp"

namespace driftwarden {
namespace {

struct Told {
  const Screening& screening;
  const SampleResult& sample;
  const ResultFigures& figures;

  const Book& book() const { return screening.book(); }
  const LaboratoryResult& result() const { return book().results[figures.result]; }
  const BatchBlanks& blanks() const { return *figures.blanks; }
  bool is_sample() const { return sample.figures->kind == SampleKind::sample; }
};

// A figure, a word or a yes. A missing figure and an empty text are null in JSON and nothing in CSV.
using Value = std::variant<double, std::string, bool>;

struct Member {
  std::string_view name;
  Value (*value)(const Told& told);
};

Value unit(const Told& t) { return std::string(t.result().is_of_fibres ? "fibres" : "mg"); }
Value concentration_unit(const Told& t) { return std::string(t.result().is_of_fibres ? "fibres/cm3" : "mg/m3"); }
Value conditions(const Told& t) { return std::string(to_text(t.screening.basis().practice.concentration_volume)); }
Value blank_count(const Told& t) {
  return t.is_sample() ? Value(static_cast<double>(t.blanks().results.size())) : Value(missing);
}
double of_blanks(const Told& t, double figure) { return t.is_sample() ? figure : missing; }
// Of a row that can't be understood nobody knows.
Value less_than(const Told& t) {
  return t.result().problem == no_problem ? Value(t.figures.is_less_than) : Value(std::string());
}
Value reported(const Told& t) { return t.result().reported == no_day ? std::string() : date_text(t.result().reported); }
Value at(const Told& t) { return t.book().place_text(t.book().files.results, t.result().place); }

constexpr std::array members{
    Member{"analyte", [](const Told& t) { return Value(t.result().analyte); }},
    Member{"unit", unit},
    Member{"found", [](const Told& t) { return Value(t.result().found); }},
    Member{"found_expanded", [](const Told& t) { return Value(t.figures.of_found.expanded); }},
    Member{"limit", [](const Told& t) { return Value(t.result().limit); }},
    Member{"less_than", less_than},
    Member{"blanks", blank_count},
    Member{"blank_mean", [](const Told& t) { return Value(of_blanks(t, t.blanks().amounts.mean)); }},
    Member{"blank_sd", [](const Told& t) { return Value(of_blanks(t, t.blanks().amounts.s)); }},
    Member{"net", [](const Told& t) { return Value(t.figures.net); }},
    Member{"net_expanded", [](const Told& t) { return Value(t.figures.of_net.expanded); }},
    Member{"volume_l", [](const Told& t) { return Value(t.figures.volume_l); }},
    Member{"volume_at", conditions},
    Member{"concentration", [](const Told& t) { return Value(t.figures.concentration); }},
    Member{"concentration_unit", concentration_unit},
    Member{"concentration_expanded", [](const Told& t) { return Value(t.figures.of_concentration.expanded); }},
    Member{"concentration_by_measured_volume", [](const Told& t) { return Value(t.figures.by_measured_volume); }},
    Member{"concentration_by_nominal_flow", [](const Told& t) { return Value(t.figures.by_nominal_flow); }},
    Member{"stands", [](const Told& t) { return Value(t.is_sample() && stands(t.sample)); }},
    Member{"laboratory", [](const Told& t) { return Value(t.result().laboratory); }},
    Member{"reported", reported},
    Member{"qualifier", [](const Told& t) { return Value(t.result().qualifier); }},
    Member{"at", at},
};

double of_controls(const Told& t, double figure) { return t.is_sample() ? figure : missing; }
Value balance(const Told& t) { return t.figures.weighing.balance == no_row ? std::string() : t.result().balance; }
Value certificate(const Told& t, std::int32_t number) {
  return number < 0 ? std::string() : t.book().certificates[static_cast<std::size_t>(number)].name;
}
Value day(Day day) { return day == no_day ? std::string() : date_text(day); }
Value control_count(const Told& t) {
  return t.is_sample() ? Value(static_cast<double>(t.figures.controls->filters.size())) : Value(missing);
}

// Of the weighing room; only of books that have balances or control filters.
constexpr std::array members_of_weighing{
    Member{"balance", balance},
    Member{"weighed_before", [](const Told& t) { return day(t.figures.weighing.before.day); }},
    Member{"weighed_after", [](const Told& t) { return day(t.figures.weighing.after.day); }},
    Member{"certificate_before", [](const Told& t) { return certificate(t, t.figures.weighing.before.certificate); }},
    Member{"certificate_after", [](const Told& t) { return certificate(t, t.figures.weighing.after.certificate); }},
    Member{"balance_overdue_d", [](const Told& t) { return Value(t.figures.overdue_min / minutes_a_day); }},
    Member{"controls", control_count},
    Member{"control_mean", [](const Told& t) { return Value(of_controls(t, t.figures.controls->changes.mean)); }},
    Member{"control_sd", [](const Told& t) { return Value(of_controls(t, t.figures.controls->changes.s)); }},
};

bool tells_of_weighing(const Book& book) {
  return !book.controls.empty() ||
         std::ranges::any_of(book.results, [](const LaboratoryResult& it) { return it.weighed_on != no_row; });
}

// All that is told of a book's results, in order.
std::vector<Member> members_of(const Book& book) {
  std::vector<Member> all(members.begin(), members.end());
  if (tells_of_weighing(book)) all.insert(all.end(), members_of_weighing.begin(), members_of_weighing.end());
  return all;
}

void append_value(JsonText& json, const Value& value) {
  if (const auto* text = std::get_if<std::string>(&value)) {
    if (text->empty()) {
      json.null();
    } else {
      json.value(*text);
    }
  } else if (const auto* figure = std::get_if<double>(&value)) {
    json.value(*figure);
  } else {
    json.value(std::get<bool>(value));
  }
}

void append_value(std::string& out, const Value& value) {
  if (const auto* text = std::get_if<std::string>(&value)) {
    append_csv(out, *text);
  } else if (const auto* figure = std::get_if<double>(&value)) {
    append_figure(out, *figure);
  } else {
    out += std::get<bool>(value) ? "yes" : "no";
  }
}

}  // namespace

void results_member(JsonText& json, const Screening& screening, const SampleResult& result) {
  if (result.results.empty()) return;
  const std::vector<Member> all = members_of(screening.book());
  json.key("results").begin_array();
  for (const ResultFigures& figures : result.results) {
    json.begin_object();
    for (const Member& member : all) {
      json.key(member.name);
      append_value(json, member.value({screening, result, figures}));
    }
    json.end_object();
  }
  json.end_array();
}

std::string results_csv_headings(const Book& book) {
  std::string line = "sample,batch,kind,verdict";
  for (const Member& member : members_of(book)) line += ',' + std::string(member.name);
  return line + '\n';
}

void append_results_csv(std::string& out, const Screening& screening, const SampleResult& result) {
  const Book& book = screening.book();
  const Row row = result.figures->sample;
  const std::vector<Member> all = members_of(book);
  for (const ResultFigures& figures : result.results) {
    append_csv(out, book.samples.name[row]);
    out += ',';
    append_csv(out, book.texts.text(field(book.samples.batch, row, TextId{0})));
    out += ',' + std::string(to_text(result.figures->kind)) + ',' + std::string(to_text(result.verdict));
    for (const Member& member : all) {
      out += ',';
      append_value(out, member.value({screening, result, figures}));
    }
    out += '\n';
  }
}

}  // namespace driftwarden
