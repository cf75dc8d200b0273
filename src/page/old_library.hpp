// SPDX-License-Identifier: MIT
#pragma once

// What the standard library of Debian's emscripten (libc++ 13) lacks of C++20, as far as this project uses it, written
// by the standard's descriptions. Included before every source of the page's build, and of no other.

#include <algorithm>
#include <bit>
#include <charconv>
#include <compare>
#include <cstdint>
#include <cstring>
#include <functional>
#include <iterator>
#include <memory>
#include <ranges>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

// What its C library lacks: stdio.h of Linux, which asks the file system for more than the one of a page can do.
inline constexpr unsigned RENAME_NOREPLACE = 1;
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned how);

_LIBCPP_BEGIN_NAMESPACE_STD

// Double to text and back: the shortest digits that read back, and what they say.
to_chars_result to_chars(char* first, char* last, double value);
to_chars_result to_chars(char* first, char* last, double value, chars_format format);
to_chars_result to_chars(char* first, char* last, double value, chars_format format, int precision);
from_chars_result from_chars(const char* first, const char* last, double& value);

template <class To, class From>
constexpr To bit_cast(const From& from) noexcept {
  return __builtin_bit_cast(To, from);
}

template <class T>
unique_ptr<T> make_unique_for_overwrite(size_t count) {
  return unique_ptr<T>(new remove_extent_t<T>[count]);
}

template <class C, class T, class A>
strong_ordering operator<=>(const basic_string<C, T, A>& a, const basic_string<C, T, A>& b) {
  return a.compare(b) <=> 0;
}
template <class C, class T>
constexpr strong_ordering operator<=>(basic_string_view<C, T> a, basic_string_view<C, T> b) {
  return a.compare(b) <=> 0;
}

