// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace driftwarden {

// What every output that leaves the desk says of itself. The words stand here and nowhere else in the program.
inline constexpr std::string_view cautions =
    "driftwarden does not replace the sampling method, the law and the local codes where the work is done, or licensed "
    "practice and the judgement of a qualified occupational hygienist; where they differ from a rule pack, they win. A "
    "verdict is about the sample's record, its air and what the laboratory found on it, not about anyone's safety: a "
    "void sample is never evidence that exposure was low.";

// The same in one line, for the foot of a chart.
inline constexpr std::string_view cautions_in_a_line = "About the record, and no statement on anyone's safety.";

// Of a finding that somebody overrules.
inline constexpr std::string_view caution_on_overruling =
    "The finding stands in the record. Whoever overrules it answers for that as a qualified person, where the law asks "
    "for it a licensed one.";

// Beside advice on an interval.
inline constexpr std::string_view caution_on_advice = "advice, applied by nobody but you";

}  // namespace driftwarden
