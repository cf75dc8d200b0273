// SPDX-License-Identifier: MIT
#include "command/example_rows.hpp"

#include <string_view>
#include <utility>
#include <vector>

namespace driftwarden {
namespace {

using Cells = std::vector<std::pair<std::string_view, std::string_view>>;  // column, text
struct ExampleRow {
  std::string_view table;
  Cells cells;
};

constexpr std::string_view example_note = "an example: delete this row";

ExampleRow reading(std::string_view taken, std::string_view stage, std::string_view flow) {
  return {"readings",
          {{"taken", taken},
           {"stage", stage},
           {"sample", "EXAMPLE-1"},
           {"calibrator", "EXAMPLE-CAL"},
           {"reading", flow},
           {"temperature", "20"},
           {"pressure", "101.3"},
           {"note", example_note}}};
}

// All invented.
const std::vector<ExampleRow>& all_rows() {
  static const std::vector<ExampleRow> rows{
      {"instruments", {{"instrument", "EXAMPLE-PUMP"}, {"kind", "pump"}, {"serial", "E-1"}, {"note", example_note}}},
      {"instruments",
       {{"instrument", "EXAMPLE-CAL"},
        {"kind", "calibrator"},
        {"principle", "volumetric"},
        {"serial", "E-2"},
        {"low", "0.1"},
        {"high", "5"},
        {"interval", "365"},
        {"note", example_note}}},
      {"instruments",
       {{"instrument", "EXAMPLE-STD"}, {"kind", "calibrator"}, {"principle", "volumetric"}, {"note", example_note}}},
      {"certificates",
       {{"certificate", "EXAMPLE-2026"},
        {"instrument", "EXAMPLE-CAL"},
        {"calibrated", "2026-01-05"},
        {"issuer", example_note},
        {"standard", "the issuer's standard"},
        {"nominal", "2"},
        {"reference", "2.004"},
        {"as left", "2.006"},
        {"expanded uncertainty", "0.3"},
        {"coverage factor", "2"}}},
      {"samples",
       {{"sample", "EXAMPLE-1"},
        {"batch", "EXAMPLE"},
        {"kind", "sample"},
        {"pump", "EXAMPLE-PUMP"},
        {"nominal", "2"},
        {"started", "2026-02-03T08:00"},
        {"stopped", "2026-02-03T16:00"},
        {"temperature", "20"},
        {"pressure", "101.3"},
        {"note", example_note}}},
      reading("2026-02-03T07:50", "pre", "2.004"),
      reading("2026-02-03T07:51", "pre", "2.006"),
      reading("2026-02-03T07:52", "pre", "2.007"),
      reading("2026-02-03T16:10", "post", "1.975"),
      reading("2026-02-03T16:11", "post", "1.976"),
      reading("2026-02-03T16:12", "post", "1.978"),
      {"decisions",
       {{"decided", "2026-02-04T09:00"},
        {"by", example_note},
        {"subject", "EXAMPLE-1"},
        {"rule", "common-practice/post-reading"},
        {"ruling", "uphold"},
        {"reason", "both readings were seen on the display"}}},
      {"actions",
       {{"written", "2026-02-04T09:05"},
        {"by", example_note},
        {"action", "Watch"},
        {"about", "instrument"},
        {"name", "EXAMPLE-PUMP"},
        {"done", "yes"}}},
      {"service",
       {{"serviced", "2026-01-20T10:00"},
        {"instrument", "EXAMPLE-PUMP"},
        {"what", "new valve"},
        {"note", example_note}}},
      {"checks",
       {{"checked", "2026-02-02T08:00"},
        {"instrument", "EXAMPLE-CAL"},
        {"against", "EXAMPLE-STD"},
        {"shown", "2.003"},
        {"reference", "2.001"},
        {"note", example_note}}}};
  return rows;
}

std::string cell_of(const Cells& cells, std::string_view column) {
  for (const auto& [name, text] : cells) {
    if (name == column) return std::string(text);
  }
  return {};
}

}  // namespace

std::string example_rows(const TableSpec& spec) {
  std::string text;
  for (const ExampleRow& row : all_rows()) {
    if (row.table != spec.table) continue;
    std::string line;
    for (const FieldSpec& field : spec.fields) line += (field.number == 0 ? "" : ",") + cell_of(row.cells, field.name);
    text += line + '\n';
  }
  return text;
}

}  // namespace driftwarden
