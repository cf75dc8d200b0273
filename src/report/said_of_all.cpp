// SPDX-License-Identifier: MIT
#include "report/said_of_all.hpp"

#include <algorithm>

namespace driftwarden {

Sayings said_of_all(const std::vector<const Sayings*>& each) {
  if (each.size() < 2) return {};
  Sayings common = *each.front();
  for (const Sayings* sayings : each) {
    std::erase_if(common, [&](const std::string& said) { return std::ranges::find(*sayings, said) == sayings->end(); });
  }
  return common;
}

Sayings without(const Sayings& common, Sayings sayings) {
  std::erase_if(sayings, [&](const std::string& said) { return std::ranges::find(common, said) != common.end(); });
  return sayings;
}

}  // namespace driftwarden