namespace ranges {

// A comparison of what projections make of two elements.
template <class Compare, class ProjectA, class ProjectB = ProjectA>
constexpr auto projected_by(Compare& compare, ProjectA& a, ProjectB& b) {
  return [&](auto&& x, auto&& y) -> bool {
    return std::invoke(compare, std::invoke(a, std::forward<decltype(x)>(x)),
                       std::invoke(b, std::forward<decltype(y)>(y)));
  };
}
template <class Predicate, class Project>
constexpr auto tested_by(Predicate& predicate, Project& project) {
  return [&](auto&& x) -> bool { return std::invoke(predicate, std::invoke(project, std::forward<decltype(x)>(x))); };
}

template <class I, class S, class T, class Project = identity>
requires(!requires(const I& range) { std::begin(range); }) constexpr I
    find(I first, S last, const T& value, Project project = {}) {
  for (; first != last && !(std::invoke(project, *first) == value); ++first) {
  }
  return first;
}
template <class R, class T, class Project = identity>
requires requires(R& range) { std::begin(range); }
constexpr auto find(R&& range, const T& value, Project project = {}) {
  return ranges::find(std::begin(range), std::end(range), value, std::move(project));
}
template <class R, class Predicate, class Project = identity>
constexpr auto find_if(R&& range, Predicate predicate, Project project = {}) {
  return std::find_if(std::begin(range), std::end(range), tested_by(predicate, project));
}
template <class R, class Predicate, class Project = identity>
constexpr bool any_of(R&& range, Predicate predicate, Project project = {}) {
  return std::any_of(std::begin(range), std::end(range), tested_by(predicate, project));
}
template <class R, class Predicate, class Project = identity>
constexpr bool all_of(R&& range, Predicate predicate, Project project = {}) {
  return std::all_of(std::begin(range), std::end(range), tested_by(predicate, project));
}
template <class R, class Predicate, class Project = identity>
constexpr bool none_of(R&& range, Predicate predicate, Project project = {}) {
  return std::none_of(std::begin(range), std::end(range), tested_by(predicate, project));
}
template <class R, class Predicate, class Project = identity>
constexpr auto count_if(R&& range, Predicate predicate, Project project = {}) {
  return std::count_if(std::begin(range), std::end(range), tested_by(predicate, project));
}
template <class R, class T, class Project = identity>
constexpr auto count(R&& range, const T& value, Project project = {}) {
  return ranges::count_if(
      range, [&value](const auto& x) { return x == value; }, std::move(project));
}

template <class R, class Compare = less, class Project = identity>
constexpr void sort(R&& range, Compare compare = {}, Project project = {}) {
  std::sort(std::begin(range), std::end(range), projected_by(compare, project, project));
}
template <class R, class Compare = less, class Project = identity>
void stable_sort(R&& range, Compare compare = {}, Project project = {}) {
  std::stable_sort(std::begin(range), std::end(range), projected_by(compare, project, project));
}
template <class R, class Compare = less, class Project = identity>
constexpr bool is_sorted(R&& range, Compare compare = {}, Project project = {}) {
  return std::is_sorted(std::begin(range), std::end(range), projected_by(compare, project, project));
}
template <class R, class T, class Compare = less, class Project = identity>
constexpr auto lower_bound(R&& range, const T& value, Compare compare = {}, Project project = {}) {
  identity as_it_is;
  return std::lower_bound(std::begin(range), std::end(range), value, projected_by(compare, project, as_it_is));
}
template <class R, class T, class Compare = less, class Project = identity>
constexpr auto upper_bound(R&& range, const T& value, Compare compare = {}, Project project = {}) {
  identity as_it_is;
  return std::upper_bound(std::begin(range), std::end(range), value, projected_by(compare, as_it_is, project));
}
template <class R, class T, class Compare = less, class Project = identity>
constexpr auto equal_range(R&& range, const T& value, Compare compare = {}, Project project = {}) {
  return subrange(ranges::lower_bound(range, value, compare, project),
                  ranges::upper_bound(range, value, compare, project));
}
template <class R, class Compare = less, class Project = identity>
constexpr auto min_element(R&& range, Compare compare = {}, Project project = {}) {
  return std::min_element(std::begin(range), std::end(range), projected_by(compare, project, project));
}
template <class R, class Compare = less, class Project = identity>
constexpr auto max_element(R&& range, Compare compare = {}, Project project = {}) {
  return std::max_element(std::begin(range), std::end(range), projected_by(compare, project, project));
}
template <class T>
struct MinMax {
  T min;
  T max;
};
template <class R>
constexpr auto minmax(R&& range) {
  const auto found = std::minmax_element(std::begin(range), std::end(range));
  return MinMax<decay_t<decltype(*found.first)>>{*found.first, *found.second};
}

template <class R, class Out, class Predicate, class Project = identity>
constexpr void copy_if(R&& range, Out out, Predicate predicate, Project project = {}) {
  std::copy_if(std::begin(range), std::end(range), out, tested_by(predicate, project));
}
template <class R, class Out, class Change>
constexpr void transform(R&& range, Out out, Change change) {
  std::transform(std::begin(range), std::end(range), out, change);
}
template <class A, class B, class Out>
constexpr void set_union(A&& a, B&& b, Out out) {
  std::set_union(std::begin(a), std::end(a), std::begin(b), std::end(b), out);
}
template <class R>
constexpr void reverse(R&& range) {
  std::reverse(std::begin(range), std::end(range));
}
template <class R, class T>
constexpr void replace(R&& range, const T& old, const T& other) {
  std::replace(std::begin(range), std::end(range), old, other);
}
template <class R, class Predicate, class T>
constexpr void replace_if(R&& range, Predicate predicate, const T& other) {
  std::replace_if(std::begin(range), std::end(range), predicate, other);
}

template <class A, class B, class Equal = equal_to, class ProjectA = identity, class ProjectB = identity>
constexpr bool equal(A&& a, B&& b, Equal is_equal = {}, ProjectA of_a = {}, ProjectB of_b = {}) {
  return std::equal(std::begin(a), std::end(a), std::begin(b), std::end(b), projected_by(is_equal, of_a, of_b));
}
template <class A, class B>
struct Mismatch {
  A in1;
  B in2;
};
template <class A, class B>
constexpr auto mismatch(A&& a, B&& b) {
  const auto [left, right] = std::mismatch(std::begin(a), std::end(a), std::begin(b), std::end(b));
  return Mismatch<decay_t<decltype(left)>, decay_t<decltype(right)>>{left, right};
}

}  // namespace ranges

namespace views {

// The whole numbers from one to the one before another.
template <class T>
struct Iota {
  struct Iterator {
    using iterator_category = random_access_iterator_tag;
    using value_type = T;
    using difference_type = int64_t;
    using pointer = const T*;
    using reference = T;

    constexpr T operator*() const { return at; }
    constexpr Iterator& operator++() { return ++at, *this; }
    constexpr Iterator& operator+=(difference_type steps) { return at += static_cast<T>(steps), *this; }
    friend constexpr difference_type operator-(Iterator a, Iterator b) {
      return static_cast<difference_type>(a.at - b.at);
    }
    friend constexpr bool operator==(Iterator, Iterator) = default;

    T at;
  };
  constexpr Iterator begin() const { return {first}; }
  constexpr Iterator end() const { return {last}; }

  T first;
  T last;
};
template <class T>
constexpr Iota<T> iota(T first, T last) {
  return {first, last};
}

}  // namespace views

_LIBCPP_END_NAMESPACE_STD
