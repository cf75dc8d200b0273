// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "aerosol/size_distribution.hpp"

namespace driftwarden {

// Which of all airborne particles are meant by "dust" of a kind.
enum class Convention : std::uint8_t { inhalable, thoracic, respirable, high_risk_respirable };
inline constexpr std::string_view convention_words[] = {"inhalable", "thoracic", "respirable", "high-risk respirable"};

std::string_view to_text(Convention convention);

// Of a fraction as samplers name it; none of "total" and whatever else isn't a convention.
std::optional<Convention> convention_named(std::string_view word);

// Sampling convention: the share of all airborne particles of one size that belongs to a fraction.
//
//   I(d) = (1 + e^(−0.06 d)) / 2      S(d) = I(d) · (1 − Φ( ln(d/m) / ln 1.5 ))
//
//   d  aerodynamic diameter, µm      m  median: 11.64 µm thoracic, 4.25 respirable, 2.5 high-risk respirable
//   I  inhalable                     S  the others; high-risk respirable is meant for children, the sick and infirm
//   Source   ISO 7708:1995 and EN 481:1993, from memory. I, the form of S, and 4.25 and 1.5 of the respirable were read
//            in the abstract of S. C. Soderholm, Ann. occup. Hyg. 33 (1989) 301, whose proposal both took up; 11.64 and
//            2.5 µm were read nowhere
//   Valid    0 to 100 µm; the formula goes on beyond, where the conventions say nothing; NaN below 0
//   Example  respirable, 4 µm: 0.893 · 0.559 = 0.500
double convention_share(Convention convention, double d_um);

// The share of an aerosol's mass that a convention takes, good to 1e-13 up to a GSD of 10; NaN for what is no aerosol.
// Of 5 µm, GSD 2, 0.3838 is respirable.
double convention_share(Convention convention, const LognormalAerosol& of);

}  // namespace driftwarden
