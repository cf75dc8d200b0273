// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "report/field_sheet.hpp"

namespace driftwarden {

// What a form is made of: the samples of a batch, the calibrators they may be read with, the air around which tables of
// what those should show are made.
struct FormAsked {
  std::string batch;
  SamplesAhead ahead;
  AirAhead centre;
  std::vector<Row> calibrators;
  Day as_of = no_day;
};

// The calibrators that a book's pumps may be read with on a day: in service, with a certificate in force.
std::vector<Row> calibrators_in_use(const Screening& screening, Day on);

// One page that works without a network, in which the records of a batch are typed and which gives them as rows for
// `receive`, in the book's own headings and with the form's name. All figures and words that it compares with are
// worked out here: it looks them up.
std::string field_form(const Screening& screening, const FormAsked& asked, std::string_view version);

}  // namespace driftwarden
