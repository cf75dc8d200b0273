// SPDX-License-Identifier: MIT
#include "assessment/standard_index.hpp"

namespace driftwarden {

StandardIndex::StandardIndex(const Book& book) : book_(book) {
  for (Row row = 0; row < book.instruments.size(); ++row) instruments_.emplace(book.instruments[row].name, row);
  for (std::size_t i = 0; i < book.certificates.size(); ++i) {
    certificates_.emplace(book.certificates[i].name, static_cast<std::int32_t>(i));
  }
}

Standard StandardIndex::of(const Certificate& certificate, const CalibratorKnowledge& knowledge) const {
  if (certificate.standard.empty()) return {};
  if (const auto instrument = instruments_.find(certificate.standard); instrument != instruments_.end()) {
    const Row row = instrument->second;
    return {row, knowledge.certificate(row, certificate.calibrated)};
  }
  const auto named = certificates_.find(certificate.standard);
  if (named == certificates_.end()) return {};
  return {book_.certificates[static_cast<std::size_t>(named->second)].instrument, named->second};
}

}  // namespace driftwarden
