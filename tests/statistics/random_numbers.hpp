// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace driftwarden::test {

// Random numbers that are the same on every machine: xoshiro256** 1.0, seeded by splitmix64 (Blackman and Vigna, public
// domain algorithms). The standard library's distributions differ between implementations.
class RandomNumbers {
 public:
  explicit RandomNumbers(std::uint64_t seed) {
    for (auto& word : state_) word = split_mix(seed);
  }

  std::uint64_t bits() {
    const std::uint64_t result = std::rotl(state_[1] * 5, 7) * 9;
    const std::uint64_t shifted = state_[1] << 17U;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= shifted;
    state_[3] = std::rotl(state_[3], 45);
    return result;
  }

  double uniform() { return (static_cast<double>(bits() >> 11U) + 0.5) * 0x1p-53; }  // inside 0 to 1
  double rectangular(double half_width) { return (2 * uniform() - 1) * half_width; }
  double arcsine(double half_width) { return half_width * std::sin(2 * std::numbers::pi * uniform()); }

  double normal() {
    if (has_spare_) {
      has_spare_ = false;
      return spare_;
    }
    const double radius = std::sqrt(-2 * std::log(uniform()));
    const double angle = 2 * std::numbers::pi * uniform();
    spare_ = radius * std::sin(angle);
    has_spare_ = true;
    return radius * std::cos(angle);
  }

  double student_t(int dof) {
    const double above = normal();
    double squares = 0;
    for (int i = 0; i < dof; ++i) {
      const double z = normal();
      squares += z * z;
    }
    return above / std::sqrt(squares / dof);
  }

 private:
  static std::uint64_t split_mix(std::uint64_t& state) {
    std::uint64_t z = (state += 0x9E3779B97F4A7C15U);
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }

  std::array<std::uint64_t, 4> state_{};
  double spare_ = 0;
  bool has_spare_ = false;
};

}  // namespace driftwarden::test
