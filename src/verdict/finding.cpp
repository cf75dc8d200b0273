// SPDX-License-Identifier: MIT
#include "verdict/finding.hpp"

#include <array>

namespace driftwarden {

std::string_view to_text(Verdict verdict) {
  constexpr std::array<std::string_view, 4> words{"valid", "qualified", "undecided", "void"};
  return words[static_cast<std::size_t>(verdict)];
}

Verdict verdict_of(Outcome outcome) {
  switch (outcome) {
    case Outcome::void_:
      return Verdict::void_;
    case Outcome::undecided:
      return Verdict::undecided;
    case Outcome::qualified:
      return Verdict::qualified;
    case Outcome::met:
    case Outcome::note:
    case Outcome::skipped:
      return Verdict::valid;
  }
  return Verdict::undecided;
}

}  // namespace driftwarden
