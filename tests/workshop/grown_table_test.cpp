// SPDX-License-Identifier: MIT
#include "workshop/grown_table.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <fstream>
#include <iterator>
#include <thread>
#include <vector>

#include "book/table_files.hpp"
#include "book/written_book.hpp"
#include "book/written_workbook.hpp"
#include "workshop/planned_calls.hpp"

namespace driftwarden::grown_table_test {
namespace {

const std::string headings = "decided,by,subject,rule,ruling,reason\n";
const std::string row = "2026-05-02T09:00+00:00,site hygienist,S-1,own/drift,overrule,looked at\n";

Decision looked_at() {
  Decision decision;
  decision.decided = 1777712400;
  decision.by = "site hygienist";
  decision.subject = "S-1";
  decision.rule = "own/drift";
  decision.ruling = Ruling::overrule;
  decision.reason = "looked at";
  return decision;
}

Result<Place> append_decision(const Book& book, const Decision& decision, const std::function<void()>& waits = {}) {
  const Result<std::vector<Place>> places =
      append_rows(book, {decisions_spec, book.files.decisions, {cells_of(decision, book.settings.zone)}}, waits);
  if (!places) return places.faults();
  return places->at(0);
}

std::string text_of(const WrittenBook& book) {
  std::ifstream in(book.folder() / "decisions.csv", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// What is told of appending to a file, or the place of the row.
std::string append(const Book& book, const Decision& decision = looked_at()) {
  const Result<Place> place = append_decision(book, decision);
  return place ? to_text(*place) : told(place.faults());
}
std::string append(const WrittenBook& book, const Decision& decision = looked_at()) {
  return append(book.read(), decision);
}

TEST(GrownTable, MakesTheFileWhereThereIsNone) {
  const WrittenBook book;
  EXPECT_EQ(append(book), "decisions.csv:2");
  EXPECT_EQ(text_of(book), headings + row);
}

TEST(GrownTable, AppendsBehindWhatStandsThereAndChangesNoneOfIt) {
  WrittenBook book;
  const std::string before = headings + "2026-05-01T09:00,\"Ore, K.\",S-1,own/drift,uphold,\"two\nlines\"\n";
  book.file("decisions.csv", before);
  EXPECT_EQ(append(book), "decisions.csv:4");
  EXPECT_EQ(text_of(book), before + row);
}

TEST(GrownTable, WritesNothingBesideAWorkbookOfDecisions) {
  std::string cells;
  for (const char* heading : {"decided", "by", "subject", "rule", "ruling", "reason"})
    cells += std::string("<c t=\"str\"><v>") + heading + "</v></c>";
  WrittenBook book;
  book.file("decisions.xlsx", xlsx("<row>" + cells + "</row>"));
  EXPECT_EQ(append(book),
            "decisions.xlsx:week 46: error: the table decisions is kept in a workbook, which is not written to; save "
            "its sheet as decisions.csv, and take it out of the workbook [table/in-workbook]\n");
  EXPECT_FALSE(std::filesystem::exists(book.folder() / "decisions.csv"));
}

TEST(GrownTable, GivesALastLineWithoutAnEndOne) {
  WrittenBook book;
  const std::string before = headings + "2026-05-01T09:00,site hygienist,S-1,own/drift,uphold,yes";
  book.file("decisions.csv", before);
  EXPECT_EQ(append(book), "decisions.csv:3");
  EXPECT_EQ(text_of(book), before + "\n" + row);
  EXPECT_EQ(book.read().decisions.size(), 2U);
}

TEST(GrownTable, TakesAnEmptyFileForANewOne) {
  WrittenBook book;
  book.file("decisions.csv", "");
  EXPECT_EQ(append(book), "decisions.csv:2");
  EXPECT_EQ(text_of(book), headings + row);
}

TEST(GrownTable, FollowsTheFilesOwnColumnsSeparatorAndLineEnds) {
  WrittenBook book;
  const std::string before =
      "\xEF\xBB\xBF"
      "Reason;Mood;By;Decided;Subject;Rule;Ruling\r\n";
  book.file("decisions.csv", before);
  Decision decision = looked_at();
  decision.reason = "wet; see \"note\"";
  EXPECT_EQ(append(book, decision), "decisions.csv:2");
  EXPECT_EQ(text_of(book),
            before + "\"wet; see \"\"note\"\"\";;site hygienist;2026-05-02T09:00+00:00;S-1;own/drift;overrule\r\n");
  const Book read = book.read();
  ASSERT_EQ(read.decisions.size(), 1U);
  EXPECT_EQ(read.decisions[0].reason, decision.reason);
}

TEST(GrownTable, FollowsTheOwnersHeadings) {
  WrittenBook book;
  book.file("book.toml", "time_zone = \"UTC\"\n[headings.decisions]\n\"Hand\" = \"by\"\n");
  book.file("decisions.csv", "decided,Hand,subject,rule,ruling,reason\n");
  EXPECT_EQ(append(book), "decisions.csv:2");
  EXPECT_EQ(book.read().decisions.at(0).by, "site hygienist");
}

TEST(GrownTable, WritesTimesInTheBooksZone) {
  WrittenBook book;
  book.file("book.toml", "time_zone = \"MST7\"\n");
  append(book);
  EXPECT_NE(text_of(book).find("2026-05-02T02:00-07:00,"), std::string::npos) << text_of(book);
  EXPECT_EQ(book.read().decisions.at(0).decided, looked_at().decided);
}

TEST(GrownTable, ReadsBackWhatWasWrittenWhateverItHolds) {
  for (const std::string& reason :
       {std::string("a,b"), std::string("\"quoted\""), std::string("two\nlines"), std::string("=1+1"),
        std::string("ends in a quote\""), std::string("25 °C; 漢字"), std::string("one\r\ntwo")}) {
    const WrittenBook book;
    Decision decision = looked_at();
    decision.reason = reason;
    append(book, decision);
    append(book);
    const Book read = book.read();
    ASSERT_EQ(read.decisions.size(), 2U) << reason;
    EXPECT_EQ(read.decisions[0].reason, reason);
    EXPECT_EQ(read.decisions[1].reason, "looked at");
  }
}

TEST(GrownTable, RefusesAFileWhoseOpenQuoteWouldSwallowTheRow) {
  WrittenBook book;
  const std::string before = headings + "2026-05-01T09:00,site hygienist,S-1,own/drift,uphold,\"yes\n";
  book.file("decisions.csv", before);
  EXPECT_EQ(append(book),
            "decisions.csv:2:54: error: the quoted cell that begins here never ends; close it with a quote, and double "
            "the quotes inside it [csv/open-quote]\n");
  EXPECT_EQ(text_of(book), before);
}

TEST(GrownTable, RefusesAFileWhoseColumnsItCannotFollow) {
  WrittenBook book;
  book.file("decisions.csv", "decided,by,subject,rule,ruling\n");
  EXPECT_NE(append(book).find("[heading/missing]"), std::string::npos);
  EXPECT_EQ(text_of(book), "decided,by,subject,rule,ruling\n");
}

TEST(GrownTable, SaysWhyItCannotWrite) {
  const WrittenBook written;
  const Book book = written.read();
  std::filesystem::create_directory(written.folder() / "decisions.csv");
  const Result<Place> place = append_decision(book, looked_at());
  ASSERT_FALSE(place);
  EXPECT_EQ(told(place.faults()),
            "decisions.csv: error: nothing could be added to it: Is a directory; check the file, its rights and the "
            "room on the disk [table/unwritable]\n");
}

// A limit on the size of files stands for a full disk: the first bytes of the row still fit.
TEST(GrownTable, TakesBackTheRowThatAFullDiskTears) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  struct rlimit before {};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto ignored = std::signal(SIGXFSZ, SIG_IGN);
  for (const rlim_t fits : {rlim_t{10}, rlim_t{1}}) {
    const struct rlimit full { headings.size() + fits, before.rlim_max };
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &full), 0);
    const Result<Place> place = append_decision(read, looked_at());
    ::setrlimit(RLIMIT_FSIZE, &before);
    ASSERT_FALSE(place);
    EXPECT_NE(told(place.faults()).find("[table/unwritable]"), std::string::npos);
    EXPECT_EQ(text_of(book), headings);
  }
  std::signal(SIGXFSZ, ignored);
  EXPECT_EQ(append(book), "decisions.csv:2");
}

TEST(GrownTable, IsNotBegunWhereTheDiskIsFull) {
  const WrittenBook written;
  std::filesystem::remove(written.folder() / "decisions.csv");
  const Book book = written.read();
  struct rlimit before {};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto ignored = std::signal(SIGXFSZ, SIG_IGN);
  for (const rlim_t most : {rlim_t{0}, rlim_t{10}, rlim_t{headings.size() + 3}}) {
    const struct rlimit full { most, before.rlim_max };
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &full), 0);
    const Result<Place> place = append_decision(book, looked_at());
    ::setrlimit(RLIMIT_FSIZE, &before);
    ASSERT_FALSE(place);
    EXPECT_FALSE(std::filesystem::exists(written.folder() / "decisions.csv")) << most;
  }
  std::signal(SIGXFSZ, ignored);
  EXPECT_TRUE(append_decision(book, looked_at()));
}

