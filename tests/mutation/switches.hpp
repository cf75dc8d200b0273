// SPDX-License-Identifier: MIT
// Put before a source by mutate.py: what its faults are called with. The fault whose number stands in MUTANT is on.
#pragma once

#include <algorithm>
#include <cstdlib>
#include <type_traits>
#include <utility>

namespace mutation {

// What was come by: 1, or 2 where the fault has no other form to take; read by recorder.cpp.
inline unsigned char reached[1000000] = {};
inline const int planted = std::getenv("MUTANT") != nullptr ? std::atoi(std::getenv("MUTANT")) : 0;

inline bool on(int n) {
  if (reached[n] == 0) reached[n] = 1;
  return n == planted;
}

template <class T>
bool turned(int n, T&& holds) {
  return static_cast<bool>(std::forward<T>(holds)) != on(n);
}

// A part of a condition left out: of "and" it always holds, of "or" never.
template <class T>
bool held(int n, T&& holds) {
  return static_cast<bool>(std::forward<T>(holds)) || on(n);
}
template <class T>
bool dropped(int n, T&& holds) {
  return static_cast<bool>(std::forward<T>(holds)) && !on(n);
}

template <class T>
T off(int n, T figure) {
  if (!on(n)) return figure;
  if constexpr (std::is_floating_point_v<T>)
    return figure == 0 ? T(1) / 32 : figure * 33 / 32;
  else
    return static_cast<T>(figure + 1);
}

template <class T>
std::decay_t<T> opposite(int n, T&& figure) {
  if constexpr (requires { static_cast<std::decay_t<T>>(-figure); }) {
    if (on(n)) return static_cast<std::decay_t<T>>(-figure);
  } else {
    reached[n] = 2;
  }
  return figure;
}

template <class A, class B>
auto least(int n, const A& a, const B& b) {
  return on(n) ? std::max(a, b) : std::min(a, b);
}
template <class A, class B>
auto greatest(int n, const A& a, const B& b) {
  return on(n) ? std::min(a, b) : std::max(a, b);
}

// "other" stands for "sign"; where kinds forbid that, the result is a little off; where even that has no meaning, the
// fault is none.
#define MUTATION_BINARY(name, sign, other)                                                          \
  template <class A, class B>                                                                       \
  auto name(int n, A&& a, B&& b) {                                                                  \
    using R = std::decay_t<decltype(std::forward<A>(a) sign std::forward<B>(b))>;                   \
    if constexpr (requires { static_cast<R>(std::forward<A>(a) other std::forward<B>(b)); }) {      \
      if (on(n)) return static_cast<R>(std::forward<A>(a) other std::forward<B>(b));                \
    } else if constexpr (std::is_integral_v<R>) {                                                   \
      return off(n, std::forward<A>(a) sign std::forward<B>(b));                                    \
    } else if constexpr (requires(R r) { static_cast<R>(r * (33.0 / 32)); }) {                      \
      if (on(n)) return static_cast<R>((std::forward<A>(a) sign std::forward<B>(b)) * (33.0 / 32)); \
    } else {                                                                                        \
      reached[n] = 2;                                                                               \
    }                                                                                               \
    return static_cast<R>(std::forward<A>(a) sign std::forward<B>(b));                              \
  }
MUTATION_BINARY(lt, <, <=)
MUTATION_BINARY(le, <=, <)
MUTATION_BINARY(gt, >, >=)
MUTATION_BINARY(ge, >=, >)
MUTATION_BINARY(eq, ==, !=)
MUTATION_BINARY(ne, !=, ==)
MUTATION_BINARY(plus, +, -)
MUTATION_BINARY(minus, -, +)
MUTATION_BINARY(times, *, /)
MUTATION_BINARY(over, /, *)
#undef MUTATION_BINARY

}  // namespace mutation
