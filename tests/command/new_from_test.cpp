// SPDX-License-Identifier: MIT
#include "command/new_from.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"
#include "command/called.hpp"

namespace driftwarden::new_from_test {
namespace {

namespace fs = std::filesystem;

// An office's files, without a book.toml.
class Office : public WrittenBook {
 public:
  Office() {
    for (const char* name : {"book.toml", "instruments.csv", "samples.csv", "readings.csv"}) without(name);
    file("equipment.csv", "Instrument,Kind,Principle,S/N\nPUMP-1,pump,,1\nVOL-1,calibrator,volumetric,2\n");
    file("samples.csv", "Sample;Pump;Day;On;Off;Shade\nS-1;PUMP-1;13.11.2026;6:16;14:16;dark\n");
    file("readings/W46.csv",
         "Bench\n\nDay;Time;Stage;Sample;Calibrator;Flow (L/min)\n13.11.2026;6:01;pre;S-1;VOL-1;2,01\n"
         "13.11.2026;14:20;post;S-1;VOL-1;1,99\n");
  }
  std::string path(const std::string& name) const { return (folder() / name).string(); }
};

TEST(NewFrom, WritesSettingsByWhichTheFilesAreReadWhereTheyLie) {
  Office office;
  const std::string before = text_of_file(office.path("samples.csv"));
  const Called made =
      call({"new", office.folder().string(), "--from", office.path("samples.csv"), office.path("readings/W46.csv")});
  EXPECT_EQ(made.status, 0) << made.err;
  EXPECT_EQ(text_of_file(office.path("samples.csv")), before);
  fs::rename(office.path("equipment.csv"), office.path("instruments.csv"));
  const Called checked = call({"check", office.folder().string()});
  EXPECT_EQ(checked.status, 0) << checked.err << text_of_file(office.path("book.toml"));
  const Called screened = call({"screen", office.folder().string(), "--format", "csv"});
  EXPECT_NE(screened.out.find("S-1,"), std::string::npos) << screened.out;
}

TEST(NewFrom, SaysWhatItMadeOfEachFile) {
  Office office;
  const NewFrom from = new_from(office.folder(), {office.path("equipment.csv"), office.path("samples.csv")});
  EXPECT_EQ(from.told, (std::vector<std::string>{
                           "equipment.csv: instruments; lay it into the book's folder as instruments/equipment.csv",
                           "  'S/N' is taken for serial", "samples.csv: samples", "  'Day' is taken for started date",
                           "  'On' is taken for started time", "  'Off' is taken for stopped time",
                           "  not placed, kept as notes: 'Shade'"}));
  EXPECT_EQ(
      from.settings,
      "\n[headings.instruments]\n\"S/N\" = \"serial\"\n\n[headings.samples]\n\"Day\" = \"started date\"\n"
      "\"Off\" = \"stopped time\"\n\"On\" = \"started time\"\n\n[files.\"samples.csv\"]\ndates = \"day first\"\n");
  EXPECT_EQ(from.tables, (std::set<std::string>{"instruments", "samples"}));
}

TEST(NewFrom, LooksAtFilesThatLieElsewhereAndCopiesNone) {
  Office office;
  const ScratchFolder scratch;
  const fs::path book = scratch.path() / "book";
  const Called made = call({"new", book.string(), "--from", office.path("readings/W46.csv")});
  EXPECT_EQ(made.status, 0) << made.err;
  EXPECT_NE(made.out.find("W46.csv: readings; lay it into the book's folder as readings/W46.csv\n"), std::string::npos)
      << made.out;
  EXPECT_FALSE(fs::exists(book / "readings"));
  EXPECT_FALSE(fs::exists(book / "readings.csv"));
  EXPECT_TRUE(fs::exists(book / "instruments.csv"));
  EXPECT_NE(
      text_of_file((book / "book.toml").string()).find("[files.\"W46.csv\"]\ndates = \"day first\"\ndecimal = \",\"\n"),
      std::string::npos);
}

TEST(NewFrom, SpoilsNoBookAndNoFile) {
  Office office;
  office.file("book.toml", "time_zone = \"UTC\"\n");
  EXPECT_EQ(call({"new", office.folder().string(), "--from", office.path("samples.csv")}).status, 2);
  office.without("book.toml").file("certificates.csv", "mine");
  EXPECT_EQ(call({"new", office.folder().string(), "--from", office.path("samples.csv")}).status, 2);
  EXPECT_EQ(text_of_file(office.path("certificates.csv")), "mine");
  EXPECT_FALSE(fs::exists(office.path("book.toml")));
  EXPECT_EQ(call({"new", office.folder().string(), "--from", office.path("nothing.csv")}).status, 2);
}

}  // namespace
}  // namespace driftwarden::new_from_test