TEST(GrownTable, IsNotBegunBehindALinkThatLeadsNowhere) {
  const WrittenBook written;
  std::filesystem::remove(written.folder() / "decisions.csv");
  std::filesystem::create_symlink("nowhere.csv", written.folder() / "decisions.csv");
  const Book book = written.read();
  EXPECT_FALSE(append_decision(book, looked_at()));
}

TEST(GrownTable, SaysWhenItWaits) {
  WrittenBook written;
  written.file("decisions.csv", headings);
  const Book book = written.read();
  const int other = ::open((written.folder() / "decisions.csv").c_str(), O_RDWR);
  ASSERT_EQ(::flock(other, LOCK_EX), 0);
  int waited = 0;
  const Result<Place> place = append_decision(book, looked_at(), [&] {
    ++waited;
    ::close(other);
  });
  EXPECT_TRUE(place);
  EXPECT_EQ(waited, 1);
}

TEST(GrownTable, OfManyAtOnceLosesNone) {
  const WrittenBook written;
  const Book book = written.read();
  {
    std::vector<std::jthread> writers;
    for (int writer = 0; writer < 8; ++writer) {
      writers.emplace_back([&book, writer] {
        for (int i = 0; i < 10; ++i) {
          Decision decision = looked_at();
          decision.reason = "by " + std::to_string(writer) + ", the " + std::to_string(i) + "th";
          ASSERT_TRUE(append_decision(book, decision));
        }
      });
    }
  }
  EXPECT_EQ(written.faults(), "");
  EXPECT_EQ(written.read().decisions.size(), 80U);
}

