// SPDX-License-Identifier: MIT
#include "report/letter.hpp"

#include <gtest/gtest.h>

#include "report/custody_book.hpp"
#include "report/html_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::letter_test {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

Letter letter_about(const BookText& text) {
  const JudgedBook book(text, {{{Subject::sample, "drift", "within", {"5 %"}}}});
  std::vector<Row> all(book.book().samples.size());
  for (Row row = 0; row < all.size(); ++row) all[row] = row;
  Letter letter = letter_of(book.screening(), all);
  letter.about = "Batch <7>";
  letter.version = "0.2.0";
  return letter;
}

TEST(Letter, TellsApartWhatStandsIsVoidAndIsOpen) {
  const Letter letter = letter_about(custody_text());
  EXPECT_EQ(letter.blanks, 1U);
  ASSERT_EQ(letter.of(Verdict::void_).size(), 1U);
  EXPECT_EQ(letter.of(Verdict::void_)[0]->sample, "S2");
  EXPECT_EQ(letter.of(Verdict::void_)[0]->volume, "");
  EXPECT_EQ(letter.of(Verdict::void_)[0]->reasons.size(), 1U);
  EXPECT_EQ(letter.of(Verdict::undecided).size(), 1U);
  ASSERT_EQ(letter.of(Verdict::valid).size(), 1U);
  EXPECT_EQ(letter.of(Verdict::valid)[0]->volume, "948.0");
}

TEST(Letter, RoundsAVolumeToTheDigitsOfItsUncertainty) {
  BookText known;
  known.certificates = certificates_with_uncertainty;
  known.readings = two_readings_each;
  const Letter letter = letter_about(known);
  ASSERT_EQ(letter.lines.size(), 1U);
  EXPECT_EQ(letter.lines[0].volume.substr(0, 8), "948 ± 1") << letter.lines[0].volume;
}

TEST(Letter, SaysEachThingInASectionOfItsOwn) {
  const std::string page = letter_page(letter_about(custody_text()));
  std::size_t before = 0;
  for (const char* heading : {"What was sampled", "What stands", "What is void, and why", "What is still open",
                              "What comes next", "How to check it"}) {
    const std::size_t at = page.find("<h2>" + std::string(heading) + "</h2>");
    EXPECT_TRUE(at != std::string::npos && at > before) << heading;
    before = at;
  }
  EXPECT_TRUE(holds(page, "<bdi>Batch &lt;7&gt;</bdi>"));
  EXPECT_TRUE(holds(page, html_of(cautions)));
  EXPECT_FALSE(holds(page, "own/drift")) << "names of rules are for the evidence";
}

// One page for a batch that lacks the same throughout.
TEST(Letter, SaysOnceWhatIsToBeSaidOfEachThatStands) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings += "2026-09-21T07:30,pre,S2,V1,2.000\n2026-09-21T16:10,post,S2,V1,1.950\n";
  const JudgedBook book(text, {{{Subject::sample, "pre.count", "at_least", {"3"}, Otherwise::qualify}}});
  const std::string page = letter_page(letter_of(book.screening(), {0, 1}));
  const std::string said = "1 reading was taken before sampling; the rule asks for at least 3";
  EXPECT_NE(page.find("<p>Of each of them: <bdi>" + said), std::string::npos);
  EXPECT_EQ(page.find(said, page.find(said) + 1), std::string::npos);
}

TEST(Letter, HasNoSectionOfWhatThereIsNot) {
  const std::string page = letter_page(letter_about({}));
  EXPECT_FALSE(holds(page, "What is void"));
  EXPECT_FALSE(holds(page, "still open"));
  EXPECT_FALSE(holds(page, "sampled again"));
}

}  // namespace
}  // namespace driftwarden::letter_test
