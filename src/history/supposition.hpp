// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <vector>

#include "assessment/standard_index.hpp"
#include "history/lookback_window.hpp"

namespace driftwarden {

// How the error that an instrument was found with is supposed to have come: the whole of it at once on the first day of
// the window, or day by day in equal steps from the error it was left with. The truth is not known.
enum class Supposition : std::uint8_t { sudden, linear };
std::string_view to_text(Supposition supposition);

// A certificate made against the instrument in its window, or against another calibrator by a certificate of this kind.
struct LeaningCertificate {
  std::int32_t certificate = -1;
  Standard standard;
};

// All of them, each after the one it leans on; each once, so that standards that lean on each other in a ring come to
// an end. The instrument's own certificates are none.
std::vector<LeaningCertificate> leaning_certificates(const Screening& screening, const LookbackWindow& window);

// What a supposition makes of every calibrator's errors. `linear` needs a window that is not open.
SupposedErrors supposed_errors(const Screening& screening, const LookbackWindow& window,
                               const std::vector<LeaningCertificate>& leaning, Supposition supposition);

}  // namespace driftwarden
