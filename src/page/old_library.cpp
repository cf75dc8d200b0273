// SPDX-License-Identifier: MIT
#include <dragonbox/dragonbox.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

// The files of a page are asked for by one thread: nothing comes between the look and the deed.
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned how) {
  struct stat there {};
  if (how == RENAME_NOREPLACE && ::fstatat(to_folder, to, &there, AT_SYMLINK_NOFOLLOW) == 0) return errno = EEXIST, -1;
  return ::renameat(from_folder, from, to_folder, to);
}

_LIBCPP_BEGIN_NAMESPACE_STD
namespace {

to_chars_result put(const string& text, char* first, char* last) {
  if (static_cast<ptrdiff_t>(text.size()) > last - first) return {last, errc::value_too_large};
  return {std::copy(text.begin(), text.end(), first), errc{}};
}

string fixed_text(const string& digits, int exponent) {
  const int before_point = static_cast<int>(digits.size()) + exponent;
  if (exponent >= 0) return digits + string(static_cast<size_t>(exponent), '0');
  if (before_point <= 0) return "0." + string(static_cast<size_t>(-before_point), '0') + digits;
  return string(digits).insert(static_cast<size_t>(before_point), 1, '.');
}

string scientific_text(const string& digits, int exponent) {
  const int power = exponent + static_cast<int>(digits.size()) - 1;
  const string number = to_string(std::abs(power));
  string text = digits.size() > 1 ? string(digits).insert(1, 1, '.') : digits;
  return text + (power < 0 ? "e-" : "e+") + (number.size() < 2 ? "0" : "") + number;
}

// The end of what is a number at the begin of a text, as the grammar of strtod has it without signs before it but '-',
// blanks and hexadecimals; `first` where there is none.
const char* end_of_number(const char* first, const char* last) {
  const auto skip_digits = [last](const char* at) {
    while (at != last && *at >= '0' && *at <= '9') ++at;
    return at;
  };
  const char* begin = first != last && *first == '-' ? first + 1 : first;
  const char* at = skip_digits(begin);
  auto count = at - begin;
  if (at != last && *at == '.') {
    const char* const end = skip_digits(at + 1);
    count += end - at - 1;
    at = end;
  }
  if (count == 0) return first;
  if (at == last || (*at != 'e' && *at != 'E')) return at;
  const char* power = at + 1;
  if (power != last && (*power == '-' || *power == '+')) ++power;
  const char* const end = skip_digits(power);
  return end == power ? at : end;
}

}  // namespace

to_chars_result to_chars(char* first, char* last, double value, chars_format format) {
  const bool is_fixed = format == chars_format::fixed;
  if (!std::isfinite(value) || value == 0) return to_chars(first, last, value, format, 0);
  // Beyond these every double is a whole number, and stands there with all its digits.
  if (is_fixed && std::fabs(value) >= 9007199254740992.0) return to_chars(first, last, value, format, 0);
  const auto decimal = jkj::dragonbox::to_decimal(value);
  const string digits = std::to_string(decimal.significand);
  const string sign = decimal.is_negative ? "-" : "";
  return put(sign + (is_fixed ? fixed_text : scientific_text)(digits, decimal.exponent), first, last);
}

// The shorter of the two; of equals the fixed one.
to_chars_result to_chars(char* first, char* last, double value) {
  array<char, 512> fixed;
  array<char, 64> scientific;
  const auto end = to_chars(fixed.data(), fixed.data() + fixed.size(), value, chars_format::fixed).ptr;
  const auto other =
      to_chars(scientific.data(), scientific.data() + scientific.size(), value, chars_format::scientific).ptr;
  if (end - fixed.data() <= other - scientific.data()) return put({fixed.data(), end}, first, last);
  return put({scientific.data(), other}, first, last);
}

to_chars_result to_chars(char* first, char* last, double value, chars_format format, int precision) {
  string text(512, '\0');
  const char* const how = format == chars_format::fixed ? "%.*f" : "%.*e";
  text.resize(static_cast<size_t>(std::snprintf(text.data(), text.size(), how, precision, value)));
  return put(text, first, last);
}

from_chars_result from_chars(const char* first, const char* last, double& value) {
  const char* const end = end_of_number(first, last);
  if (end == first) return {first, errc::invalid_argument};
  const string text(first, end);
  const double read = std::strtod(text.c_str(), nullptr);
  const bool has_digits = text.find_first_of("123456789") < text.find_first_of("eE");
  if (std::isinf(read) || (read == 0 && has_digits)) return {end, errc::result_out_of_range};
  value = read;
  return {end, errc{}};
}

_LIBCPP_END_NAMESPACE_STD
