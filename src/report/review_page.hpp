// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/review.hpp"

namespace driftwarden {

// A chart as it stands on the page: SVG ready to be put into HTML.
struct PageChart {
  Row instrument = no_row;
  std::string series;  // its name
  std::string svg;
};

// A file of the book as it was read.
struct InputFile {
  std::string name;
  std::size_t bytes = 0;
  std::string sha256;
};

// All that the page of a review is made of. The same parts give the same bytes.
struct ReviewPage {
  const Screening& screening;
  const Review& review;
  const std::vector<InstrumentHistory>& histories;  // of all instruments, in the book's order
  Day as_of = no_day;
  std::string version;
  std::vector<InputFile> inputs;
  std::vector<PageChart> charts;
  std::string chart_symbols;   // SVG that all charts refer to
  std::string chart_style;     // CSS: the colours of the charts
  std::string why_no_charts;   // "" where there are charts
  std::string calibrator_key;  // which mark is of which calibrator; may be empty
  std::string paper;           // CSS size of the sheet, "A4"; "" leaves it to the printer
};

// The page as one HTML file that asks nothing of the network: what needs action, batches, samples with their working,
// instruments, faults and remarks, what could not be judged, overrides and decisions, rules, provenance.
std::string review_html(const ReviewPage& page);

}  // namespace driftwarden
