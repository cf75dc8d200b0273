// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <string>

#include "system/in_parallel.hpp"

namespace driftwarden {

// Has a long text written in blocks by several threads and handed on in the blocks' order, so that the bytes are the
// same with any number of threads. `make_writer()` gives each thread its own writer, called as
// writer(first, last, text) for a block of items; `take(text, first, last)` gets the texts, one at a time.
// What a writer or `take` throws ends the work and is thrown on.
template <class MakeWriter, class Take>
void write_in_order(std::size_t items, std::size_t items_a_block, unsigned threads, MakeWriter make_writer, Take take) {
  std::atomic<std::size_t> next{0};
  std::size_t turn = 0;
  std::exception_ptr failure;
  std::mutex mutex;
  std::condition_variable turned;
  const std::size_t blocks = (items + items_a_block - 1) / items_a_block;
  const auto fail = [&] {
    const std::scoped_lock lock(mutex);
    if (!failure) failure = std::current_exception();
    turned.notify_all();
  };
  const auto work = [&](std::size_t) {
    try {
      auto writer = make_writer();
      std::string text;
      for (std::size_t block; (block = next.fetch_add(1)) < blocks;) {
        const std::size_t first = block * items_a_block;
        const std::size_t last = std::min(items, first + items_a_block);
        text.clear();
        writer(first, last, text);
        std::unique_lock lock(mutex);
        turned.wait(lock, [&] { return turn == block || failure; });
        if (failure) return;
        take(text, first, last);
        ++turn;
        turned.notify_all();
      }
    } catch (...) {
      fail();
    }
  };
  in_parallel(std::min<std::size_t>(threads, blocks), work);
  if (failure) std::rethrow_exception(failure);
}

}  // namespace driftwarden
