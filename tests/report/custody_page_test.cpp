// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/custody_book.hpp"
#include "report/custody_sheet.hpp"
#include "report/html_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::custody_page_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(CustodyPage, HasEverySampleTheVoidOnesApartAndLinesToSign) {
  const std::string page = custody_page(custody_of(custody_text()));
  const std::size_t voids = page.find("Void: no air volume is stated for these");
  ASSERT_NE(voids, std::string::npos);
  for (const char* name : {"S1", "S3", "K1"}) EXPECT_LT(page.find("<bdi>" + std::string(name) + "</bdi>"), voids);
  EXPECT_GT(page.find("<bdi>S2</bdi>"), voids);
  EXPECT_TRUE(has(page, "<td class=\"figure\" data-label=\"volume, L\"><bdi>948.0</bdi></td>"));
  EXPECT_TRUE(has(page, "<bdi>fume, metals</bdi>"));
  EXPECT_TRUE(
      has(page, "The flow fell 10.0 %, from 2.000 L/min before sampling to 1.800 L/min after; the limit is 5 %"));
  EXPECT_TRUE(has(page, "<td data-label=\"date and time\"></td>"));
  EXPECT_TRUE(has(page, "undecided"));
}

TEST(CustodyPage, TellsWhoSendsWhatToWhomAndLeavesALineForWhatNobodySaid) {
  CustodySheet sheet = custody_of(custody_text());
  sheet.consignment.reference.clear();
  const std::string page = custody_page(sheet);
  EXPECT_TRUE(has(page, "<dt>From</dt><dd class=\"\"><bdi>Quarry office</bdi><br><bdi>Lane 1</bdi></dd>")) << page;
  EXPECT_TRUE(has(page, "<dt>To the laboratory</dt><dd class=\"\"><bdi>Dust laboratory</bdi></dd>"));
  EXPECT_TRUE(has(page, "<dt>Laboratory&#39;s reference</dt><dd class=\"to-write\"></dd>"));
  EXPECT_TRUE(has(page, "<dt>Sampler</dt><dd class=\"to-write\"></dd>"));
  EXPECT_TRUE(has(page, "<td class=\"medium\" data-label=\"medium\"><bdi>C-1</bdi></td>"));
}

// Across the sheet, so that a long remark doesn't squeeze the figures.
TEST(CustodyPage, HasRemarksBelowTheirRow) {
  const std::string page = custody_page(custody_of(custody_text()));
  EXPECT_TRUE(has(page, "<tr class=\"below\"><td colspan=\"10\"><bdi>noted: wet filter</bdi></td></tr>")) << page;
  EXPECT_TRUE(has(page, "<td colspan=\"10\"><bdi>analysis: dust; taken by: not said</bdi><bdi>undecided: "));
  EXPECT_TRUE(has(page, "<td colspan=\"4\"><bdi>The flow fell 10.0 %"));
}

TEST(CustodyPage, IsPrintedOnThePaperThatIsNamed) {
  CustodySheet sheet = custody_of(custody_text());
  EXPECT_FALSE(has(custody_page(sheet), "@page{size:"));
  sheet.paper = "letter";
  EXPECT_TRUE(has(custody_page(sheet), "@page{size:letter}"));
}

TEST(CustodyPage, WithoutVoidSamplesHasNoTableOfThem) {
  CustodySheet sheet = custody_of(custody_text());
  sheet.voids.clear();
  EXPECT_FALSE(has(custody_page(sheet), "no air volume is stated"));
}

TEST(CustodyPage, TellsItsCautions) {
  const std::string page = custody_page(custody_of(custody_text()));
  EXPECT_TRUE(has(page, html_of(cautions))) << page;
}

// Whatever a book holds, it is text on the page.
TEST(CustodyPage, TakesNoTextOfTheBookForMarkup) {
  const std::string bad = "<img src=x onerror=alert(1)>&\"'\x1b\xE2\x80\xAE";
  CustodySheet sheet = custody_of(custody_text());
  sheet.title = sheet.batch = sheet.zone = bad;
  sheet.consignment = {"", {}, {bad}, {bad, bad}, bad};
  for (auto* lines : {&sheet.lines, &sheet.voids}) {
    for (CustodyLine& line : *lines) {
      line.sample = line.method = line.analysis = line.date = line.start = line.stop = bad;
      line.pump = line.medium = line.sampler = line.taken_by = bad;
      line.remarks = line.reasons = {bad, bad};
    }
  }
  const std::string page = custody_page(sheet);
  EXPECT_FALSE(has(page, "<img"));
  EXPECT_FALSE(has(page, "onerror=alert(1)>"));
  EXPECT_FALSE(has(page, "\x1b"));
  EXPECT_FALSE(has(page, "\xE2\x80\xAE"));
  EXPECT_TRUE(has(page, "&lt;img src=x onerror=alert(1)&gt;&amp;&quot;&#39;"));
}

}  // namespace
}  // namespace driftwarden::custody_page_test
