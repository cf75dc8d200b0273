// SPDX-License-Identifier: MIT
#include "rule/english.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <vector>

#include "rule/pack.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::english_test {
namespace {

// Each sentence of the table about a measure's figure.
std::vector<std::string> sentences_of(const MeasureTexts& texts) {
  std::vector<std::string> sentences;
  for (const std::string_view text : {texts.says, texts.negative, texts.none, texts.one, texts.missing}) {
    if (!text.empty()) sentences.emplace_back(text);
  }
  return sentences;
}

template <class Check>
void every_sentence(Check check) {
  for (const auto& rows : english.measures) {
    for (const MeasureTexts& row : rows) {
      const Measure& measure = measures(row.of)[row.number];
      for (const std::string& sentence : sentences_of(row)) check(measure, sentence);
    }
  }
}

std::ptrdiff_t words_in(const std::string& sentence, const char* words) {
  const std::regex pattern(std::string("\\b(") + words + ")\\b", std::regex::icase);
  return std::distance(std::sregex_iterator(sentence.begin(), sentence.end(), pattern), std::sregex_iterator());
}

TEST(English, IsComplete) { EXPECT_TRUE(texts_check::is_complete(english)); }

// What the compiler asks of a table is asked here of altered ones.
TEST(English, IsIncompleteWithoutAnyOfItsSentences) {
  std::vector<MeasureTexts> rows(english.measures[0].begin(), english.measures[0].end());
  Texts texts = english;
  texts.measures[0] = rows;
  EXPECT_TRUE(texts_check::is_complete(texts));
  for (MeasureTexts& row : rows) {
    const MeasureTexts whole = row;
    row.missing = "";
    EXPECT_FALSE(texts_check::is_complete(texts)) << row.number;
    row = whole;
    row.says = "The {nobody} is open";
    EXPECT_FALSE(texts_check::is_complete(texts)) << row.number;
    row.says = "The {figure is open";
    EXPECT_FALSE(texts_check::is_complete(texts)) << row.number;
    row = whole;
  }
  std::swap(rows[0], rows[1]);
  EXPECT_FALSE(texts_check::is_complete(texts)) << "out of order";
  std::swap(rows[0], rows[1]);
  texts.measures[0] = std::span<const MeasureTexts>(rows).first(rows.size() - 1);
  EXPECT_FALSE(texts_check::is_complete(texts)) << "one measure short";
  texts = english;
  texts.limits[2].broken = "";
  EXPECT_FALSE(texts_check::is_complete(texts));
  texts = english;
  texts.lacks.humidity = "";
  EXPECT_FALSE(texts_check::is_complete(texts));
}

TEST(English, SpeaksNoNamesOfVariables) {
  every_sentence([](const Measure& measure, const std::string& sentence) {
    if (measure.name.find_first_of(".-") == std::string_view::npos) return;
    EXPECT_EQ(sentence.find(measure.name), std::string::npos) << sentence;
    EXPECT_EQ(words_in(sentence, "rsd|pre|post|sd|n"), 0) << sentence;
  });
}

TEST(English, DeniesOnceAtMost) {
  every_sentence([](const Measure&, const std::string& sentence) {
    EXPECT_LE(words_in(sentence, "not|no|nobody|nothing|never|without|neither|none|lacks?|unknown"), 1) << sentence;
  });
}

TEST(English, BeginsWithACapitalOrAName) {
  every_sentence([](const Measure&, const std::string& sentence) {
    EXPECT_TRUE((sentence[0] >= 'A' && sentence[0] <= 'Z') || sentence[0] == '{' || sentence[0] == '1') << sentence;
    EXPECT_NE(sentence.back(), '.') << sentence;
  });
}

// A reason speaks of the sampler that its rule is about, or of none.
TEST(English, OfTheShippedReasonsNamesNoOtherSampler) {
  const std::regex kinds("cyclone|elutriator|impactor|cassette|cuts? at another size|selects by", std::regex::icase);
  std::size_t rules = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(project_folder()) / "rules")) {
    if (entry.path().extension() != ".toml") continue;
    std::ifstream file(entry.path());
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    const Result<Pack> pack = parse_pack(text, entry.path().filename().string());
    ASSERT_TRUE(pack) << entry.path();
    for (const Rule& rule : pack->rules) {
      ++rules;
      const bool is_about_a_sampler = std::ranges::any_of(rule.where, [](const Condition& condition) {
        return condition.field == "sampler" || condition.field == "fraction";
      });
      const bool names_one = std::regex_search(rule.reason + rule.sentence, kinds);
      EXPECT_TRUE(!names_one || is_about_a_sampler) << rule.full_name() << ": " << rule.reason;
    }
  }
  EXPECT_GT(rules, 80U);
}

}  // namespace
}  // namespace driftwarden::english_test
