// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "quantity/number.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

// P1 in a use a day from 2026-09-01 on, U1 and on, each with one reading of V1 before and after two hours that lie so
// far apart, relative to their mean of 2 L/min. Invented.
inline BookText with_uses(const std::vector<double>& drifts) {
  BookText text;
  text.samples = "sample,pump,started,stopped,fault\n";
  text.readings = "taken,stage,sample,pump,calibrator,reading [L/min]\n";
  for (std::size_t i = 0; i < drifts.size(); ++i) {
    const std::string name = "U" + std::to_string(i + 1);
    const std::string day = std::string(i < 9 ? "2026-09-0" : "2026-09-") + std::to_string(i + 1) + "T";
    text.samples += name + ",P1," + day + "08:00," + day + "10:00,\n";
    text.readings += day + "07:30,pre," + name + ",,V1," + shortest(2 - drifts[i]) + "\n";
    text.readings += day + "10:10,post," + name + ",,V1," + shortest(2 + drifts[i]) + "\n";
  }
  return text;
}

}  // namespace driftwarden
