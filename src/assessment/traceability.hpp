// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "assessment/standard_index.hpp"

namespace driftwarden {

// An instrument that was relied on, and the certificate it was relied on by.
struct ChainLink {
  Row instrument = no_row;
  std::int32_t certificate = -1;  // -1: none
  Day relied_on = no_day;         // the day of the reading, or of the calibration made against it
  std::int32_t in_force = -1;     // the instrument's newest on that day: another one where a certificate was named
};

// Where the book's knowledge of a chain ends.
enum class ChainEnd : std::uint8_t {
  outside_the_book,   // the last certificate names a standard that is no instrument and no certificate of the book
  names_no_standard,  // the last certificate doesn't say what it was made against
  no_certificate,     // the last instrument had none in force
  ring                // the last certificate leans on one that is in the chain already
};

struct Chain {
  std::vector<ChainLink> links;  // the calibrator first, then its standard, and so on; each certificate once
  ChainEnd end = ChainEnd::no_certificate;
};

// From a calibrator on a day to its standard, the standard's standard, and on as far as the book goes.
Chain chain_of(const Book& book, const CalibratorKnowledge& knowledge, const StandardIndex& standards, Row calibrator,
               Day on);

// What a certificate leaves unsaid that whoever follows a chain wants to know.
struct CertificateLacks {
  std::size_t points_without_uncertainty = 0;
  bool coverage_factor = false;  // of a stated uncertainty
  bool issuer = false;
  bool standard = false;
};
CertificateLacks lacks_of(const Certificate& certificate);

// Whether a link leaves nothing to ask: a certificate that was in force, with issuer and uncertainty at each point; and
// the last one ends outside the book, where the book's knowledge properly ends.
bool is_sound(const ChainLink& link, const Chain& chain, const Book& book);

}  // namespace driftwarden
