// SPDX-License-Identifier: MIT
#include "book/whereabouts.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::whereabouts_test {
namespace {

constexpr Row pump = 0;
constexpr Row calibrator = 1;
using Texts = std::vector<std::string>;
Day in_may(int day) { return day_from({2026, 5, day}); }

// Out in K-1 from the 4th to the 8th, and in K-2 from the 11th on; the calibrator came back missing on the 8th.
const char* const two_trips =
    "kit,instrument,out,to,back,missing\nK-2,PUMP-1,2026-05-11,,,\nK-1,PUMP-1,2026-05-04,north crew,2026-05-08,\n"
    "K-1,VOL-1,2026-05-04,north crew,2026-05-08,yes\nK-3,PUMP-1,,,,\n";

// "out K-1, store K-1"
std::string places(const Whereabouts& where, Row instrument, Day day) {
  std::string text;
  for (const Whereabouts::Stay& stay : where.on(instrument, day)) {
    const char* word = stay.where == Whereabouts::Where::out    ? "out "
                       : stay.where == Whereabouts::Where::lost ? "missing "
                                                                : "store ";
    text += (text.empty() ? "" : ", ") + std::string(word) + stay.issue->kit;
  }
  return text;
}

TEST(Whereabouts, AreOnePlaceBetweenTheDaysOfMovingAndTwoOnThem) {
  const Book book = WrittenBook().file("issues.csv", two_trips).read();
  const Whereabouts where(book);
  EXPECT_EQ(places(where, pump, in_may(3)), "") << "nobody knows where it was before";
  EXPECT_EQ(places(where, pump, in_may(4)), "");
  EXPECT_EQ(places(where, pump, in_may(5)), "out K-1");
  EXPECT_EQ(places(where, pump, in_may(8)), "out K-1, store K-1");
  EXPECT_EQ(places(where, pump, in_may(9)), "store K-1");
  EXPECT_EQ(places(where, pump, in_may(11)), "out K-2, store K-1");
  EXPECT_EQ(places(where, pump, in_may(30)), "out K-2");
  EXPECT_EQ(places(where, calibrator, in_may(9)), "missing K-1");
}

TEST(Whereabouts, KnowNothingOfWhatIsYetToCome) {
  const Book book = WrittenBook().file("issues.csv", two_trips).read();
  const Whereabouts where(book, in_may(7));
  EXPECT_EQ(places(where, pump, in_may(12)), "out K-1") << "it had not come back by the 7th";
  EXPECT_EQ(where.issues_of(pump).size(), 2U) << "that of K-2 was not known, that of K-3 has no day";
  EXPECT_EQ(where.back_of(*where.issues_of(pump)[0]), no_day);
}

TEST(Whereabouts, SayWhoHadIt) {
  const Book book = WrittenBook().file("issues.csv", two_trips).read();
  const Whereabouts where(book);
  EXPECT_EQ(where.had_by(pump, in_may(5)), Texts{"north crew (kit K-1)"});
  EXPECT_EQ(where.had_by(pump, in_may(9)), Texts{});
  EXPECT_EQ(where.had_by(pump, in_may(12)), Texts{"kit K-2"});
}

TEST(Whereabouts, NameEachHolderOnce) {
  const Book book = WrittenBook()
                        .file("issues.csv",
                              "kit,instrument,out,to,back\nK-1,PUMP-1,2026-05-04,crew,2026-05-08\n"
                              "K-1,PUMP-1,2026-05-08,crew,\nK-2,PUMP-1,2026-05-08,,\n")
                        .read();
  EXPECT_EQ(Whereabouts(book).had_by(pump, in_may(8)), (Texts{"crew (kit K-1)", "kit K-2"}));
}

// Each row as "packed", "out", "missing" or "-".
std::string states(const std::string& rows, std::optional<Day> as_of = {}) {
  const Book book = WrittenBook().file("issues.csv", "kit,instrument,out,back,missing\n" + rows).read();
  const Whereabouts where(book, as_of);
  std::string text;
  for (const Issue& issue : book.issues) {
    const char* state = where.is_packed(issue) ? "packed" : where.is_out(issue) ? "out" : "-";
    text += (text.empty() ? "" : " ") + std::string(where.is_missing(issue) ? "missing" : state);
  }
  return text;
}

TEST(Whereabouts, TellHowARowStands) {
  EXPECT_EQ(states("K-1,PUMP-1,,,\nK-1,PUMP-1,2026-05-04,,\nK-1,PUMP-1,2026-05-04,2026-05-08,\n"), "packed out -");
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,2026-05-08,yes\n"), "missing");
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,2026-05-08,yes\n", in_may(7)), "out") << "the kit is not back yet";
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,2026-05-08,yes\n", in_may(3)), "-") << "nor out";
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,,yes\n"), "missing") << "since nobody says when";
  EXPECT_EQ(states("K-1,PUMP-1,,,yes\n"), "missing");
}

TEST(Whereabouts, KnowThatWhatWentOutAgainHasTurnedUp) {
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,2026-05-08,yes\nK-2,PUMP-1,2026-05-08,,\n"), "- out");
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,2026-05-08,yes\nK-2,PUMP-1,2026-05-06,2026-05-07,\n"), "missing -")
      << "it went out before it was missed";
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,,yes\nK-2,PUMP-1,2026-05-06,,\n"), "- out");
  EXPECT_EQ(states("K-1,PUMP-1,2026-05-04,,yes\nK-2,PUMP-1,,,\n"), "missing packed") << "it is meant to go";
  EXPECT_EQ(states("K-1,PUMP-1,,,yes\nK-2,PUMP-1,2026-05-06,2026-05-07,\n"), "missing -")
      << "nobody says since when it is missing";
}

TEST(Whereabouts, OfWhatIsMissingSinceNobodySaysWhenAreTwoUntilItGoesOutAgain) {
  const Book book = WrittenBook()
                        .file("issues.csv",
                              "kit,instrument,out,back,missing\nK-1,PUMP-1,2026-05-04,,yes\n"
                              "K-2,PUMP-1,2026-05-11,,\n")
                        .read();
  const Whereabouts where(book);
  EXPECT_EQ(places(where, pump, in_may(5)), "out K-1, missing K-1");
  EXPECT_EQ(places(where, pump, in_may(12)), "out K-2");
  EXPECT_EQ(where.had_by(pump, in_may(12)), Texts{"kit K-2"});
}

TEST(Whereabouts, TellWhatCameBackDamagedUntilAServiceIsWritten) {
  WrittenBook written;
  written.file("issues.csv",
               "kit,instrument,out,back,condition\nK-1,PUMP-1,2026-05-04,2026-05-08,damaged\n"
               "K-2,PUMP-1,2026-05-11,2026-05-12,good\nK-1,VOL-1,2026-05-04,2026-05-08,dirty\n");
  const auto damaged = [](const Book& book, Day as_of) {
    const Issue* issue = Whereabouts(book, as_of).damaged(pump);
    return issue == nullptr ? std::string() : issue->kit;
  };
  const Book book = written.read();
  EXPECT_EQ(damaged(book, in_may(13)), "K-1");
  EXPECT_EQ(damaged(book, in_may(7)), "") << "it is not back yet";
  EXPECT_EQ(Whereabouts(book).damaged(1), nullptr) << "dirty";
  const Book mended =
      written.file("service.csv", "serviced,instrument,what\n2026-05-09T10:00,PUMP-1,new door\n").read();
  EXPECT_EQ(damaged(mended, in_may(13)), "");
  EXPECT_EQ(damaged(mended, in_may(8)), "K-1") << "it is not done yet";
  const Book undated =
      WrittenBook().file("issues.csv", "kit,instrument,out,condition\nK-1,PUMP-1,2026-05-04,damaged\n").read();
  EXPECT_EQ(damaged(undated, in_may(3)), "");
  EXPECT_EQ(damaged(undated, in_may(4)), "K-1") << "it is back, on whatever day";
}

}  // namespace
}  // namespace driftwarden::whereabouts_test
