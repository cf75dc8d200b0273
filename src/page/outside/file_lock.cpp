// SPDX-License-Identifier: MIT
#include "outside/file_lock.hpp"

#include <fcntl.h>
#include <unistd.h>

namespace driftwarden {

Descriptor::~Descriptor() {
  if (number_ >= 0) ::close(number_);
}

// The files of a page are its own: nobody else can hold one.
bool is_locked(int) { return true; }

std::optional<Descriptor> locked_file(const std::filesystem::path& path, int flags, const std::function<void()>&) {
  Descriptor file(::open(path.c_str(), flags | O_CLOEXEC | O_NONBLOCK));
  if (file.number() < 0) return std::nullopt;
  return file;
}

}  // namespace driftwarden
