// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <utility>

namespace driftwarden {

// A file descriptor that is closed with its owner; closing also gives a lock back.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&&) = delete;
  ~Descriptor();
  int number() const { return number_; }

 private:
  int number_;
};

// Locks an open file that nobody else has locked, or waits for it; else false, and errno.
bool is_locked(int number);

// Opens a file and locks it; all who do so wait for each other, and whoever has to wait calls `waits` first. Where
// another file was put in its place meanwhile, it is that one. Nothing, and errno, where it can't be had.
std::optional<Descriptor> locked_file(const std::filesystem::path& path, int flags, const std::function<void()>& waits);

}  // namespace driftwarden