// Whoever edits the file meanwhile may put another in its place, or take it away: the lock is then on none that counts.
TEST(GrownTable, GoesToTheFileThatAnEditorPutInThePlaceOfTheLockedOne) {
  for (const bool is_taken_away : {false, true}) {
    WrittenBook written;
    written.file("decisions.csv", headings);
    const Book book = written.read();
    const std::filesystem::path path = written.folder() / "decisions.csv";
    const int other = ::open(path.c_str(), O_RDWR);
    ASSERT_EQ(::flock(other, LOCK_EX), 0);
    const Result<Place> place = append_decision(book, looked_at(), [&] {
      std::ofstream(written.folder() / "edited") << headings << row;
      if (is_taken_away) std::filesystem::remove(path);
      if (!is_taken_away) std::filesystem::rename(written.folder() / "edited", path);
      ::close(other);
    });
    ASSERT_TRUE(place);
    EXPECT_EQ(text_of(written), is_taken_away ? headings + row : headings + row + row);
  }
}

TEST(GrownTable, NamesTheLineOfAnOpenQuoteBehindRowsOfSeveralLines) {
  WrittenBook book;
  book.file("decisions.csv", headings + "2026-05-01T09:00,site hygienist,S-1,own/drift,uphold,\"two\nlines\"\n" +
                                 "2026-05-01T09:00,site hygienist,S-1,own/drift,uphold,\"yes\n");
  EXPECT_TRUE(append(book).starts_with("decisions.csv:4:54: ")) << append(book);
}

