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
      "S3,P1,2026-09-22T08:00,2026-09-22T16:00\n"
      "S4,P2,2026-09-22T08:00,2026-09-22T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-21T07:40,pre,S2,V1,2.010\n2026-09-21T16:20,post,S2,V1,1.990\n"
      "2026-09-22T07:30,pre,S3,V1,2.020\n2026-09-22T16:10,post,S3,V1,2.000\n"
      "2026-09-22T07:40,pre,S4,V1,2.020\n2026-09-22T16:20,post,S4,V1,2.010\n";
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
  text.samples =
      "sample,pump,nominal [L/min],started,stopped\nS1,P1,2,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,P1,2,2026-09-22T08:00,2026-09-22T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading "
      "[L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-22T07:30,pre,S2,V1,2.010\n2026-09-22T16:10,post,S2,V1,1.990\n";
  EXPECT_EQ(drawn(text).files.front(), "P1.pre-flow-deviation.svg");
}

TEST(Pictures, SayHowManyPointsLieBeyondTheTolerance) {
  BookText text = two_pumps();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],tolerance [%]\n"
      "C,V1,2026-01-05,2,2,2.05,1\nC0,V1,2025-01-05,2,2,2.00,1\n";
  EXPECT_NE(drawn(text).script.find(
                "2 points, 2025-01-05 to 2026-01-05; 1 point beyond the tolerance, on 2026-01-05; of the true flow"),
            std::string::npos);
}

TEST(Pictures, AreNotDrawnOfOnePoint) {
  BookText text = two_pumps();
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n";
  EXPECT_TRUE(drawn(text).files.empty());
}

TEST(Pictures, SayWhichCalibratorReadAPoint) {
  EXPECT_NE(drawn(two_pumps()).script.find("'read with V1'"), std::string::npos);
}

// Two calibrators, one found 5 % off by its newest certificate, which accepts 1 %, and one found right.
TEST(Pictures, OfAFleetHaveOneScaleAndFrameWhatIsOut) {
  BookText text = two_pumps();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],tolerance [%]\n"
      "A,V1,2025-01-05,2,2,2.00,1\nB,V1,2026-01-05,2,2,2.10,1\n"
      "C,V2,2025-01-05,2,2,2.00,1\nD,V2,2026-01-05,2,2,2.00,1\n";
  const std::string script = drawn(text).script;
  const std::size_t fleet = script.find("'All calibrators'");
  ASSERT_NE(fleet, std::string::npos);
  const std::string page = script.substr(fleet, script.find("unset output", fleet) - fleet);
  const std::string scale = page.substr(page.rfind("set yrange ["), 20);
  std::size_t panels = 0;
  for (std::size_t at = page.find(scale); at != std::string::npos; at = page.find(scale, at + 1)) ++panels;
  EXPECT_EQ(panels, 2U);
  EXPECT_NE(page.find("'V1: 5 %, out of tolerance'"), std::string::npos);
  const std::string frame = "set border 15 linewidth 2 linecolor rgb '" + shipped_theme().signal.colour + "'";
  EXPECT_NE(page.find(frame), std::string::npos);
  EXPECT_EQ(page.find(frame), page.rfind(frame));  // the other one is not framed
}

TEST(Pictures, OfAFleetNameThoseOfWhichTooLittleIsKnown) {
  BookText text = two_pumps();
  text.instruments += "V3,calibrator,volumetric\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],tolerance [%]\n"
      "A,V1,2025-01-05,2,2,2.00,1\nB,V1,2026-01-05,2,2,2.00,1\n"
      "C,V2,2025-01-05,2,2,2.00,1\nD,V2,2026-01-05,2,2,2.00,1\nE,V3,2026-01-05,2,2,2.00,1\n";
  EXPECT_NE(drawn(text).script.find("'too little is known to draw: V3'"), std::string::npos);
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
