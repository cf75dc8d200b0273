// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "verdict/outlook.hpp"

namespace driftwarden {

// Figures that come from limits and suppositions: zeros behind the point say nothing of them.
std::string rounded_figure(double figure, int digits);
std::string litres(double volume);
std::string minutes_text(double minutes);
std::string planned_minutes(double whole);

// A line with its label, broken between words: "  least       200 L, 100 min".
std::string labelled(std::string_view label, const std::string& text);

// "at least 200 L, else void (own/volume)"
std::string rule_words(const Rule& rule);

// An end of the window with its reason: "200 L, 100 min: 0.1 mg to be quantified: 1000 · 0.1 mg / 0.5 mg/m3".
std::string end_words(const SampleOutlook& outlook, const VolumeEnd& end);

// "0.5 mg/m3 has to be found, 4 mg/m3 of dust is expected"; "" where nothing is asked.
std::string asked_words(const VolumeAsked& asked);

// "at least 118 min (200 L), at most 480 min (816 L)"; that no volume, or no whole minute, fits.
std::string window_words(const VolumeAhead& volume);

// The same in a line for the sample's sheet, with what is asked; "" where neither a target nor what is expected is
// planned.
std::string window_text(const VolumeAsked& asked, const VolumeAhead& volume);

}  // namespace driftwarden
