// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "support/book_text.hpp"

namespace driftwarden::test {

// A book of one sample a day on P1 from 2026-09-01 on, read twice before and after, 0.002 L/min apart, by V1; the
// drifts are those given, in percent of 2 L/min.
inline BookText drifting_book(const std::vector<double>& drifts) {
  constexpr Day first = 20697;  // 2026-09-01
  BookText text;
  text.certificates = certificates_with_uncertainty;
  text.samples = "sample,pump,started,stopped,nominal [L/min]\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (std::size_t i = 0; i < drifts.size(); ++i) {
    const std::string day = date_text(first + static_cast<Day>(i));
    const std::string sample = "S" + std::to_string(i + 1);
    text.samples += sample + ",P1," + day + "T08:00," + day + "T16:00,2\n";
    const double after = 2 * (1 + drifts[i] / 100);
    const auto add = [&](const std::string& time, const std::string& stage, double flow) {
      text.readings += day + "T" + time + "," + stage + "," + sample + ",V1," + with_decimals(flow, 4) + "\n";
    };
    // input: two readings about the mean.
    add("07:30", "pre", 1.999), add("07:31", "pre", 2.001);
    add("16:10", "post", after - 0.001), add("16:11", "post", after + 0.001);
  }
  return text;
}

}  // namespace driftwarden::test
