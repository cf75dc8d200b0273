// SPDX-License-Identifier: MIT
#include "workshop/book_lock.hpp"

#include <fcntl.h>

#include <cerrno>
#include <system_error>

namespace driftwarden {

Result<BookLock> BookLock::take(const std::filesystem::path& folder, const std::function<void()>& waits) {
  const std::filesystem::path path = folder / "book.toml";
  if (std::optional<Descriptor> file = locked_file(path, O_RDONLY, waits)) return BookLock(*std::move(file));
  return error("book/unlocked", {path.string(), 0, 0},
               "the book can't be held for one run alone: " + std::generic_category().message(errno),
               "check that the file is there and may be read, on a file system with locks");
}

}  // namespace driftwarden