TEST(GrownTable, IsMadeAsAnyFileOfItsOwner) {
  const WrittenBook written;
  std::filesystem::remove(written.folder() / "decisions.csv");
  const mode_t mask = ::umask(0022);
  const Result<Place> place = append_decision(written.read(), looked_at());
  ::umask(mask);
  ASSERT_TRUE(place);
  using std::filesystem::perms;
  EXPECT_EQ(std::filesystem::status(written.folder() / "decisions.csv").permissions(),
            perms::owner_read | perms::owner_write | perms::group_read | perms::others_read);
}

std::string unwritable(const std::string& why) {
  return "decisions.csv: error: nothing could be added to it: " + why +
         "; check the file, its rights and the room on the disk [table/unwritable]\n";
}

struct WithoutALog : WrittenBook {
  WithoutALog() { std::filesystem::remove(folder() / "decisions.csv"); }
};

std::size_t files_in(const WrittenBook& book) {
  const std::filesystem::directory_iterator files(book.folder());
  return static_cast<std::size_t>(std::distance(begin(files), end(files)));
}

TEST(GrownTable, MakesACallAgainThatASignalInterrupted) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  Plan plan;
  for (const char* call : {"flock", "pread", "write"}) plan.then(call, EINTR);
  EXPECT_EQ(append(read), "decisions.csv:2");
  EXPECT_TRUE(plan.is_done());
  EXPECT_EQ(text_of(book), headings + row);
}

// What isn't on the disk may be gone after a power cut: it is no decision.
TEST(GrownTable, TakesBackTheRowThatDoesNotReachTheDisk) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  Plan plan;
  plan.then("fsync", EIO);
  plan.then("fsync", 0);  // of the file without the row
  EXPECT_EQ(append(read), unwritable("Input/output error"));
  EXPECT_TRUE(plan.is_done());
  EXPECT_EQ(text_of(book), headings);
}

// Somebody empties the file between the look at its size and the reading of it.
TEST(GrownTable, SaysThatTheFileEndsBeforeItsSize) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  Plan plan;
  plan.then("pread", [&book] {
    std::filesystem::resize_file(book.folder() / "decisions.csv", 0);
    errno = EINTR;  // of long ago
    return 0;
  });
  EXPECT_EQ(append(read), unwritable("Input/output error"));
}

// A disk that takes not a byte and gives no reason is full.
TEST(GrownTable, SaysThatTheDiskIsFullWhereItTakesNothing) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  Plan plan;
  plan.then("write", [] {
    errno = EINTR;  // of long ago
    return Plan::nothing;
  });
  EXPECT_EQ(append(read), unwritable("No space left on device"));
  EXPECT_EQ(text_of(book), headings);
}

TEST(GrownTable, ReadsAFileOfASingleCharacter) {
  WrittenBook book;
  book.file("decisions.csv", "x");
  EXPECT_EQ(append(book).find("[table/unwritable]"), std::string::npos) << append(book);
}

TEST(GrownTable, SaysThatItsFolderIsGone) {
  const WithoutALog book;
  const Book read = book.read();
  std::filesystem::remove_all(book.folder());
  EXPECT_EQ(append(read), unwritable("No such file or directory"));
}

// One sheet of a workbook may be the table, or one of several parts in a folder; beside a part there may be others.
TEST(GrownTable, IsBegunBesideAWorkbookOnlyWhereThatIsAPart) {
  const WithoutALog book;
  Book read = book.read();
  read.files.decisions = {"all.xlsx:decisions"};
  EXPECT_NE(append(read).find("[table/in-workbook]"), std::string::npos);
  read.files.decisions = {"records/all.xlsx:decisions"};
  EXPECT_NE(append(read).find("[table/in-workbook]"), std::string::npos);
  read.files.decisions = {"decisions/2025.xlsx:all"};
  EXPECT_EQ(append(read), "decisions.csv:2");
}

