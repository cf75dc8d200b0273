// SPDX-License-Identifier: MIT
#include "outside/whole_folder.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

int all_brought_to_disk(const fs::path& folder) {
  std::error_code failure;
  fs::recursive_directory_iterator entry(folder, failure);
  for (; !failure && entry != fs::recursive_directory_iterator(); entry.increment(failure)) {
    if (const int reason = brought_to_disk(entry->path()); reason != 0) return reason;
  }
  return failure ? failure.value() : brought_to_disk(folder);
}

// In one step, and not over anything. Where the file system can't promise that, an empty folder made in the same moment
// could be replaced; nothing that has anything in it.
int moved(const fs::path& from, const fs::path& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  std::error_code ignored;
  if (fs::exists(fs::symlink_status(to, ignored))) return EEXIST;
  return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

fs::path without_last_slash(const fs::path& place) {
  const fs::path whole = fs::absolute(place).lexically_normal();
  return whole.has_filename() ? whole : whole.parent_path();
}

}  // namespace

Result<WholeFolder> WholeFolder::beside(const fs::path& said) {
  const fs::path place = without_last_slash(said);
  std::error_code failure;
  if (fs::exists(fs::symlink_status(place, failure))) return already_there(said);
  fs::create_directories(place.parent_path(), failure);
  if (failure) return unwritable(place.parent_path(), failure.value());
  const fs::path path = unfinished_beside(place);
  { const Unfinished of_a_killed_process_of_this_number(path); }
  Unfinished unfinished(path);
  if (::mkdir(path.c_str(), 0777) != 0) return unwritable(path, errno);
  return WholeFolder(place, std::move(unfinished));
}

Diagnostics WholeFolder::put_in_place() {
  if (const int reason = all_brought_to_disk(path()); reason != 0) return {unwritable(place_, reason)};
  const int reason = moved(path(), place_);
  if (reason == EEXIST || reason == ENOTEMPTY) return {already_there(place_)};
  if (reason != 0) return {unwritable(place_, reason)};
  unfinished_.keep();
  brought_to_disk(place_.parent_path());  // the folder is whole either way
  return {};
}

}  // namespace driftwarden
