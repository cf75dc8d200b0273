// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <utility>

#include "diagnostic/result.hpp"
#include "outside/file_lock.hpp"

namespace driftwarden {

// A book held by one run alone, so that what it looked at is still so when it writes: a lock on book.toml that runs of
// `receive` wait for. Nobody else is kept from reading or writing. Given back at the end of its life, and with the
// process.
class BookLock {
 public:
  // `waits` is called before waiting for another run. Fault: book/unlocked.
  static Result<BookLock> take(const std::filesystem::path& folder, const std::function<void()>& waits);

 private:
  explicit BookLock(Descriptor file) : file_(std::move(file)) {}
  Descriptor file_;
};

}  // namespace driftwarden
