// SPDX-License-Identifier: MIT
#include "outside/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <optional>
#include <system_error>

#include "outside/file_lock.hpp"
#include "outside/write_fault.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// Where a link leads, so that the link stays one; where it leads nowhere, its own place.
fs::path behind_links(const fs::path& said) {
  std::error_code failure;
  const fs::path whole = fs::canonical(said, failure);
  return failure ? fs::absolute(said) : whole;
}

// What the system calls by such names may be an open file that somebody else goes on writing to.
bool is_of_the_system(const fs::path& said) {
  const std::string whole = fs::absolute(said).lexically_normal().string();
  return whole.starts_with("/dev/") || whole.starts_with("/proc/");
}

// A file beside the place, with the rights of the one it will replace.
int opened_beside(const fs::path& path, const std::optional<mode_t>& rights) {
  ::unlink(path.c_str());  // of a process of the same number that was killed
  const int number = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (number >= 0 && rights) ::fchmod(number, *rights);
  return number;
}

}  // namespace

int brought_to_disk(const fs::path& path) {
  const Descriptor open(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  return open.number() >= 0 && ::fsync(open.number()) == 0 ? 0 : errno;
}

Result<WholeFile> WholeFile::beside(const fs::path& said) {
  WholeFile file(said, behind_links(said));
  struct stat there {};
  const bool is_there = ::stat(file.place_.c_str(), &there) == 0;
  if (is_there && S_ISDIR(there.st_mode)) return unwritable(said, EISDIR);
  if (is_there && ::access(file.place_.c_str(), W_OK) != 0) return unwritable(said, errno);
  if (is_of_the_system(said) || (is_there && !S_ISREG(there.st_mode))) {
    file.out_ = std::make_unique<OutputStream>(::open(said.c_str(), O_WRONLY | O_CLOEXEC));
  } else {
    const fs::path beside = unfinished_beside(file.place_);
    const auto rights = is_there ? std::optional<mode_t>(there.st_mode & 07777U) : std::nullopt;
    file.unfinished_ = Unfinished(beside);
    file.out_ = std::make_unique<OutputStream>(opened_beside(beside, rights));
  }
  if (file.out_->reason() != 0) return unwritable(said, file.out_->reason());
  return file;
}

Diagnostics WholeFile::put_in_place() {
  const bool goes_beside = !unfinished_.path().empty();
  const int reason = out_->finish(goes_beside);
  if (reason != 0) return {unwritable(said_, reason)};
  if (!goes_beside) return {};
  if (::rename(unfinished_.path().c_str(), place_.c_str()) != 0) return {unwritable(said_, errno)};
  unfinished_.keep();
  brought_to_disk(place_.parent_path());  // the file is whole either way
  return {};
}

Diagnostics move_whole(const fs::path& file, const fs::path& place) {
  if (const int reason = brought_to_disk(file); reason != 0) return {unwritable(place, reason)};
  if (::rename(file.c_str(), place.c_str()) != 0) return {unwritable(place, errno)};
  brought_to_disk(fs::absolute(place).parent_path());
  return {};
}

Diagnostics make_folder(const fs::path& place) {
  std::error_code failure;
  if (fs::create_directory(place, failure)) brought_to_disk(fs::absolute(place).parent_path());
  if (failure) return {unwritable(place, failure.value())};
  return {};
}

Diagnostics write_whole(const fs::path& place, std::string_view text) {
  Result<WholeFile> file = WholeFile::beside(place);
  if (!file) return file.faults();
  file->out() << text;
  return file->put_in_place();
}

}  // namespace driftwarden
