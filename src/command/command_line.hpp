// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

#include "record/moment.hpp"

namespace driftwarden {

// What the outside world gives a command: streams, the clock, where shipped files lie. Nothing else reads it.
struct Surroundings {
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  Moment now = 0;
  std::filesystem::path share;  // holds rules/ and plots/
  std::string version;
  std::function<double()> seconds = {};  // a steady clock, to show progress by; none: no progress is shown
  bool is_done = false;        // what was asked for is on the disk: that it can't be said any more is no failure
  std::string time_zone = {};  // of the machine, to be proposed; "": not known
  std::size_t columns = 80;    // of the terminal that reads what is written out
};

// What a command answers with.
inline constexpr int all_is_well = 0;
inline constexpr int something_is_amiss = 1;  // void, undecided, changed
inline constexpr int cannot_be_used = 2;      // the command, or an input

// Runs one command; the exit status.
int run_command_line(const std::vector<std::string>& arguments, Surroundings& surroundings);

}  // namespace driftwarden
