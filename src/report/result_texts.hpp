// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/json_text.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// The member "results" of a sample in JSON: one object for each analyte, under the names of the CSV's columns. None of
// a sample of which the laboratory has found nothing yet.
void results_member(JsonText& json, const Screening& screening, const SampleResult& result);

// The same as CSV: one row a result of a sample or blank, in the book's order. A missing figure is an empty field.
std::string results_csv_headings(const Book& book);
void append_results_csv(std::string& out, const Screening& screening, const SampleResult& result);

}  // namespace driftwarden
