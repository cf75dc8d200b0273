// SPDX-License-Identifier: MIT
#include "report/paint.hpp"

#include <gtest/gtest.h>

namespace driftwarden::paint_test {
namespace {

constexpr Verdict all_verdicts[] = {Verdict::valid, Verdict::qualified, Verdict::undecided, Verdict::void_};

// A text without its colours: whatever stands from an escape to the 'm' that ends it.
std::string without_colour(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\x1b') {
      i = text.find('m', i);
    } else {
      plain += text[i];
    }
  }
  return plain;
}

TEST(Paint, LeavesTheTextAloneWithoutColour) {
  const Paint paint(false);
  for (const Verdict verdict : all_verdicts) EXPECT_EQ(paint.verdict(verdict, "word"), "word");
  EXPECT_EQ(paint.heading("word"), "word");
  EXPECT_EQ(paint.faint("word"), "word");
}

TEST(Paint, AddsNothingButColour) {
  const Paint paint(true);
  for (const Verdict verdict : all_verdicts) EXPECT_EQ(without_colour(paint.verdict(verdict, "word")), "word");
  EXPECT_EQ(paint.heading("word"), "\x1b[1mword\x1b[0m");
  EXPECT_EQ(paint.faint("word"), "\x1b[2mword\x1b[0m");
}

TEST(Paint, TellsVerdictsApart) {
  const Paint paint(true);
  for (const Verdict a : all_verdicts) {
    for (const Verdict b : all_verdicts) {
      EXPECT_EQ(paint.verdict(a, "word") == paint.verdict(b, "word"), a == b);
    }
  }
}

TEST(Padding, CountsCharactersAndNotBytes) {
  EXPECT_EQ(characters_in("25 °C"), 5U);
  EXPECT_EQ(left("°C", 4), "°C  ");
  EXPECT_EQ(right("°C", 4), "  °C");
}

TEST(Padding, LeavesLongTextsWhole) {
  EXPECT_EQ(left("respirable", 4), "respirable");
  EXPECT_EQ(right("respirable", 4), "respirable");
}

}  // namespace
}  // namespace driftwarden::paint_test
