// SPDX-License-Identifier: MIT
#include "outside/unfinished.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <string>
#include <string_view>
#include <utility>

namespace driftwarden {
namespace {

enum class Holds : int { nothing, something_to_come, path, group };

// What a signal has to see to. A process has one set of signals, so this list is not a value that is handed on; and a
// handler may neither allocate nor wait for a lock, so it has a fixed size.
struct Slot {
  std::atomic<Holds> holds{Holds::nothing};
  pid_t group = 0;
  std::array<char, PATH_MAX> path{};
};
std::array<Slot, 32> slots;
std::atomic<pid_t> main_thread{0};

// The number of a slot that is ours; -1: there is none.
int taken_slot() {
  for (std::size_t i = 0; i < slots.size(); ++i) {
    Holds nothing = Holds::nothing;
    if (slots[i].holds.compare_exchange_strong(nothing, Holds::something_to_come)) return static_cast<int>(i);
  }
  return -1;
}

Slot& slot_of(int number) { return slots[static_cast<std::size_t>(number)]; }

int watched_path(const std::filesystem::path& path) {
  const std::string whole = std::filesystem::absolute(path).string();
  const int number = whole.size() < PATH_MAX ? taken_slot() : -1;
  if (number < 0) return number;
  std::memcpy(slot_of(number).path.data(), whole.c_str(), whole.size() + 1);
  slot_of(number).holds = Holds::path;
  return number;
}

int watched_group(pid_t group) {
  const int number = taken_slot();
  if (number < 0) return number;
  slot_of(number).group = group;
  slot_of(number).holds = Holds::group;
  return number;
}

void give_back(int& number) {
  if (number >= 0) slot_of(std::exchange(number, -1)).holds = Holds::nothing;
}

// What follows runs in a signal handler, too: system calls and its own stack only.
constexpr int deepest = 24;

bool is_removed(int folder, const char* name, int depth);

// All that is in an open folder; whether something was there and is gone.
bool has_removed_some(int folder, int depth) {
  bool has_removed = false;
  alignas(dirent64) std::array<char, 2048> entries{};
  ::lseek(folder, 0, SEEK_SET);
  for (;;) {
    const long size = ::syscall(SYS_getdents64, folder, entries.data(), entries.size());
    if (size <= 0) return has_removed;
    for (long at = 0; at < size;) {
      const auto* entry = reinterpret_cast<const dirent64*>(entries.data() + at);
      at += entry->d_reclen;
      const std::string_view name(entry->d_name);
      if (name != "." && name != "..") has_removed |= is_removed(folder, entry->d_name, depth + 1);
    }
  }
}

bool is_removed(int folder, const char* name, int depth) {
  if (::unlinkat(folder, name, 0) == 0) return true;
  const int inside = depth > deepest ? -1 : ::openat(folder, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
  if (inside < 0) return false;
  while (has_removed_some(inside, depth)) {
  }
  ::close(inside);
  return ::unlinkat(folder, name, AT_REMOVEDIR) == 0;
}

// Where one call of the system failed, the next may not.
void remove(const char* path) {
  if (!is_removed(AT_FDCWD, path, 0)) is_removed(AT_FDCWD, path, 0);
}

void end_group(pid_t group) {
  ::kill(-group, SIGKILL);
  while (::waitpid(-group, nullptr, 0) > 0 || errno == EINTR) {
  }
}

std::string_view words_for(int signal) {
  switch (signal) {
    case SIGINT:
      return "driftwarden: ended by SIGINT; nothing unfinished is left\n";
    case SIGTERM:
      return "driftwarden: ended by SIGTERM; nothing unfinished is left\n";
    case SIGHUP:
      return "driftwarden: ended by SIGHUP; nothing unfinished is left\n";
    case SIGXCPU:
      return "driftwarden: ended by SIGXCPU, its time is used up; nothing unfinished is left\n";
    default:
      return "";  // nobody reads the output any more: the usual end of a pipeline
  }
}

// Whichever thread the signal comes to hands it to the main one, which alone writes files: so it stands still here
// while they are removed. In a child between fork and exec there is no such thread.
void end_tidily(int signal) {
  const int errno_before = errno;
  if (::gettid() != main_thread) {
    ::syscall(SYS_tgkill, ::getpid(), main_thread.load(), signal);
    errno = errno_before;
    return;
  }
  remove_all_unfinished();
  const std::string_view words = words_for(signal);
  if (!words.empty() && ::write(STDERR_FILENO, words.data(), words.size()) < 0) errno = errno_before;
  ::signal(signal, SIG_DFL);
  ::raise(signal);  // comes when the handler has returned
}

}  // namespace

Unfinished::Unfinished(std::filesystem::path path) : path_(std::move(path)), slot_(watched_path(path_)) {}

Unfinished::Unfinished(Unfinished&& other) noexcept
    : path_(std::exchange(other.path_, {})), slot_(std::exchange(other.slot_, -1)) {}

Unfinished& Unfinished::operator=(Unfinished&& other) noexcept {
  std::swap(path_, other.path_);
  std::swap(slot_, other.slot_);
  return *this;
}

Unfinished::~Unfinished() {
  if (!path_.empty()) remove(path_.c_str());
  give_back(slot_);
}

int Unfinished::make_folder(const std::filesystem::path& pattern) {
  *this = Unfinished(pattern);
  std::string unwatched = pattern.string();  // where more are unfinished at once than are watched
  char* name = slot_ < 0 ? unwatched.data() : slot_of(slot_).path.data();
  if (::mkdtemp(name) == nullptr) {
    const int reason = errno;
    keep();
    return reason;
  }
  path_ = name;
  return 0;
}

void Unfinished::keep() {
  give_back(slot_);
  path_.clear();
}

StartedProcesses::StartedProcesses(pid_t group) : group_(group), slot_(watched_group(group)) {}

StartedProcesses::~StartedProcesses() {
  end_group(group_);
  give_back(slot_);
}

void remove_all_unfinished() {
  for (Slot& slot : slots) {
    if (slot.holds == Holds::group) end_group(slot.group);
  }
  for (Slot& slot : slots) {
    if (slot.holds == Holds::path) remove(slot.path.data());
  }
}

void end_tidily_on_signals() {
  main_thread = ::gettid();
  struct sigaction action {};
  action.sa_handler = end_tidily;
  action.sa_flags = SA_RESTART;
  ::sigfillset(&action.sa_mask);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGXCPU, SIGPIPE}) {
    struct sigaction before {};
    // Who starts a program with a signal ignored, as nohup does, has a reason for it.
    if (::sigaction(signal, nullptr, &before) == 0 && before.sa_handler == SIG_IGN) continue;
    ::sigaction(signal, &action, nullptr);
  }
  ::signal(SIGXFSZ, SIG_IGN);
}

std::filesystem::path unfinished_beside(const std::filesystem::path& place) {
  constexpr std::size_t longest_stem = 200;  // bytes; a name has at most 255
  const std::string name = place.filename().string().substr(0, longest_stem);
  return place.parent_path() / (name + ".unfinished-" + std::to_string(::gettid()));
}

}  // namespace driftwarden
