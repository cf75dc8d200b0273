// SPDX-License-Identifier: MIT
#include "command/judged_anew.hpp"

#include <gtest/gtest.h>

#include "command/package_folder.hpp"

namespace driftwarden::judged_anew_test {
namespace {

namespace fs = std::filesystem;

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

class Package : public PackageFolder {
 public:
  Package() {
    const CalledBook book(charted_text("2 %"));
    call({"evidence", book.path(), "--out", path("bag")});
  }
  std::string a_chart() const {
    for (const auto& entry : fs::directory_iterator(path("bag/data/charts")))
      return "data/charts/" + entry.path().filename().string();
    return "";
  }
  std::optional<Anew> judge(std::string& told) const {
    std::ostringstream out;
    Surroundings surroundings{out, out, false, false, 0, project_folder(), "0.1.0"};
    const Result<BagCheck> bag = check_bag(path("bag"));
    const Result<PackageNote> note = parse_package_note(text("bag/data/package.json"));
    const std::optional<Anew> anew = judged_anew(path("bag"), *bag, *note, 1, surroundings);
    told = out.str();
    return anew;
  }
};

TEST(JudgedAnew, IsTheSameOfAPackageAsItWasMade) {
  std::string told;
  const std::optional<Anew> anew = Package().judge(told);
  ASSERT_TRUE(anew);
  EXPECT_FALSE(anew->is_amiss());
  EXPECT_EQ(anew->samples, 1U);
  EXPECT_EQ(told, "");
}

TEST(JudgedAnew, DrawsTheChartsAnew) {
  const Package package;
  ASSERT_NE(package.a_chart(), "");
  package.forge("bag", package.a_chart(), "<path", "<Path");
  std::string told;
  const std::optional<Anew> anew = package.judge(told);
  ASSERT_TRUE(anew);
  EXPECT_EQ(anew->differences, 1U);
  EXPECT_TRUE(has(told, package.a_chart() + ": line ")) << told;
}

TEST(JudgedAnew, SaysWhereChartsWereDrawnByAnotherGnuplot) {
  const Package package;
  package.forge("bag", package.a_chart(), "Produced by GNUPLOT", "Produced by GNUPLOT 0.9 not");
  std::string told;
  const std::optional<Anew> anew = package.judge(told);
  ASSERT_TRUE(anew);
  EXPECT_FALSE(anew->is_amiss()) << told;
  EXPECT_TRUE(anew->has_unmade_charts);
  EXPECT_EQ(told, "charts      held to their digests alone: 1 were drawn by another gnuplot or by the page\n");
}

TEST(JudgedAnew, ComparesTheReviewPage) {
  const Package package;
  package.forge("bag", "data/review.html", "void", "valid");
  std::string told;
  EXPECT_TRUE(package.judge(told)->is_amiss());
  EXPECT_TRUE(has(told, "data/review.html: line ")) << told;
}

TEST(JudgedAnew, MissesATextAndFindsOneTooMany) {
  const Package package;
  fs::rename(package.path("bag/data/results/screen.csv"), package.path("bag/data/results/screen-2.csv"));
  std::string told;
  EXPECT_EQ(package.judge(told)->differences, 2U);
  EXPECT_TRUE(has(told, "data/results/screen.csv: is not in the package, and would be now\n")) << told;
  EXPECT_TRUE(has(told, "data/results/screen-2.csv: is in the package, and would not be now\n")) << told;
}

}  // namespace
}  // namespace driftwarden::judged_anew_test
