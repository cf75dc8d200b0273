// SPDX-License-Identifier: MIT
#include "workshop/rows_standing.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "book/book_table.hpp"
#include "book/table_files.hpp"
#include "support/book_text.hpp"

namespace driftwarden::rows_standing_test {
namespace {

constexpr const char* headings = "taken,stage,sample,calibrator,reading [L/min],temperature [°C],replicate,void,note\n";

// How rows stand beside a book of one sample with these readings.
RowsStanding standing(const std::string& in_book, const std::string& came) {
  const ScratchFolder folder;
  BookText text;
  text.readings = headings + in_book;
  text.write(folder.path());
  const Book before = *read_book(folder.path(), 1);
  const ScratchFolder elsewhere;
  std::ofstream(elsewhere.path() / "came.csv", std::ios::binary) << came;
  const RowsReceived rows = *rows_received(elsewhere.path() / "came.csv", before.settings);
  return rows_standing(*book_with_rows(before, {rows}, 20717, 1));
}
RowsStanding of_readings(const std::string& in_book, const std::string& came) {
  return standing(in_book, headings + came);
}
std::string told(const RowsStanding& standing) {
  std::string all;
  for (const Diagnostic& each : standing.differing) {
    const std::string text = to_text(each);
    all += text.substr(text.find("came.csv")) + "\n";
  }
  return all;
}

constexpr const char* one = "2026-09-21T07:30,pre,S1,V1,2.000,20,1,,\n";
constexpr const char* two = "2026-09-21T07:30,pre,S1,V1,2.010,20,2,,\n";

TEST(RowsStanding, AreThoseThatSayTheSame) {
  const RowsStanding same = of_readings(one, std::string(two) + one);
  EXPECT_EQ(same.unchanged[0], (std::set<std::size_t>{1}));
  EXPECT_EQ(same.count(), 1U);
  EXPECT_EQ(told(same), "");
  EXPECT_EQ(standing(one,
                     "taken,stage,sample,calibrator,reading [mL/min],temperature [°F],replicate\n"
                     "2026-09-21 07:30,pre,S1,V1,2000,68,1\n")
                .count(),
            1U)
      << "in other units";
}

TEST(RowsStanding, GoTogetherOneByOneWhereNoNumberTellsThemApart) {
  const std::string same = "2026-09-21T07:30,pre,S1,V1,2.000,20,,,\n";
  const std::string other = "2026-09-21T07:30,pre,S1,V1,2.020,20,,,\n";
  EXPECT_EQ(of_readings(same + same, same + same + same).unchanged[0], (std::set<std::size_t>{0, 1}));
  const RowsStanding more = of_readings(same, other + same);
  EXPECT_EQ(more.unchanged[0], (std::set<std::size_t>{1}));
  EXPECT_EQ(told(more), "") << "a further reading of the minute";
  EXPECT_TRUE(
      told(of_readings(same, other)).starts_with("came.csv:2:28: error: the reading is 2.02 L/min here, and 2"));
}

// A form numbers the readings of a set, and hands mostly do not.
TEST(RowsStanding, AreTheSameWhereOneSideAloneNumbersThem) {
  const auto numbered = [](const std::string& number) {
    return "2026-09-21T07:30,pre,S1,V1,2.000,20," + number + ",,\n";
  };
  const std::string bare = numbered("");
  EXPECT_EQ(of_readings(bare, numbered("1")).count(), 1U);
  EXPECT_EQ(of_readings(numbered("1"), bare).count(), 1U);
  EXPECT_EQ(of_readings(bare, numbered("1") + numbered("2")).unchanged[0], (std::set<std::size_t>{0})) << "each once";
  EXPECT_EQ(of_readings(numbered("2"), numbered("1")).count(), 0U) << "two numbers are two readings";
}

TEST(RowsStanding, DifferInWhatIsNamed) {
  EXPECT_EQ(told(of_readings(one, "2026-09-21T07:30,pre,S1,V1,2.000,21,1,,\n")),
            "came.csv:2:28: error: the reading has temperature 21 °C here, and 20 °C in readings.csv:2; strike the one "
            "that is wrong out where it stands, with void and a note, and leave it there [receive/differs]\n");
  EXPECT_TRUE(told(of_readings(one, "2026-09-21T07:30,pre,S1,V1,2.000,20,1,yes,misread\n"))
                  .starts_with("came.csv:2:28: error: the reading is struck out here, and stands in readings.csv:2; "));
  EXPECT_TRUE(told(of_readings("", std::string(one) + "2026-09-21T07:30,pre,S1,V1,2.100,20,1,,\n"))
                  .starts_with("came.csv:3:28: error: the reading is 2.1 L/min here, and 2 L/min in "));
}

// Struck out in the book as in the form: the book's reason stands.
TEST(RowsStanding, MayBeStruckOutOnBothSides) {
  const std::string struck = "2026-09-21T07:30,pre,S1,V1,2.000,20,1,yes,misread\n";
  const RowsStanding both = of_readings("2026-09-21T07:30,pre,S1,V1,2.000,20,1,yes,the keeper's words\n",
                                        struck + "2026-09-21T07:30,pre,S1,V1,2.100,20,1,,\n");
  EXPECT_EQ(both.unchanged[0], (std::set<std::size_t>{0}));
  EXPECT_EQ(told(both), "");
}

// What the keeper struck out does not come back with the next saving of the form.
TEST(RowsStanding, StayStruckOutWhereTheyWereSinceInTheBook) {
  const RowsStanding since =
      of_readings("2026-09-21T07:30,pre,S1,V1,2.000,20,1,yes,slipped off\n", std::string(one) + two);
  EXPECT_EQ(since.unchanged[0], (std::set<std::size_t>{0}));
  EXPECT_EQ(told(since),
            "came.csv:2:28: remark: the reading was struck out since in readings.csv:2, and stays so; strike it out in "
            "the form, too, if it is saved again [receive/struck-out]\n");
  EXPECT_EQ(of_readings("2026-09-21T07:30,pre,S1,V1,1.900,20,1,yes,misread\n", one).count(), 0U) << "another figure";
}

// Else the sample would have a second set.
TEST(RowsStanding, AreKnownByTheirSetWhereItsTimeWasChanged) {
  const std::string head = "taken,stage,sample,calibrator,reading [L/min],replicate,set\n";
  const auto with_set = [&](const std::string& time, const std::string& stage, const std::string& set) {
    const ScratchFolder folder;
    BookText text;
    text.readings = head + "2026-09-21T07:30,pre,S1,V1,2.000,1,S1 pre\n";
    text.write(folder.path());
    const Book before = *read_book(folder.path(), 1);
    const ScratchFolder elsewhere;
    std::ofstream(elsewhere.path() / "came.csv") << head + time + "," + stage + ",S1,V1,2.000,1," + set + "\n";
    const RowsReceived rows = *rows_received(elsewhere.path() / "came.csv", before.settings);
    return told(rows_standing(*book_with_rows(before, {rows}, 20717, 1)));
  };
  EXPECT_EQ(with_set("2026-09-21T07:45", "pre", "S1 pre"),
            "came.csv:2:1: error: reading '1' of the set 'S1 pre' was taken 2026-09-21T07:45+00:00 with V1 here, and "
            "2026-09-21T07:30+00:00 with V1 in readings.csv:2; correct it here; or strike the set out where it stands, "
            "with void and a note [receive/differs]\n");
  EXPECT_EQ(with_set("2026-09-21T07:45", "pre", "S1 again"), "");
  EXPECT_EQ(with_set("2026-09-21T16:45", "post", "S1 pre"), "");
}

TEST(RowsStanding, AreSamplesByTheirNames) {
  const std::string head = "sample,pump,started,stopped,note\n";
  const RowsStanding same = standing(one, head + "S1,P1,2026-09-21T08:00,2026-09-21T16:00,\n");
  EXPECT_EQ(same.unchanged[0], (std::set<std::size_t>{0}));
  EXPECT_EQ(told(standing(one, head + "S1,P1,2026-09-21T08:00,2026-09-21T16:10,late\n")),
            "came.csv:2:24: error: the sample 'S1' stands in samples.csv:2, and otherwise: stopped "
            "'2026-09-21T16:10+00:00' here, and '2026-09-21T16:00+00:00' there; note 'late' here, and nothing there; "
            "leave it out, or correct it here; where the book's is wrong, amend it there, with the reason under note "
            "[receive/differs]\n");
  EXPECT_TRUE(told(standing(one, head + "S2,P1,2026-09-22T08:00,2026-09-22T16:00,\n"
                                        "S2,P1,2026-09-22T08:00,2026-09-22T16:00,\n"))
                  .starts_with("came.csv:3:1: error: the sample 'S2' came already in "));
}

// A column that is not held against its other self would let a correction pass as a row that stands.
TEST(RowsStanding, AreHeldAgainstEachOtherInEveryColumnOfASample) {
  const auto value = [](const FieldSpec& field, bool is_other) -> std::string {
    if (field.name == "sample") return "S1";
    if (field.name == "pump") return is_other ? "P2" : "P1";
    if (field.name == "kind") return is_other ? "blank" : "sample";
    if (field.name == "fault") return is_other ? "yes" : "no";
    if (field.type == CellType::moment)
      return "2026-09-21T" + std::string(field.name == "started" ? "08" : "16") + (is_other ? ":01" : ":00");
    return field.type == CellType::text ? (is_other ? "b" : "a") : (is_other ? "21" : "20");
  };
  const auto row = [&](std::string_view other) {
    std::string text = heading_line(samples_spec);
    for (const FieldSpec& field : samples_spec.fields) {
      text += value(field, field.name == other) + (&field == &samples_spec.fields.back() ? "\n" : ",");
    }
    return text;
  };
  const auto came = [&](std::string_view other) {
    const ScratchFolder folder;
    BookText text;
    text.samples = row("");
    text.readings = headings;
    text.write(folder.path());
    const Book before = *read_book(folder.path(), 1);
    std::ofstream(folder.path() / "came.txt", std::ios::binary) << row(other);
    const RowsReceived rows = *rows_received(folder.path() / "came.txt", before.settings);
    return rows_standing(*book_with_rows(before, {rows}, 20717, 1));
  };
  EXPECT_EQ(came("").count(), 1U);
  for (const FieldSpec& field : samples_spec.fields) {
    if (field.name == "sample") continue;
    const RowsStanding standing = came(field.name);
    EXPECT_EQ(standing.count(), 0U) << field.name;
    ASSERT_EQ(standing.differing.size(), 1U) << field.name;
    EXPECT_NE(standing.differing[0].message.find(": " + std::string(field.name) + " "), std::string::npos)
        << standing.differing[0].message;
  }
}

// Nobody knows what a cell says that can't be read.
TEST(RowsStanding, AreNeverThoseWithAFault) {
  EXPECT_EQ(
      of_readings("2026-09-21T07:30,pre,S1,V1,2.000,warm,1,,\n", "2026-09-21T07:30,pre,S1,V1,2.000,cold,1,,\n").count(),
      0U);
  const std::string samples = "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,tomorrow\n";
  EXPECT_EQ(standing(one, samples).count(), 0U);
  EXPECT_EQ(told(standing(one, samples)), "") << "its fault is told";
}

}  // namespace
}  // namespace driftwarden::rows_standing_test
