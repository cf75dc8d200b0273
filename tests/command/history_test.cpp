// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>

#include "command/command_line.hpp"
#include "support/book_text.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::history_test {
namespace {

namespace fs = std::filesystem;

struct Said {
  int status = 0;
  std::string out;
  std::string err;
};

Said run(const std::vector<std::string>& arguments) {
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 1791072000, project_folder(), "test"};  // 2026-10-03
  const int status = run_command_line(arguments, surroundings);
  return {status, out.str(), err.str()};
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

const std::string demo = std::string(project_folder()) + "/docs/demo";

// Hides every program from what is started, for as long as it lives.
class NoPrograms {
 public:
  NoPrograms() : path_(std::getenv("PATH")) { setenv("PATH", "/nonexistent", 1); }
  ~NoPrograms() { setenv("PATH", path_.c_str(), 1); }
  NoPrograms(const NoPrograms&) = delete;
  NoPrograms& operator=(const NoPrograms&) = delete;

 private:
  std::string path_;
};

TEST(History, ForecastsTheCrossingThatWasPlantedInTheDemo) {
  const ScratchFolder folder;
  ASSERT_EQ(run({"history", demo, "PUMP-04", "--as-of", "2026-11-16", "--out", folder.path().string()}).status, 0);
  const auto document = nlohmann::json::parse(text_of(folder.path() / "history.json"));
  ASSERT_EQ(document["instruments"].size(), 1U);
  const auto& series = document["instruments"][0]["series"][1];
  ASSERT_EQ(series["series"], "pre-flow-deviation");
  // own input: 0.4 % a week as planted, docs/demo/planted-instruments.csv; written by tests/support/make_demo_book.py,
  // Python 3.11.
  EXPECT_NEAR(series["trend"]["slope_per_day"].get<double>(), 0.4 / 7, 0.003);
  EXPECT_TRUE(series["trend"]["resolved"].get<bool>());
  EXPECT_LE(series["crossing"]["earliest"], "2026-12-06");
  EXPECT_GE(series["crossing"]["latest"], "2026-12-06");
  EXPECT_TRUE(fs::exists(folder.path() / "PUMP-04.pre-flow-deviation.svg"));
}

TEST(History, SeesNoTrendInPumpsWithoutOne) {
  const ScratchFolder folder;
  const Said said =
      run({"history", demo, "PUMP-01", "PUMP-02", "--as-of", "2026-11-16", "--out", folder.path().string()});
  EXPECT_NE(
      said.out.find("PUMP-01: Pre flow, from nominal, 12 points, 0 signals; no trend that stands out from chance\n"),
      std::string::npos)
      << said.out;
}

// PUMP-07 drifts beyond 5 %, ROT-2 was found 6 % out: planted in the demo.
TEST(History, TellsOfPointsBeyondTheTolerance) {
  const ScratchFolder folder;
  const Said said =
      run({"history", demo, "PUMP-07", "ROT-2", "--as-of", "2026-11-16", "--out", folder.path().string()});
  EXPECT_NE(said.out.find("PUMP-07: Pre flow, from nominal, 15 points, 0 signals; no trend that stands out from "
                          "chance; Drift per use: "),
            std::string::npos)
      << said.out;
  EXPECT_NE(said.out.find("ROT-2: Error as found, worst point, 5 points, 0 signals, 1 point beyond the tolerance, on "
                          "2026-11-11; too few points for a trend\n"),
            std::string::npos)
      << said.out;
}

TEST(History, PrintsTheAdvisedIntervalAndWhoseItIs) {
  const ScratchFolder folder;
  const Said said =
      run({"history", demo, "PUMP-01", "VOL-1", "--as-of", "2026-11-16", "--out", folder.path().string()});
  const std::size_t vol = said.out.find("\nVOL-1: ");
  ASSERT_NE(vol, std::string::npos) << said.out;
  const std::size_t advice = said.out.find("\n  advised interval: ");
  ASSERT_GT(advice, vol) << "a pump is not calibrated: " << said.out;
  const std::string line = said.out.substr(advice + 1, said.out.find('\n', advice + 1) - advice - 1);
  const auto document = nlohmann::json::parse(text_of(folder.path() / "history.json"));
  for (const auto& opinion : document["instruments"][1]["interval"]) {
    const std::string method = "(" + opinion["method"].get<std::string>() + ")";
    EXPECT_EQ(line.find(method) != std::string::npos, !opinion["advice_days"].is_null()) << method << " in: " << line;
  }
  EXPECT_TRUE(line.ends_with("; advice, applied by nobody but you")) << line;
}

TEST(History, WritesNoFigureAfterTheDayAskedFor) {
  const ScratchFolder folder;
  ASSERT_EQ(run({"history", demo, "PUMP-04", "--as-of", "2026-10-01", "--out", folder.path().string()}).status, 0);
  const std::string csv = text_of(folder.path() / "history.csv");
  EXPECT_NE(csv.find(",2026-09-2"), std::string::npos);
  for (const char* later : {",2026-10-02", ",2026-10-05", ",2026-10-1", ",2026-11-"})
    EXPECT_EQ(csv.find(later), std::string::npos) << later;
}

TEST(History, WritesTheSameBytesEachTime) {
  const ScratchFolder first;
  const ScratchFolder second;
  for (const ScratchFolder* folder : {&first, &second})
    ASSERT_EQ(run({"history", demo, "--as-of", "2026-11-16", "--out", folder->path().string()}).status, 0);
  std::size_t files = 0;
  for (const fs::directory_entry& entry : fs::directory_iterator(first.path())) {
    EXPECT_EQ(text_of(entry.path()), text_of(second.path() / entry.path().filename())) << entry.path();
    ++files;
  }
  EXPECT_GT(files, 40U);
}

TEST(History, WithoutGnuplotStillWritesTheDataAndNamesThePackage) {
  const ScratchFolder folder;
  const NoPrograms hidden;
  const Said said = run({"history", demo, "PUMP-04", "--as-of", "2026-11-16", "--out", folder.path().string()});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("install the package gnuplot-nox"), std::string::npos) << said.err;
  EXPECT_TRUE(fs::exists(folder.path() / "history.csv"));
  EXPECT_TRUE(fs::exists(folder.path() / "history.json"));
  EXPECT_FALSE(fs::exists(folder.path() / "PUMP-04.pre-flow-deviation.svg"));
}

