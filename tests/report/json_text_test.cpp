// SPDX-License-Identifier: MIT
#include "report/json_text.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace driftwarden::json_text_test {
namespace {

// input: figures whose text has to read back to the same double.

std::string value(std::string_view text) {
  std::string out;
  JsonText(out).value(text);
  return out;
}

std::string value(double figure) {
  std::string out;
  JsonText(out).value(figure);
  return out;
}

TEST(JsonText, ListsTexts) {
  std::string out;
  const std::vector<std::string> two{"a", "\"b\""};
  JsonText(out).begin_object().texts("two", two).texts("none", std::vector<std::string>{}).end_object();
  EXPECT_EQ(out, R"({"two":["a","\"b\""],"none":[]})");
}

TEST(JsonText, TakesInWhatIsJsonAlready) {
  std::string out;
  JsonText(out).begin_object().key("a").raw("[1,2]").member("b", true).end_object();
  EXPECT_EQ(out, R"({"a":[1,2],"b":true})");
}

TEST(JsonText, PutsCommasBetweenMembersAndElementsAndNowhereElse) {
  std::string out;
  JsonText json(out);
  json.begin_object()
      .member("a", "x")
      .key("b")
      .begin_array()
      .value(1.5)
      .begin_object()
      .end_object()
      .begin_array()
      .end_array();
  json.null().end_array().key("c").begin_object().member("d", true).end_object().key("e").null().end_object();
  EXPECT_EQ(out, R"({"a":"x","b":[1.5,{},[],null],"c":{"d":true},"e":null})");
}

TEST(JsonText, TellsATextFromABooleanAndACountFromAFigure) {
  std::string out;
  JsonText json(out);
  json.begin_object().member("text", "yes").member("string", std::string("no")).member("flag", false);
  json.member("count", std::size_t{18446744073709551615U}).member("figure", 2.0).end_object();
  EXPECT_EQ(out, R"({"text":"yes","string":"no","flag":false,"count":18446744073709551615,"figure":2})");
}

// RFC 8259, section 7.
TEST(JsonText, EscapesQuotesBackslashesAndControlCharacters) {
  EXPECT_EQ(value("a\"b\\c/d"), R"("a\"b\\c/d")");
  EXPECT_EQ(value("\n\r\t\b\x01\x1f\x7f"), R"("\n\r\t\u0008\u0001\u001f\u007f")");
  EXPECT_EQ(value(std::string_view("\0", 1)), R"("\u0000")");
}

// derived: what stands around a character does not change how it is written.
TEST(JsonText, WritesACharacterTheSameWhereverItStands) {
  for (int c = 0; c < 0x80; ++c) {
    const std::string alone = value(std::string(1, static_cast<char>(c)));
    const std::string inside = alone.substr(1, alone.size() - 2);
    for (std::size_t before = 0; before < 20; ++before) {
      const std::string text = std::string(before, 'x') + static_cast<char>(c) + std::string(19 - before, '~');
      EXPECT_EQ(value(text), '"' + std::string(before, 'x') + inside + std::string(19 - before, '~') + '"') << c;
    }
  }
}

TEST(JsonText, KeepsUtf8AsItIs) {
  for (const char* text :
       {"°C", "Bø", "漢字", "😀", "\xEF\xBB\xBF", "\xF4\x8F\xBF\xBF", "\xED\x9F\xBF", "\xEE\x80\x80"}) {
    EXPECT_EQ(value(text), "\"" + std::string(text) + "\"");
  }
}

// RFC 3629: no lone or missing continuation, no overlong form, no surrogate, nothing beyond U+10FFFF.
TEST(JsonText, ReplacesEveryByteThatIsNoUtf8) {
  const std::string replaced = "\xEF\xBF\xBD";
  EXPECT_EQ(value("a\x80z"), "\"a" + replaced + "z\"");
  EXPECT_EQ(value("\xC3"), "\"" + replaced + "\"");
  EXPECT_EQ(value("\xC3z"), "\"" + replaced + "z\"");
  EXPECT_EQ(value("\xE2\x82"), "\"" + replaced + replaced + "\"");
  EXPECT_EQ(value("\xC0\xAF"), "\"" + replaced + replaced + "\"");
  EXPECT_EQ(value("\xE0\x80\xAF"), "\"" + replaced + replaced + replaced + "\"");
  EXPECT_EQ(value("\xED\xA0\x80"), "\"" + replaced + replaced + replaced + "\"");
  EXPECT_EQ(value("\xF0\x80\x80\x80"), "\"" + replaced + replaced + replaced + replaced + "\"");
  EXPECT_EQ(value("\xF4\x90\x80\x80"), "\"" + replaced + replaced + replaced + replaced + "\"");
  EXPECT_EQ(value("\xF5\x80\x80\x80"), "\"" + replaced + replaced + replaced + replaced + "\"");
  EXPECT_EQ(value("\xFF"), "\"" + replaced + "\"");
}

TEST(JsonText, IsReadBackByAnotherReaderWhateverTheBytes) {
  std::string bytes;
  for (int c = 0; c < 256; ++c) bytes += static_cast<char>(c);
  const std::string once = nlohmann::json::parse(value(bytes)).get<std::string>();
  EXPECT_EQ(once.substr(0, 128), bytes.substr(0, 128));
  EXPECT_EQ(nlohmann::json::parse(value(once)).get<std::string>(), once);
}

TEST(JsonText, KeysAreEscapedToo) {
  std::string out;
  JsonText(out).begin_object().member("a\"b", "c").end_object();
  EXPECT_EQ(out, R"({"a\"b":"c"})");
}

TEST(JsonFigure, IsTheShortestTextThatReadsBackToTheSameDouble) {
  EXPECT_EQ(value(480.0), "480");
  EXPECT_EQ(value(-4.75), "-4.75");
  for (const double figure : {1.0 / 3, 1e22, 1e-7, 4.9e-324, 1.7976931348623157e308}) {
    EXPECT_EQ(nlohmann::json::parse(value(figure)).get<double>(), figure);
  }
}

TEST(JsonText, HasNullForATextThatNobodyWrote) {
  std::string out;
  JsonText(out).begin_object().text_or_null("a", "north").text_or_null("b", "").end_object();
  EXPECT_EQ(out, R"({"a":"north","b":null})");
}

TEST(JsonFigure, IsNullWhereThereIsNone) {
  EXPECT_EQ(value(std::numeric_limits<double>::quiet_NaN()), "null");
  EXPECT_EQ(value(std::numeric_limits<double>::infinity()), "null");
}

}  // namespace
}  // namespace driftwarden::json_text_test
