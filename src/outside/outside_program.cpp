// SPDX-License-Identifier: MIT
#include "outside/outside_program.hpp"

#include <fcntl.h>
#include <sched.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <string_view>
#include <system_error>
#include <thread>

#include "outside/unfinished.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr const char* complaints_name = "complaints.txt";
constexpr const char* home_name = "home";
constexpr int program_not_found = 127;

std::string place_of(const std::string& name) {
  if (name.find('/') != std::string::npos) return name;
  const char* variable = std::getenv("PATH");
  std::string_view places = variable == nullptr ? "/usr/local/bin:/usr/bin:/bin" : variable;
  while (!places.empty()) {
    const std::string_view folder = places.substr(0, places.find(':'));
    places.remove_prefix(std::min(folder.size() + 1, places.size()));
    const fs::path file = fs::path(folder.empty() ? "." : folder) / name;
    if (access(file.c_str(), X_OK) == 0 && !fs::is_directory(file)) return fs::absolute(file).string();
  }
  return {};
}

// Everything the new process needs, made before there are two: after the fork nothing may ask for memory.
class Launch {
 public:
  Launch(const OutsideProgram& program, const std::string& place)
      : folder_(fs::absolute(program.folder).string()), texts_{place} {
    texts_.insert(texts_.end(), program.arguments.begin(), program.arguments.end());
    const std::string home = folder_ + "/" + home_name;
    // Temporary files are named from where the program works: the names of its sockets have to be short.
    variables_ = {"LC_ALL=C.UTF-8", "TZ=UTC", "HOME=" + home, std::string("TMPDIR=") + home_name,
                  "DBUS_SESSION_BUS_ADDRESS=disabled:"};
    for (const char* kept : {"PATH", "LD_LIBRARY_PATH"}) {
      if (const char* value = std::getenv(kept)) variables_.push_back(std::string(kept) + "=" + value);
    }
    std::error_code told_when_it_starts;
    fs::create_directory(home, told_when_it_starts);
    for (std::string& text : texts_) words_.push_back(text.data());
    for (std::string& variable : variables_) environment_.push_back(variable.data());
    words_.push_back(nullptr);
    environment_.push_back(nullptr);
    user_map_ = std::to_string(geteuid()) + " " + std::to_string(geteuid()) + " 1";
    group_map_ = std::to_string(getegid()) + " " + std::to_string(getegid()) + " 1";
  }

  // In the new process; comes back only where the program could not be started, with errno.
  void begin(pid_t starter) const {
    if (prctl(PR_SET_PDEATHSIG, SIGKILL) != 0 || getppid() != starter) _exit(program_not_found);
    setpgid(0, 0);  // with what it starts itself it is one group, and ended as one
    leave_network();
    if (chdir(folder_.c_str()) != 0) return;
    if (!leads(STDIN_FILENO, "/dev/null", O_RDONLY) || !leads(STDOUT_FILENO, "/dev/null", O_WRONLY)) return;
    if (!leads(STDERR_FILENO, complaints_name, O_WRONLY | O_CREAT | O_TRUNC)) return;
    execve(words_.front(), words_.data(), environment_.data());
  }

 private:
  static bool leads(int stream, const char* file, int how) {
    const int opened = open(file, how, 0600);
    if (opened < 0) return false;
    if (opened == stream) return true;
    return dup2(opened, stream) == stream && close(opened) == 0;
  }

  static void write_map(const char* file, std::string_view text) {
    const int map = open(file, O_WRONLY | O_CLOEXEC);
    if (map < 0) return;
    [[maybe_unused]] const ssize_t written = write(map, text.data(), text.size());
    close(map);
  }

  // A network of its own, with nothing in it. Who isn't root has to be its own user for that.
  void leave_network() const {
    if (unshare(CLONE_NEWNET) == 0) return;
    if (unshare(CLONE_NEWUSER | CLONE_NEWNET) != 0) return;  // some systems let nobody; the program's own options hold
    write_map("/proc/self/setgroups", "deny");
    write_map("/proc/self/uid_map", user_map_);
    write_map("/proc/self/gid_map", group_map_);
  }

  std::string folder_;
  std::vector<std::string> texts_;
  std::vector<std::string> variables_;
  std::vector<char*> words_;
  std::vector<char*> environment_;
  std::string user_map_;
  std::string group_map_;
};

// The error of starting, or 0: the pipe closes by itself when the program begins.
int failure_told(int pipe_end) {
  int failure = 0;
  ssize_t got = 0;
  while ((got = read(pipe_end, &failure, sizeof failure)) < 0 && errno == EINTR) {
  }
  close(pipe_end);
  return got == static_cast<ssize_t>(sizeof failure) ? failure : 0;
}

// The process, or -1; then `failure` says why.
pid_t started(const Launch& launch, int& failure) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return failure = errno, -1;
  const pid_t starter = getpid();
  const pid_t process = fork();
  if (process == 0) {
    launch.begin(starter);
    const int why = errno;
    [[maybe_unused]] const ssize_t told = write(ends[1], &why, sizeof why);
    _exit(program_not_found);
  }
  failure = process < 0 ? errno : 0;
  close(ends[1]);
  const int told = failure_told(ends[0]);
  if (process > 0) failure = told;
  return process;
}

// Waits for the end, and brings it about when the time is up.
void wait_for(pid_t process, int most_seconds, ProgramEnd& end) {
  const auto latest = std::chrono::steady_clock::now() + std::chrono::seconds(most_seconds);
  auto pause = std::chrono::milliseconds(1);
  for (;;) {
    const pid_t ended = waitpid(process, &end.status, end.is_too_late ? 0 : WNOHANG);
    if (ended == process || (ended < 0 && errno != EINTR)) return;
    if (!end.is_too_late && std::chrono::steady_clock::now() >= latest) {
      end.is_too_late = true;
      kill(-process, SIGKILL);
    }
    if (ended != 0 || end.is_too_late) continue;
    std::this_thread::sleep_for(pause);
    pause = std::min(2 * pause, std::chrono::milliseconds(50));
  }
}

std::string last_line(const fs::path& file) {
  std::ifstream lines(file);
  std::string last;
  for (std::string line; std::getline(lines, line);) {
    if (line.find_first_not_of(" \t^") != std::string::npos) last = line;
  }
  return last;
}

}  // namespace

std::string ProgramEnd::said() const {
  if (!is_found) return "there is no such program";
  if (failure != 0) return "it could not be started: " + std::generic_category().message(failure);
  if (is_too_late) return "it had not ended in the time it was given";
  if (WIFSIGNALED(status)) return "it was ended by signal " + std::to_string(WTERMSIG(status));
  return "it ended with status " + std::to_string(WEXITSTATUS(status));
}

ProgramEnd run_apart(const OutsideProgram& program) {
  ProgramEnd end;
  const std::string place = place_of(program.name);
  end.is_found = !place.empty();
  if (!end.is_found) return end;
  const pid_t process = started(Launch(program, place), end.failure);
  if (process > 0) {
    const StartedProcesses with_all_that_it_starts(process);
    wait_for(process, program.most_seconds, end);
  }
  const bool says_not_found = WIFEXITED(end.status) && WEXITSTATUS(end.status) == program_not_found;
  end.is_found = end.failure != ENOENT && !(end.failure == 0 && says_not_found);
  end.complaint = last_line(program.folder / complaints_name);
  return end;
}

}  // namespace driftwarden
