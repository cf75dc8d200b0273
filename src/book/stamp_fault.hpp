// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "book/stamp_parts.hpp"

namespace driftwarden {

// Each reason in words, with what would be right.
StampFault stamp_misfit(Misfit misfit, std::string_view text, const StampParts& parts);
StampFault no_such_date(std::string_view text, const StampParts& parts, DateOrder order);
StampFault ambiguous_time(std::string_view text, const StampParts& parts, TimeZone::Local local, const TimeZone& zone);
StampFault impossible_time(std::string_view text, const StampParts& parts, TimeZone::Local local, const TimeZone& zone);

}  // namespace driftwarden
