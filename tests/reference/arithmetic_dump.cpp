// SPDX-License-Identifier: MIT
// Prints what the functions behind all figures give, bit by bit, for COUNT arguments each; the same text on every
// machine.
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "quantity/elementary.hpp"
#include "statistics/special_functions.hpp"

namespace {

using namespace driftwarden;

// Knuth's generator of MMIX: whole numbers only, so the arguments are the same everywhere.
class Chance {
 public:
  double between(double low, double high) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return low + (high - low) * (static_cast<double>(state_ >> 11U) * 0x1p-53);
  }

 private:
  std::uint64_t state_ = 20261128;
};

void print(const char* function, double value) { std::printf("%s %a\n", function, value); }

void print_elementary(Chance& chance) {
  print("exp", elementary::exp(chance.between(-750, 720)));
  print("expm1", elementary::expm1(chance.between(-2, 2)));
  print("log", elementary::log(elementary::exp(chance.between(-700, 700))));
  print("log1p", elementary::log1p(chance.between(-1, 3)));
  print("log10", elementary::log10(chance.between(0, 1000)));
  const double base = chance.between(0, 3);  // named: a compiler may work out arguments in any order
  const double other = chance.between(-40, 40);
  print("pow", elementary::pow(base, other));
  print("hypot", elementary::hypot(base, other));
  print("sin", elementary::sin(chance.between(-10, 10)));
  print("cos", elementary::cos(chance.between(-10, 10)));
  print("asin", elementary::asin(chance.between(-1, 1)));
  print("acos", elementary::acos(chance.between(-1, 1)));
}

void print_special(Chance& chance, double share, double dof, double other) {
  print("erfc", special::erfc(chance.between(-6, 10)));
  print("erfc_inverse", special::erfc_inverse(2 * share));
  print("gamma", special::gamma(chance.between(0, 60)));
  print("gamma_ratio", special::gamma_ratio(dof / 2, 0.5));
  print("gamma_below", special::gamma_below(dof / 2, chance.between(0, 60)));
  print("gamma_above", special::gamma_above(dof / 2, chance.between(0, 60)));
  print("beta_below", special::beta_below(dof, other, share));
  print("student_t_cdf", special::student_t_cdf(dof, chance.between(-6, 6)));
  print("student_t_quantile", special::student_t_quantile(dof, share));
  print("student_t_quantile", special::student_t_quantile(chance.between(0.5, 100), share));
}

}  // namespace

int main(int count_of_words, char** words) {
  const long count = count_of_words > 1 ? std::strtol(words[1], nullptr, 10) : 1000;
  Chance chance;
  for (long i = 0; i < count; ++i) {
    print_elementary(chance);
    const auto dof = static_cast<double>(1 + i % 60);
    print_special(chance, chance.between(0, 1), dof, static_cast<double>(1 + i % 37));
  }
}
