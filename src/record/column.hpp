// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <new>
#include <type_traits>
#include <utility>

#include "system/pages.hpp"

namespace driftwarden {

// One field of many records: an array that is reserved once for the most rows there can be and filled in place, also by
// several threads at different rows. Memory costs only where rows are written; rows never written read as zero.
// Why not a vector: growing would copy hundreds of megabytes, and large arrays in huge pages cost far fewer page
// faults.
template <class T>
class Column {
  static_assert(std::is_trivially_copyable_v<T>);

 public:
  Column() = default;
  Column(const Column&) = delete;
  Column& operator=(const Column&) = delete;
  Column(Column&& other) noexcept { swap(other); }
  Column& operator=(Column&& other) noexcept {
    Column(std::move(other)).swap(*this);
    return *this;
  }
  ~Column() {
    if (pages_.begin() == nullptr) std::free(data_);
  }

  // Room for so many rows in all; what was written stays. Throws std::bad_alloc.
  void reserve(std::size_t rows) {
    if (rows <= capacity_) return;
    Column bigger;
    bigger.allocate(rows);
    for (std::size_t i = 0; i < size_; ++i) bigger.data_[i] = data_[i];
    bigger.size_ = size_;
    swap(bigger);
  }
  // Sets the number of rows, at most what is reserved. New rows are zero, or as they were written in place.
  void set_size(std::size_t rows) { size_ = rows; }
  void push_back(T value) {
    if (size_ == capacity_) reserve(size_ < 8 ? 16 : 2 * size_);
    data_[size_++] = value;
  }

  // Writes a field in place, where the column is kept at all.
  void put(std::size_t row, T value) {
    if (capacity_ != 0) data_[row] = value;
  }

  std::size_t size() const { return size_; }
  std::size_t capacity() const { return capacity_; }
  bool empty() const { return size_ == 0; }
  T* data() { return data_; }
  const T* data() const { return data_; }
  T& operator[](std::size_t row) { return data_[row]; }
  const T& operator[](std::size_t row) const { return data_[row]; }
  const T* begin() const { return data_; }
  const T* end() const { return data_ + size_; }

 private:
  void allocate(std::size_t rows) {
    if (rows > SIZE_MAX / sizeof(T) / 2) throw std::bad_alloc();
    const std::size_t bytes = rows * sizeof(T);
    if (bytes < Pages::huge_page) {
      data_ = static_cast<T*>(std::calloc(rows, sizeof(T)));
      if (data_ == nullptr) throw std::bad_alloc();
    } else {
      pages_ = Pages(bytes);
      data_ = static_cast<T*>(pages_.begin());
    }
    capacity_ = rows;
  }
  void swap(Column& other) noexcept {
    std::swap(data_, other.data_);
    std::swap(size_, other.size_);
    std::swap(capacity_, other.capacity_);
    std::swap(pages_, other.pages_);
  }

  T* data_ = nullptr;
  std::size_t size_ = 0;
  std::size_t capacity_ = 0;
  Pages pages_;  // of a large column
};

}  // namespace driftwarden
