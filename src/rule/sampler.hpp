// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>

#include "aerosol/cut_law.hpp"
#include "diagnostic/result.hpp"
#include "rule/rule.hpp"

namespace driftwarden {

// Which law the cut of a sampler goes by: that of theory, or a power of the flow with an exponent of its own.
enum class CutKind : std::uint8_t { impactor, elutriator, cyclone };
template <>
std::span<const std::string_view> words<CutKind>();

// Whether theory gives its exponent, of the cut and its slip.
bool is_of_theory(const std::optional<CutKind>& kind);

// What is in line before the pump, and the flow it was made for. Nothing is assumed of the cut: what is known of it is
// given with where it is from, or not at all.
struct Sampler {
  std::string name;
  std::string title;
  std::optional<double> nominal_l_min;
  std::string fraction;
  std::optional<double> cut_exponent;  // n in d50 ∝ Q^-n: 50 % cut size and flow
  std::optional<CutKind> cut_kind;
  // The penetration curve, all or nothing: d50 at the nominal flow, its spread, and the flows over which its law holds.
  std::optional<double> cut_um;
  std::optional<double> cut_spread;
  Bounds cut_flows_l_min;
  std::string cut_source;
  std::string pack;  // "" where the book describes it
  std::string source;
  std::optional<Standing> standing;  // how its flow is known, where that is said
  Place place;
};

// How its cut goes with the flow. Without a d50 that of nothing but the exponent; without an exponent nobody knows how.
CutLaw cut_law_of(const Sampler& sampler);

// The samplers of a book's packs and of the book itself, which wins. Two packs may describe a sampler twice, but not
// differently (nominal flow, fraction, cut).
Result<std::map<std::string, Sampler>> combine_samplers(std::span<const Sampler> of_packs,
                                                        std::span<const Sampler> of_book);

}  // namespace driftwarden
