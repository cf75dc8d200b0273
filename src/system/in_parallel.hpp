// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <functional>

namespace driftwarden {

// Has one work done by several threads: work(0) in this one, work(1), work(2), … each in another. Comes back when all
// have ended; what the first of them threw is thrown on. A work takes what comes next until nothing does, so fewer
// threads do it, too: where the system gives no more of them, those that are there do.
void in_parallel(std::size_t threads, const std::function<void(std::size_t)>& work);

// Has the works 0 to count - 1 done by several threads: each makes itself a worker, and calls worker(number) with the
// next number until none is left.
template <class MakeWorker>
void share_out(std::size_t count, std::size_t threads, MakeWorker make_worker) {
  std::atomic<std::size_t> next{0};
  in_parallel(std::min(threads, count), [&](std::size_t) {
    auto worker = make_worker();
    for (std::size_t number; (number = next.fetch_add(1)) < count;) worker(number);
  });
}

}  // namespace driftwarden
