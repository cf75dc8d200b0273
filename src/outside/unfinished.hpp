// SPDX-License-Identifier: MIT
#pragma once

#include <sys/types.h>

#include <filesystem>

namespace driftwarden {

// Something on the disk that is not what was asked for, or not yet: a file or a folder with all that is in it. Removed
// at the end of its life, and by a signal that ends the run, unless it was kept.
class Unfinished {
 public:
  Unfinished() = default;
  explicit Unfinished(std::filesystem::path path);
  Unfinished(Unfinished&& other) noexcept;
  Unfinished& operator=(Unfinished&& other) noexcept;
  Unfinished(const Unfinished&) = delete;
  ~Unfinished();

  // Makes a folder of a new name, `pattern` with other characters for the six X at its end (mkdtemp), and is it; the
  // reason why there is none, or 0. It is watched from the moment it is there: no memory is asked for in between.
  int make_folder(const std::filesystem::path& pattern);

  const std::filesystem::path& path() const { return path_; }
  void keep();

 private:
  std::filesystem::path path_;  // empty: there is nothing
  int slot_ = -1;
};

// Programs that were started, one group of processes: ended with all that they started at the end of its life, and by a
// signal that ends the run.
class StartedProcesses {
 public:
  explicit StartedProcesses(pid_t group);
  StartedProcesses(const StartedProcesses&) = delete;
  StartedProcesses& operator=(const StartedProcesses&) = delete;
  ~StartedProcesses();

 private:
  pid_t group_;
  int slot_;
};

// Removes what is unfinished and ends what was started, in a handler, too. For a run that comes to its end; other
// threads are there only while the main one works with them, and no thread but that writes files.
void remove_all_unfinished();

// From here on SIGINT, SIGTERM, SIGHUP, SIGXCPU and SIGPIPE remove what is unfinished and end what was started, before
// they end the run; the first four say so. A file that grows beyond what is allowed is a reason told like any other
// (SIGXFSZ is ignored). For main, in its own thread; nothing else is asked by signals.
void end_tidily_on_signals();

// A name beside a place for what is to come there: NAME.unfinished-123, after the thread that asks.
std::filesystem::path unfinished_beside(const std::filesystem::path& place);

}  // namespace driftwarden
