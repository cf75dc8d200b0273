// SPDX-License-Identifier: MIT
#include "system/in_parallel.hpp"

namespace driftwarden {

// A page's worker is one thread, and is given no more.
void in_parallel(std::size_t, const std::function<void(std::size_t)>& work) { work(0); }

}  // namespace driftwarden
