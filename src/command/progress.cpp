// SPDX-License-Identifier: MIT
#include "command/progress.hpp"

#include <algorithm>
#include <ostream>
#include <string>

namespace driftwarden {
namespace {

constexpr double patience_s = 1;
constexpr double redrawn_each_s = 0.1;
constexpr std::size_t bar_width = 30;

std::string bar(std::string_view work, std::size_t done, std::size_t of) {
  const double share = of == 0 ? 1 : std::min(1.0, static_cast<double>(done) / static_cast<double>(of));
  const auto full = static_cast<std::size_t>(share * bar_width);
  const std::string percent = std::to_string(static_cast<int>(100 * share));
  return std::string(work) + " " + std::string(full, '=') + std::string(bar_width - full, '.') + " " +
         std::string(3 - percent.size(), ' ') + percent + " %";
}

}  // namespace

Progress::Progress(Surroundings& surroundings, bool is_wanted)
    : surroundings_(surroundings),
      is_shown_(is_wanted && surroundings.err_is_terminal && surroundings.seconds != nullptr) {
  if (is_shown_) next_s_ = surroundings.seconds() + patience_s;
}

Progress::~Progress() {
  if (has_drawn_) surroundings_.err << "\r\x1B[K" << std::flush;
}

void Progress::operator()(std::string_view work, std::size_t done, std::size_t of) {
  if (!is_shown_) return;
  const std::unique_lock lock(mutex_, std::try_to_lock);
  if (!lock.owns_lock() || surroundings_.seconds() < next_s_) return;
  next_s_ = surroundings_.seconds() + redrawn_each_s;
  has_drawn_ = true;
  surroundings_.err << '\r' << bar(work, done, of) << "\x1B[K" << std::flush;
}

}  // namespace driftwarden
