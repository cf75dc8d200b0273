// SPDX-License-Identifier: MIT
#pragma once

#include <cassert>
#include <optional>
#include <utility>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// A value, or what is wrong with the input it should have come from (at least one diagnostic).
template <class T>
class Result {
 public:
  Result(T value) : value_(std::move(value)) {}                                          // NOLINT: meant to convert
  Result(Diagnostic fault) { faults_.push_back(std::move(fault)); }                      // NOLINT: meant to convert
  Result(Diagnostics faults) : faults_(std::move(faults)) { assert(!faults_.empty()); }  // NOLINT: meant to convert

  bool has_value() const { return value_.has_value(); }
  explicit operator bool() const { return has_value(); }

  const T& operator*() const& { return *value_; }
  T& operator*() & { return *value_; }
  T&& operator*() && { return *std::move(value_); }
  const T* operator->() const { return &*value_; }
  T* operator->() { return &*value_; }

  const Diagnostics& faults() const { return faults_; }

 private:
  std::optional<T> value_;
  Diagnostics faults_;
};

}  // namespace driftwarden
