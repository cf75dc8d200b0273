// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <unordered_map>

#include "book/table_files.hpp"

namespace driftwarden {

// What certificates are known by, over all files.
struct KnownCertificates {
  InstrumentIndex instruments;
  std::unordered_map<std::string, std::size_t> certificates;
};

// A certificate that can't be read may have been the one in force.
void doubt(Instrument& instrument, ProblemNumber problem);

// Makes a digital calibration certificate a certificate of the book: of the instrument whose serial number it names.
// Faults and remarks go to the book's problems: those of calibration_document and calibration_points, dcc/which-item,
// dcc/unknown-serial, dcc/no-principle, dcc/none-after, dcc/twice, dcc/implausible; what it was understood by, and what
// is not used.
void read_digital_certificate(const TableFile& file, const BookInHand& hand, KnownCertificates& known);

}  // namespace driftwarden