TEST(History, NamesTheNearestInstrumentForAnUnknownOne) {
  const ScratchFolder folder;
  const Said said = run({"history", demo, "PUMP-4", "--out", folder.path().string()});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("error: the book has no instrument 'PUMP-4'; did you mean 'PUMP-04'? [command/unknown-name]"),
            std::string::npos)
      << said.err;
}

TEST(History, RefusesFormatsAndThemesThatItDoesNotHave) {
  EXPECT_EQ(run({"history", demo, "--out", "x", "--format", "gif"}).status, 2);
  EXPECT_EQ(run({"history", demo, "--out", "x", "--theme", "neon"}).status, 2);
  EXPECT_EQ(run({"history", demo}).status, 2);
}

TEST(History, SaysThatItsFolderCannotBeWrittenTo) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "file") << "x";
  const Said said = run({"history", demo, "PUMP-04", "--out", (folder.path() / "file" / "deeper").string()});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(said.err.find("[output/unwritable]"), std::string::npos) << said.err;
}

TEST(History, OfABookWithAnUnknownRunRuleSaysSo) {
  const ScratchFolder folder;
  BookText text;
  text.settings += "[history]\nrun_rules = [\"westen-electric\"]\n";
  text.write(folder.path());
  const Said said = run({"history", folder.path().string(), "--out", (folder.path() / "out").string()});
  EXPECT_EQ(said.status, 2);
  EXPECT_NE(
      said.err.find("'westen-electric' is no run rule; did you mean 'western-electric'? [history/unknown-run-rule]"),
      std::string::npos)
      << said.err;
}

}  // namespace
}  // namespace driftwarden::history_test