// The reason told is that of the row, whatever happens to the taking back.
TEST(GrownTable, SaysWhyTheRowDidNotReachTheDiskEvenIfItCannotBeTakenBack) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  Plan plan;
  plan.then("fsync", EDQUOT);
  plan.then("ftruncate", EIO);
  EXPECT_EQ(append(read), unwritable("Disk quota exceeded"));
  EXPECT_TRUE(plan.is_done());
}

TEST(GrownTable, TakesBackNothingThatAnotherHasWrittenBehindTheRow) {
  WrittenBook book;
  book.file("decisions.csv", headings);
  const Book read = book.read();
  Plan plan;
  plan.then("fsync", [&book] {
    std::ofstream(book.folder() / "decisions.csv", std::ios::app) << row;
    return EIO;
  });
  EXPECT_EQ(append(read), unwritable("Input/output error"));
  EXPECT_EQ(text_of(book), headings + row + row);
}

TEST(GrownTable, SaysWhyItCannotBeLockedReadOrWritten) {
  for (const char* call : {"flock", "pread", "write"}) {
    WrittenBook book;
    book.file("decisions.csv", headings);
    const Book read = book.read();
    Plan plan;
    plan.then(call, ENOLCK);
    EXPECT_EQ(append(read), unwritable("No locks available")) << call;
    EXPECT_TRUE(plan.is_done()) << call;
    EXPECT_EQ(text_of(book), headings) << call;
  }
}

TEST(GrownTable, ThatCannotBeBegunLeavesNothing) {
  for (const char* call : {"flock", "write", "fsync", "renameat2"}) {
    const WithoutALog book;
    const std::size_t before = files_in(book);
    const Book read = book.read();
    Plan plan;
    plan.then(call, ENOLCK);
    EXPECT_EQ(append(read), unwritable("No locks available")) << call;
    EXPECT_EQ(files_in(book), before) << call;
  }
}

// Its name is on the disk only when its folder is.
TEST(GrownTable, IsNotBegunWhereItsNameDoesNotReachTheDisk) {
  const WithoutALog book;
  const std::size_t before = files_in(book);
  const Book read = book.read();
  Plan plan;
  plan.then("fsync", 0);  // the file
  plan.then("fsync", EIO);
  EXPECT_EQ(append(read), unwritable("Input/output error"));
  EXPECT_EQ(files_in(book), before);
}

// A file system may know no renaming that spares what is there.
TEST(GrownTable, IsBegunByALinkWhereTheFileSystemKnowsNoSparingRename) {
  for (const int reason : {EINVAL, ENOSYS}) {
    const WithoutALog book;
    const std::size_t before = files_in(book);
    const Book read = book.read();
    Plan plan;
    plan.then("renameat2", reason);
    EXPECT_EQ(append(read), "decisions.csv:2");
    EXPECT_EQ(text_of(book), headings + row);
    EXPECT_EQ(files_in(book), before + 1);
  }
}

TEST(GrownTable, ThatAnotherBeganMeanwhileIsAppendedTo) {
  for (const int reason : {EEXIST, EINVAL}) {
    const WithoutALog book;
    const Book read = book.read();
    Plan plan;
    plan.then("renameat2", [&book, reason] {
      std::ofstream(book.folder() / "decisions.csv") << headings << row;
      return reason;
    });
    EXPECT_EQ(append(read), "decisions.csv:3");
    EXPECT_EQ(text_of(book), headings + row + row);
  }
}

TEST(GrownTable, BegunByManyAtOnceLosesNone) {
  for (int round = 0; round < 5; ++round) {
    const WrittenBook written;
    std::filesystem::remove(written.folder() / "decisions.csv");
    const Book book = written.read();
    {
      std::vector<std::jthread> writers;
      for (int writer = 0; writer < 6; ++writer) {
        writers.emplace_back([&book] { ASSERT_TRUE(append_decision(book, looked_at())); });
      }
    }
    EXPECT_EQ(written.read().decisions.size(), 6U);
  }
}

}  // namespace
}  // namespace driftwarden::grown_table_test
