// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "record/instrument.hpp"
#include "record/moment.hpp"

namespace driftwarden {

enum class Ruling : std::uint8_t { uphold, overrule };

std::string_view to_text(Ruling ruling);

// One row of decisions.csv: what a named, responsible person ruled about a finding. It never erases the finding.
struct Decision {
  Moment decided = no_moment;
  std::string by;
  std::string subject;  // a sample's name
  std::string rule;     // a rule's full name, pack/id
  Ruling ruling = Ruling::uphold;
  std::string reason;
  RowPlace place;
};

}  // namespace driftwarden
