// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::actions_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string rule_text(const std::string& id, const std::string& limit, const std::string& good,
                      const std::string& bad) {
  return "[[rule]]\nid = \"" + id + "\"\nof = \"sample\"\nmeasure = \"" + id + "\"\n" + limit +
         "\notherwise = \"void\"\nreason = \"A reason.\"\nsource = \"A source\"\nstanding = \"house\"\n" +
         "[[rule.example]]\ngiven = { " + id + " = " + good + " }\ngives = \"valid\"\n[[rule.example]]\ngiven = { " +
         id + " = " + bad + " }\ngives = \"void\"\n";
}

// S1 and S2, of batch B1, are void: S1 for a fault, S2 took too long.
BookText two_void() {
  BookText text;
  text.settings += "[rules]\npacks = [\"own.toml\"]\n";
  text.rules = "pack = \"own\"\ntitle = \"Own\"\nedition = \"1\"\n" +
               rule_text("fault", "is = \"no\"", "\"no\"", "\"yes\"") +
               rule_text("minutes", "at_most = \"500 min\"", "\"500 min\"", "\"501 min\"");
  text.samples =
      "sample,batch,pump,started,stopped,fault\n"
      "S1,B1,P1,2026-11-12T08:00,2026-11-12T16:00,yes\nS2,B1,P2,2026-11-12T08:00,2026-11-12T17:00,no\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (const char* row : {"07:30,pre,S1,V1", "17:10,post,S1,V1", "07:30,pre,S2,V2", "17:10,post,S2,V2"})
    text.readings += "2026-11-12T" + std::string(row) + ",2.000\n";
  return text;
}

std::vector<std::string> actions(const CalledBook& book, const std::vector<std::string>& more) {
  std::vector<std::string> words{"actions", book.path()};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Actions, AreListedWhereNothingIsToBeWrittenDown) {
  const CalledBook book(two_void());
  const Called called = call(actions(book, {}));
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "  Sample again          S1\n  Sample again          S2\n")) << called.out;
  EXPECT_EQ(text_of_file(book.file("actions.csv")), "");
}

TEST(Actions, AreWrittenDownManyAtOnceAndShownWithWhoSeesToThem) {
  const CalledBook book(two_void());
  const Called called =
      call(actions(book, {"S1", "S2", "--who", "second shift", "--due", "2026-11-20", "--by", "site hygienist"}));
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out,
            "actions.csv:2: Sample again: S1; second shift sees to it; by 2026-11-20\n"
            "actions.csv:3: Sample again: S2; second shift sees to it; by 2026-11-20\n");
  EXPECT_EQ(text_of_file(book.file("actions.csv")),
            "written,by,action,about,name,who,due,done,note\n"
            "2026-11-16T12:00+00:00,site hygienist,Sample again,sample,S1,second shift,2026-11-20,,\n"
            "2026-11-16T12:00+00:00,site hygienist,Sample again,sample,S2,second shift,2026-11-20,,\n");
  EXPECT_TRUE(has(call(actions(book, {})).out, "S1: second shift, by 2026-11-20\n"));
  EXPECT_TRUE(has(call({"review", book.path(), "--format", "text"}).out, "[second shift, by 2026-11-20]"));
}

TEST(Actions, OfABatchOrOfAKindAreMeantTogether) {
  const CalledBook book(two_void());
  for (const std::vector<std::string>& which :
       {std::vector<std::string>{"--batch", "B1"}, std::vector<std::string>{"--what", "sample again"}}) {
    std::vector<std::string> words = which;
    words.insert(words.end(), {"--done", "--by", "site hygienist", "--dry-run"});
    EXPECT_EQ(call(actions(book, words)).out,
              "would be written: Sample again: S1; done\nwould be written: Sample again: S2; done\n"
              "nothing was written\n");
  }
  EXPECT_EQ(text_of_file(book.file("actions.csv")), "");
}

TEST(Actions, ThatAreDoneLeaveTheListAndComeBackWhenItIsTakenBack) {
  const CalledBook book(two_void());
  call(actions(book, {"S1", "--done", "--by", "site hygienist"}));
  EXPECT_TRUE(has(call(actions(book, {})).out, "Done\n  Sample again          S1: done on 2026-11-16\n"));
  call(actions(book, {"S1", "--open", "--note", "the pump failed again", "--by", "site hygienist"}));
  EXPECT_TRUE(has(call(actions(book, {})).out, "  Sample again          S1: the pump failed again\n"));
}

// What is told where nothing is written.
std::string refused(const CalledBook& book, const std::vector<std::string>& more) {
  const Called called = call(actions(book, more));
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "");
  EXPECT_EQ(text_of_file(book.file("actions.csv")), "");
  return called.err;
}

TEST(Actions, AreRefusedAsAWholeWhereOneIsNotThere) {
  const CalledBook book(two_void());
  EXPECT_EQ(refused(book, {"S1", "S22", "--done", "--by", "site hygienist"}),
            "command line: error: there is no action about 'S22'; did you mean 'S2'? [actions/refused]\n");
}

TEST(Actions, AreRefusedWithoutWhoWritesWithoutANameAndOfNoKind) {
  const CalledBook book(two_void());
  EXPECT_TRUE(has(refused(book, {"S1", "--done"}), "--by is empty; name who writes it down"));
  EXPECT_TRUE(has(refused(book, {"--done", "--by", "a"}), "no action is named"));
  EXPECT_TRUE(has(refused(book, {"--what", "sampel again", "--done", "--by", "a"}), "did you mean 'Sample again'"));
  EXPECT_TRUE(has(refused(book, {"S1", "--what", "Watch", "--done", "--by", "a"}), "no action about 'S1'"));
  EXPECT_TRUE(has(refused(book, {"S1", "--due", "Friday", "--by", "a"}), "'Friday'"));
}

TEST(Actions, WrittenAfterTheDayThatStandsForTodayAreNotCountedAndTold) {
  const CalledBook book(two_void());
  call(actions(book, {"S1", "--done", "--by", "site hygienist"}));
  const Called before = call({"actions", book.path(), "--as-of", "2026-11-15"});
  EXPECT_TRUE(has(before.out, "  Sample again          S1\n")) << before.out;
  EXPECT_TRUE(has(before.err,
                  "actions.csv:2: remark: what it says of 'S1' was written after 2026-11-15, which stands for today; "
                  "it is not counted [actions/later]\n"))
      << before.err;
}

}  // namespace
}  // namespace driftwarden::actions_test
