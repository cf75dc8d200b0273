// SPDX-License-Identifier: MIT
// Included by one test of a program alone: it says what some calls of the system are there.
#pragma once

#include <sys/file.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <deque>
#include <functional>
#include <map>
#include <string_view>
#include <utility>

namespace driftwarden {

// What calls of the system do next, by name: each entry stands for one call and gives the reason for which it fails, 0
// where it is really made, or `nothing` where it does nothing and says so. Calls that aren't named here are made.
class Plan {
 public:
  using Answer = std::function<int()>;
  static constexpr int nothing = -1;

  Plan() { in_force = this; }
  Plan(const Plan&) = delete;
  Plan& operator=(const Plan&) = delete;
  ~Plan() { in_force = nullptr; }

  void then(std::string_view call, Answer answer) { answers_[call].push_back(std::move(answer)); }
  void then(std::string_view call, int reason) {
    then(call, [reason] { return reason; });
  }
  bool is_done() const {
    return std::all_of(answers_.begin(), answers_.end(), [](const auto& of) { return of.second.empty(); });
  }

  // 0 and no errno where the call is to be made.
  static int reason_against(std::string_view call) {
    if (in_force == nullptr) return 0;
    std::deque<Answer>& answers = in_force->answers_[call];
    if (answers.empty()) return 0;
    const Answer answer = std::move(answers.front());
    answers.pop_front();
    return answer();
  }

 private:
  static inline constinit Plan* in_force = nullptr;
  std::map<std::string_view, std::deque<Answer>> answers_;
};

template <class... Arguments>
long made(std::string_view call, long number, Arguments... arguments) {
  const int reason = Plan::reason_against(call);
  if (reason == 0) return ::syscall(number, arguments...);
  if (reason == Plan::nothing) return 0;
  errno = reason;
  return -1;
}

// They stand before the system's own in this test program.
extern "C" {
int flock(int file, int how) noexcept { return static_cast<int>(made("flock", SYS_flock, file, how)); }
int fsync(int file) { return static_cast<int>(made("fsync", SYS_fsync, file)); }
int ftruncate(int file, off_t size) noexcept { return static_cast<int>(made("ftruncate", SYS_ftruncate, file, size)); }
ssize_t pread(int file, void* to, std::size_t most, off_t at) { return made("pread", SYS_pread64, file, to, most, at); }
ssize_t write(int file, const void* from, std::size_t size) { return made("write", SYS_write, file, from, size); }
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) noexcept {
  return static_cast<int>(made("renameat2", SYS_renameat2, from_folder, from, to_folder, to, flags));
}
}

}  // namespace driftwarden
