// SPDX-License-Identifier: MIT
#include "correction/orifice.hpp"

namespace driftwarden {

double orifice_factor(Temperature scale, Temperature use) { return orifice_factor(scale.kelvin, use.kelvin); }

}  // namespace driftwarden
