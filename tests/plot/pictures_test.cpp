// SPDX-License-Identifier: MIT
#include "plot/pictures.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "plot/shipped_theme.hpp"
#include "support/book_text.hpp"
#include "workshop/gnuplot_run.hpp"

namespace driftwarden::pictures_test {
namespace {

constexpr Day in_october = 20742;

BookText two_pumps() {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n"
      "S3,P1,2026-09-22T08:00,2026-09-22T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-21T07:40,pre,S2,V1,2.010\n2026-09-21T16:20,post,S2,V1,1.990\n"
      "2026-09-22T07:30,pre,S3,V1,2.020\n2026-09-22T16:10,post,S3,V1,2.000\n";
  return text;
}

Pictures drawn(const BookText& text, PictureFormat format = PictureFormat::svg, const std::string& theme = "light") {
  const JudgedBook book(text);
  std::vector<Row> all;
  for (Row row = 0; row < book.book().instruments.size(); ++row) all.push_back(row);
  const auto histories = histories_of(book.screening(), all, in_october, {});
  return pictures_of(book.screening(), histories, {}, shipped_theme(theme), format);
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Pictures, AreOneASeriesAndAPageOfTheFleet) {
  const Pictures pictures = drawn(two_pumps());
  EXPECT_EQ(pictures.files,
            (std::vector<std::string>{"fleet-pumps.svg", "P1.pre-flow.svg", "P1.drift.svg", "P1.drift-size.svg",
                                      "P2.pre-flow.svg", "P2.drift.svg", "P2.drift-size.svg"}));
}

TEST(Pictures, ShowTheDeviationInsteadOfTheFlowWhereANominalFlowIsKnown) {
  BookText text = two_pumps();
  text.samples = "sample,pump,nominal [L/min],started,stopped\nS1,P1,2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading "
      "[L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n";
  EXPECT_EQ(drawn(text).files.front(), "P1.pre-flow-deviation.svg");
}

TEST(Pictures, SayHowManyPointsLieBeyondTheTolerance) {
  BookText text = two_pumps();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],tolerance [%]\n"
      "C,V1,2026-01-05,2,2,2.05,1\n";
  EXPECT_NE(
      drawn(text).script.find("1 point, 2026-01-05; 1 point beyond the tolerance, on 2026-01-05; of the true flow"),
      std::string::npos);
}

TEST(Pictures, HaveTheEndingOfTheirFormat) {
  EXPECT_EQ(drawn(two_pumps(), PictureFormat::pdf).files.front(), "fleet-pumps.pdf");
}

TEST(Pictures, OfInstrumentsWhoseNamesAreNoFileNamesStillDiffer) {
  BookText text = two_pumps();
  for (std::string* file : {&text.instruments, &text.samples}) {
    for (std::size_t at = 0; (at = file->find("P1", at)) != std::string::npos;) file->replace(at, 2, "a/b");
    for (std::size_t at = 0; (at = file->find("P2", at)) != std::string::npos;) file->replace(at, 2, "a:b");
  }
  const std::vector<std::string> files = drawn(text).files;
  EXPECT_EQ(files.at(1), "a_b.pre-flow.svg");
  EXPECT_EQ(files.at(4), "a_b-2.pre-flow.svg");
}

TEST(Pictures, OfNamesThatDifferInCapitalsOnlyOrAreLongHaveFilesOnEverySystem) {
  BookText text = two_pumps();
  const std::string name(300, 'p');
  for (std::string* file : {&text.instruments, &text.samples}) {
    for (std::size_t at = 0; (at = file->find("P1", at)) != std::string::npos; at += name.size())
      file->replace(at, 2, name);
    for (std::size_t at = 0; (at = file->find("P2", at)) != std::string::npos; at += name.size())
      file->replace(at, 2, "P" + name.substr(1));
  }
  const Pictures pictures = drawn(text);
  EXPECT_EQ(pictures.files.at(1), std::string(100, 'p') + ".pre-flow.svg");
  EXPECT_EQ(pictures.files.at(4), "P" + std::string(99, 'p') + "-2.pre-flow.svg");
  const ScratchFolder folder;
  EXPECT_TRUE(draw_pictures(pictures.script, pictures.files, folder.path()).empty());
}

TEST(Pictures, AreDrawnByGnuplotInEveryFormatAndTheme) {
  for (const auto& [format, theme] : {std::pair<PictureFormat, std::string>{PictureFormat::svg, "light"},
                                      {PictureFormat::png, "dark"},
                                      {PictureFormat::pdf, "print"}}) {
    const ScratchFolder folder;
    const Pictures pictures = drawn(two_pumps(), format, theme);
    const Diagnostics faults = draw_pictures(pictures.script, pictures.files, folder.path());
    EXPECT_TRUE(faults.empty()) << to_text(faults.front());
  }
}

TEST(Pictures, AreTheSameBytesEachTime) {
  const ScratchFolder first;
  const ScratchFolder second;
  const Pictures pictures = drawn(two_pumps());
  ASSERT_TRUE(draw_pictures(pictures.script, pictures.files, first.path()).empty());
  ASSERT_TRUE(draw_pictures(pictures.script, pictures.files, second.path()).empty());
  for (const std::string& file : pictures.files) EXPECT_EQ(text_of(first.path() / file), text_of(second.path() / file));
}

}  // namespace
}  // namespace driftwarden::pictures_test
