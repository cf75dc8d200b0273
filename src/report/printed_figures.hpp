// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "quantity/quantity.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// A sample's figures as a table for people prints them, without units; "" where one is missing. Flows in L/min, drift
// in percent with as many decimals as show on which side of its limit it lies, volumes in L.
struct SampleFigures {
  std::string minutes;
  std::string pre;
  std::string post;
  std::string drift;
  std::string volume;
  std::string uncertainty;  // expanded, of the volume
  std::string volume_reference;
};
SampleFigures figures_of(const Screening& screening, const SampleResult& result);

// What a sample's cell of words holds; "" where it holds nothing.
std::string words_of(const Book& book, const Column<TextId>& column, Row sample);

// "25 °C, 101.325 kPa": the temperature with at most two decimals.
std::string conditions_text(const Conditions& conditions);

}  // namespace driftwarden
