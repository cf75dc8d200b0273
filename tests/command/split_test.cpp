// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::split_test {
namespace {

namespace fs = std::filesystem;

std::string in(const ScratchFolder& scratch, const std::string& name) { return (scratch.path() / name).string(); }

TEST(Split, PartsScreenedApartAndJoinedAreTheWholeByteForByte) {
  const CalledBook book(judged_text());
  const ScratchFolder scratch;
  const std::string parts = in(scratch, "parts");
  ASSERT_EQ(call({"split", book.path(), "--parts", "2", "--out", parts}).status, 0);
  for (const std::string part : {"1", "2"}) {
    call({"screen", parts + "/part-" + part, "--format", "csv", "--out", in(scratch, part + ".csv")});
  }
  const Called joined = call({"join", parts + "/order", in(scratch, "1.csv"), in(scratch, "2.csv")});
  EXPECT_EQ(joined.status, 0) << joined.err;
  EXPECT_EQ(joined.out, call({"screen", book.path(), "--format", "csv"}).out);
}

TEST(Split, TellsWhatToDoNext) {
  const CalledBook book(judged_text());
  const ScratchFolder scratch;
  const Called split = call({"split", book.path(), "--parts", "2", "--out", in(scratch, "parts")});
  EXPECT_NE(split.out.find("driftwarden join " + in(scratch, "parts") + "/order"), std::string::npos) << split.out;
}

TEST(Split, NeverWritesIntoWhatIsThere) {
  const CalledBook book;
  const ScratchFolder scratch;
  const Called split = call({"split", book.path(), "--parts", "2", "--out", scratch.path().string()});
  EXPECT_EQ(split.status, 2);
  EXPECT_EQ(split.err, scratch.path().string() +
                           ": error: there is something of this name already; a folder is never written over "
                           "anything; name another [output/already-there]\n");
}

TEST(Split, RefusesABookWithFaults) {
  BookText text;
  text.readings += "2026-05-01T09:00,pre,nobody,VOL-1,2.0\n";
  const CalledBook book(text);
  const ScratchFolder scratch;
  const Called split = call({"split", book.path(), "--parts", "2", "--out", in(scratch, "parts")});
  EXPECT_EQ(split.status, 2);
  EXPECT_NE(split.err.find("book.toml: error: a book with faults can't be split: nobody knows where its faulty rows "
                           "belong; mend what 'driftwarden check' reports, or screen it whole [parts/faulty]\n"),
            std::string::npos)
      << split.err;
  EXPECT_FALSE(fs::exists(in(scratch, "parts")));
}

}  // namespace
}  // namespace driftwarden::split_test
