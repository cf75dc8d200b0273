// SPDX-License-Identifier: MIT
#include "workshop/book_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace driftwarden {
namespace {

bool is_flocked(int number, int how) {
  int result = 0;
  do {
    result = ::flock(number, how);
  } while (result != 0 && errno == EINTR);
  return result == 0;
}

}  // namespace

Result<BookLock> BookLock::take(const std::filesystem::path& folder, const std::function<void()>& waits) {
  const std::filesystem::path path = folder / "book.toml";
  const auto cannot = [&path](int reason) {
    return error("book/unlocked", {path.string(), 0, 0},
                 "the book can't be held for one run alone: " + std::generic_category().message(reason),
                 "check that the file is there and may be read, on a file system with locks");
  };
  BookLock lock(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (lock.number_ < 0) return cannot(errno);
  if (is_flocked(lock.number_, LOCK_EX | LOCK_NB)) return lock;
  if (errno != EWOULDBLOCK) return cannot(errno);
  if (waits) waits();
  if (!is_flocked(lock.number_, LOCK_EX)) return cannot(errno);
  return lock;
}

BookLock::BookLock(BookLock&& other) noexcept : number_(std::exchange(other.number_, -1)) {}

BookLock::~BookLock() {
  if (number_ >= 0) ::close(number_);
}

}  // namespace driftwarden
