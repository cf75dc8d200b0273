// SPDX-License-Identifier: MIT
#include "command/opened_book.hpp"
#include "command/output.hpp"
#include "report/risk_texts.hpp"

namespace driftwarden {

int run_risk(const RiskOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format = format_meant(options.format, options.out, {"table", "json"}, surroundings);
  if (!format) return cannot_be_used;
  const FleetRisk risk = fleet_risk(*opened->screening, opened->as_of, options.trial);
  const ToldRisk told{*opened->screening, risk, surroundings.version, opened->as_of};
  const Paint paint(options.out.empty() && surroundings.out_is_terminal);
  const std::string text = *format == "json" ? risk_json(told) : risk_table(told, paint);
  if (!write_out(text, *format, options.out, surroundings)) return cannot_be_used;
  return opened->has_faults() ? cannot_be_used : all_is_well;
}

}  // namespace driftwarden
