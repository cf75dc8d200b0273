// SPDX-License-Identifier: MIT
#include "driftwarden/book/mapped_file.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>

namespace driftwarden {
namespace {

constexpr std::size_t page = 4096;

std::size_t whole_pages(std::size_t bytes) { return (bytes + page - 1) / page * page; }

Diagnostic unreadable(const std::string& shown_name, int reason) {
  return error("file/unreadable", {shown_name, 0, 0}, "can't be read: " + std::generic_category().message(reason),
               "check that it is there and may be read");
}

class OpenFile {
 public:
  // Not blocking: a pipe in a file's place is refused, not waited for.
  explicit OpenFile(const std::filesystem::path& path)
      : number_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }

 private:
  int number_;
};

}  // namespace

Result<MappedFile> MappedFile::open(const std::filesystem::path& path, const std::string& shown_name) {
  const OpenFile file(path);
  struct stat status {};
  if (file.number() < 0 || ::fstat(file.number(), &status) != 0) return unreadable(shown_name, errno);
  if (!S_ISREG(status.st_mode)) return unreadable(shown_name, S_ISDIR(status.st_mode) ? EISDIR : EINVAL);

  MappedFile mapped;
  mapped.size_ = static_cast<std::size_t>(status.st_size);
  // First empty pages for all of it and one more, then the file over their front: what lies behind the file reads as 0.
  mapped.mapped_ = whole_pages(mapped.size_) + page;
  void* room = ::mmap(nullptr, mapped.mapped_, PROT_READ, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
  if (room == MAP_FAILED) return unreadable(shown_name, errno);
  mapped.data_ = static_cast<const char*>(room);
  if (mapped.size_ > 0 &&
      ::mmap(room, mapped.size_, PROT_READ, MAP_PRIVATE | MAP_FIXED, file.number(), 0) == MAP_FAILED) {
    return unreadable(shown_name, errno);
  }
  return mapped;
}

MappedFile::MappedFile(MappedFile&& other) noexcept
    : data_(std::exchange(other.data_, nullptr)),
      size_(std::exchange(other.size_, 0)),
      mapped_(std::exchange(other.mapped_, 0)) {}

MappedFile& MappedFile::operator=(MappedFile&& other) noexcept {
  std::swap(data_, other.data_);
  std::swap(size_, other.size_);
  std::swap(mapped_, other.mapped_);
  return *this;
}

MappedFile::~MappedFile() {
  if (data_ != nullptr) ::munmap(const_cast<char*>(data_), mapped_);
}

void MappedFile::want(std::size_t from, std::size_t to) const {
#ifdef MADV_POPULATE_READ
  const std::size_t first = from / page * page;
  ::madvise(const_cast<char*>(data_) + first, to - first, MADV_POPULATE_READ);
#else
  (void)from;
  (void)to;
#endif
}

void MappedFile::leave(std::size_t from, std::size_t to) const {
  const std::size_t first = whole_pages(from);
  const std::size_t last = to / page * page;
  if (first < last) ::madvise(const_cast<char*>(data_) + first, last - first, MADV_DONTNEED);
}

}  // namespace driftwarden
