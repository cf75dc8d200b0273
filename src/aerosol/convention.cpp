// SPDX-License-Identifier: MIT
#include "aerosol/convention.hpp"

#include <algorithm>
#include <iterator>
#include <limits>

#include "aerosol/penetration.hpp"
#include "quantity/elementary.hpp"

namespace driftwarden {
namespace {

// What of the inhaled goes on, in the order of the enumeration; all of it is inhalable.
constexpr PenetrationCurve of_the_inhaled[] = {
    {std::numeric_limits<double>::infinity(), 1.5}, {11.64, 1.5}, {4.25, 1.5}, {2.5, 1.5}};
static_assert(std::size(of_the_inhaled) == std::size(convention_words));

double inhalable_share(double d_um) { return (1 + elementary::exp(-0.06 * d_um)) / 2; }

}  // namespace

std::string_view to_text(Convention convention) { return convention_words[static_cast<std::size_t>(convention)]; }

std::optional<Convention> convention_named(std::string_view word) {
  const auto* const found = std::ranges::find(convention_words, word);
  if (found == std::end(convention_words)) return std::nullopt;
  return static_cast<Convention>(found - std::begin(convention_words));
}

double convention_share(Convention convention, double d_um) {
  if (!(d_um >= 0)) return no_figure;
  return inhalable_share(d_um) * penetration(of_the_inhaled[static_cast<std::size_t>(convention)], d_um);
}

double convention_share(Convention convention, const LognormalAerosol& of) {
  if (!is_aerosol(of)) return no_figure;
  double sum = 0;
  for (const SizeShare& size : size_shares(of)) sum += size.share * convention_share(convention, size.d_um);
  return sum;
}

}  // namespace driftwarden
