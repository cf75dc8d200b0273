// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <utility>

namespace driftwarden {

// Memory asked of the system in whole pages, huge ones where it has them. It costs only where it is written to, and
// reads as zero elsewhere.
class Pages {
 public:
  static constexpr std::size_t huge_page = std::size_t{2} << 20;

  Pages() = default;
  explicit Pages(std::size_t bytes);  // throws std::bad_alloc
  Pages(Pages&& other) noexcept { swap(other); }
  Pages& operator=(Pages&& other) noexcept {
    Pages(std::move(other)).swap(*this);
    return *this;
  }
  Pages(const Pages&) = delete;
  Pages& operator=(const Pages&) = delete;
  ~Pages();

  void* begin() const { return begin_; }  // on the border of a huge page; nullptr: none were asked for

 private:
  void swap(Pages& other) noexcept {
    std::swap(begin_, other.begin_);
    std::swap(mapped_, other.mapped_);
    std::swap(mapped_bytes_, other.mapped_bytes_);
  }

  void* begin_ = nullptr;
  void* mapped_ = nullptr;
  std::size_t mapped_bytes_ = 0;
};

}  // namespace driftwarden
