// SPDX-License-Identifier: MIT
#include "book/consignment.hpp"

#include <algorithm>
#include <set>

#include "book/file_name.hpp"

namespace driftwarden {
namespace {

bool is_of_all(const Settings::Consignment& said) { return said.batches.empty(); }

std::set<TextId> batches_of(const Book& book) {
  std::set<TextId> batches;
  for (Row row = 0; row < book.samples.size(); ++row) batches.insert(field(book.samples.batch, row, TextId{0}));
  return batches;
}

}  // namespace

Settings::Consignment consignment_of(const Settings& settings, const std::string& batch) {
  Settings::Consignment consignment;
  for (const Settings::Consignment& said : settings.consignments) {
    if (!is_of_all(said) && !fits_wildcards(said.batches, batch)) continue;
    if (!said.sender.empty()) consignment.sender = said.sender;
    if (!said.laboratory.empty()) consignment.laboratory = said.laboratory;
    if (!said.reference.empty()) consignment.reference = said.reference;
  }
  return consignment;
}

Diagnostics idle_consignments(const Book& book) {
  Diagnostics idle;
  if (std::ranges::all_of(book.settings.consignments, is_of_all)) return idle;
  const std::set<TextId> batches = batches_of(book);
  for (const Settings::Consignment& said : book.settings.consignments) {
    const auto fits = [&](TextId batch) { return fits_wildcards(said.batches, book.texts.text(batch)); };
    if (is_of_all(said) || std::any_of(batches.begin(), batches.end(), fits)) continue;
    idle.push_back(remark("settings/no-such-batch", said.place,
                          "no batch of the book is called " + in_quotes(said.batches),
                          "write its name as samples.csv has it, * for any letters"));
  }
  return idle;
}

}  // namespace driftwarden
