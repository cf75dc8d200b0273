// SPDX-License-Identifier: MIT
#include "statistics/terminal_digits.hpp"

#include <algorithm>
#include <numeric>

#include "quantity/elementary.hpp"
#include "statistics/binomial.hpp"
#include "statistics/chi_squared.hpp"

namespace driftwarden {

namespace {

// Of 0 to n.
std::vector<double> log_factorials(std::size_t n) {
  std::vector<double> logs(n + 1, 0.0);
  for (std::size_t k = 1; k <= n; ++k) logs[k] = logs[k - 1] + elementary::log(static_cast<double>(k));
  return logs;
}

// Adds up the probabilities of all ways to spread N readings evenly by chance over m digits. The order of the digits
// doesn't matter to χ², so only partitions are visited, largest count first: at most 34 000 for 49 readings.
class PartitionSum {
 public:
  PartitionSum(std::size_t readings, std::size_t digits, std::size_t observed_squares)
      : digits_(digits), observed_squares_(observed_squares), log_factorial_(log_factorials(readings)) {
    log_all_ = log_factorial_[readings] + log_factorials(digits)[digits] -
               static_cast<double>(readings) * elementary::log(static_cast<double>(digits));
    visit({readings, readings, digits, 0, 0, 0});
  }

  double upper() const { return std::min(1.0, upper_); }
  double lower() const { return std::min(1.0, lower_); }

 private:
  struct State {
    std::size_t left;         // readings not yet placed
    std::size_t most;         // largest count allowed next
    std::size_t digits_left;  // digits not yet given a count
    std::size_t squares;      // Σ count² so far
    std::size_t same;         // how many digits in a row have the count `most`
    double log_divisor;       // of the factorials of the counts, and of the sizes of groups of equal counts
  };

  void visit(const State& state) {
    if (state.digits_left == 0) {
      if (state.left == 0) add(state);
      return;
    }
    const std::size_t largest = std::min(state.left, state.most);
    const std::size_t smallest = (state.left + state.digits_left - 1) / state.digits_left;
    for (std::size_t count = smallest; count <= largest; ++count) visit(with_count(state, count));
  }

  // Equal counts come one after another, so k of them divide by 1·2·…·k = k!.
  State with_count(const State& state, std::size_t count) const {
    const bool is_repeated = state.digits_left < digits_ && count == state.most;
    const std::size_t same = is_repeated ? state.same + 1 : 1;
    const double log_divisor = state.log_divisor + log_factorial_[count] + elementary::log(static_cast<double>(same));
    return {state.left - count, count, state.digits_left - 1, state.squares + count * count, same, log_divisor};
  }

  void add(const State& state) {
    const double probability = elementary::exp(log_all_ - state.log_divisor);
    if (state.squares >= observed_squares_) upper_ += probability;
    if (state.squares <= observed_squares_) lower_ += probability;
  }

  std::size_t digits_;
  std::size_t observed_squares_;
  std::vector<double> log_factorial_;
  double log_all_ = 0;
  double upper_ = 0;
  double lower_ = 0;
};

std::size_t sum_at(const DigitCounts& counts, const std::vector<std::size_t>& digits) {
  return std::accumulate(digits.begin(), digits.end(), std::size_t{0},
                         [&](std::size_t sum, std::size_t digit) { return sum + counts[digit]; });
}

std::size_t squares_at(const DigitCounts& counts, const std::vector<std::size_t>& digits) {
  return std::accumulate(digits.begin(), digits.end(), std::size_t{0},
                         [&](std::size_t sum, std::size_t digit) { return sum + counts[digit] * counts[digit]; });
}

void set_probabilities(DigitCheck& check, std::size_t digits, std::size_t squares) {
  check.is_exact = check.readings < enough_digits_for_chi_squared;
  if (check.is_exact) {
    const PartitionSum sum(check.readings, digits, squares);
    check.upper_p = sum.upper();
    check.lower_p = sum.lower();
  } else {
    check.upper_p = chi_squared_upper_tail(check.chi_squared, check.dof);
    check.lower_p = chi_squared_cdf(check.chi_squared, check.dof);
  }
}

void set_zero_or_five(DigitCheck& check, const DigitCounts& counts, const std::vector<std::size_t>& digits) {
  const auto of_interest = std::ranges::count_if(digits, [](std::size_t digit) { return digit % 5 == 0; });
  for (const std::size_t digit : digits) check.on_zero_or_five += digit % 5 == 0 ? counts[digit] : 0;
  if (static_cast<std::size_t>(of_interest) == digits.size()) return;
  const double share = static_cast<double>(of_interest) / static_cast<double>(digits.size());
  check.zero_or_five_p = binomial_at_least(check.on_zero_or_five, check.readings, share);
}

}  // namespace

std::vector<std::size_t> possible_last_digits(unsigned step) {
  const std::size_t apart = std::gcd(step, 10U);  // of step 0, which no display has, 10: one digit
  std::vector<std::size_t> digits;
  for (std::size_t digit = 0; digit < 10; digit += apart) digits.push_back(digit);
  return digits;
}

std::optional<DigitCheck> check_last_digits(const DigitCounts& counts, unsigned display_step) {
  const std::vector<std::size_t> digits = possible_last_digits(display_step);
  DigitCheck check;
  check.readings = sum_at(counts, digits);
  check.impossible = std::accumulate(counts.begin(), counts.end(), std::size_t{0}) - check.readings;
  if (check.readings == 0 || digits.size() < 2) return std::nullopt;
  const std::size_t squares = squares_at(counts, digits);
  const auto n = static_cast<double>(check.readings);
  const auto m = static_cast<double>(digits.size());
  check.chi_squared = static_cast<double>(squares) * m / n - n;  // Σ(O - N/m)²/(N/m), multiplied out
  check.dof = m - 1;
  set_probabilities(check, digits.size(), squares);
  set_zero_or_five(check, counts, digits);
  return check;
}

}  // namespace driftwarden
