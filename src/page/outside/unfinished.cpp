// SPDX-License-Identifier: MIT
#include "outside/unfinished.hpp"

#include <cerrno>
#include <cstdlib>
#include <string>
#include <system_error>
#include <utility>

// A page has no signals and no processes: what is unfinished is removed at the end of its life, and with the page.
namespace driftwarden {

Unfinished::Unfinished(std::filesystem::path path) : path_(std::move(path)) {}

Unfinished::Unfinished(Unfinished&& other) noexcept : path_(std::exchange(other.path_, {})) {}

Unfinished& Unfinished::operator=(Unfinished&& other) noexcept {
  std::swap(path_, other.path_);
  return *this;
}

Unfinished::~Unfinished() {
  std::error_code ignored;
  if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
}

int Unfinished::make_folder(const std::filesystem::path& pattern) {
  std::string name = pattern.string();
  if (::mkdtemp(name.data()) == nullptr) return errno;
  *this = Unfinished(name);
  return 0;
}

void Unfinished::keep() { path_.clear(); }

StartedProcesses::StartedProcesses(pid_t group) : group_(group), slot_(-1) {}
StartedProcesses::~StartedProcesses() = default;

void remove_all_unfinished() {}
void end_tidily_on_signals() {}

std::filesystem::path unfinished_beside(const std::filesystem::path& place) {
  return place.parent_path() / (place.filename().string() + ".unfinished");
}

}  // namespace driftwarden
