// SPDX-License-Identifier: MIT
#pragma once

#include <mutex>
#include <string_view>

#include "command/command_line.hpp"

namespace driftwarden {

// A bar on the terminal for work that lasts over a second; nothing where errors do not go to one. Any thread may tell
// it how far the work has come. The line is wiped when the work is done.
class Progress {
 public:
  explicit Progress(Surroundings& surroundings, bool is_wanted = true);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress();

  void operator()(std::string_view work, std::size_t done, std::size_t of);

 private:
  Surroundings& surroundings_;
  bool is_shown_;
  double next_s_ = 0;  // when to draw again
  bool has_drawn_ = false;
  std::mutex mutex_;
};

}  // namespace driftwarden
