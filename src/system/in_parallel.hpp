// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <functional>

namespace driftwarden {

// Has one work done by several threads: work(0) in this one, work(1), work(2), … each in another. Comes back when all
// have ended; what the first of them threw is thrown on. A work takes what comes next until nothing does, so fewer
// threads do it, too: where the system gives no more of them, those that are there do.
void in_parallel(std::size_t threads, const std::function<void(std::size_t)>& work);

}  // namespace driftwarden
