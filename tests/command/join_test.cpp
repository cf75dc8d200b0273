// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <fstream>

#include "command/called.hpp"

namespace driftwarden::join_test {
namespace {

class Files {
 public:
  std::string write(const std::string& name, const std::string& text) {
    std::ofstream(scratch_.path() / name, std::ios::binary) << text;
    return (scratch_.path() / name).string();
  }
  std::string path(const std::string& name) const { return (scratch_.path() / name).string(); }

 private:
  ScratchFolder scratch_;
};

TEST(Join, WritesToAFileWhereOneIsNamed) {
  Files files;
  const std::string order = files.write("order", "2\n1\n");
  const std::string one = files.write("1.csv", "sample\nB\n");
  const std::string two = files.write("2.csv", "sample\nA\n");
  EXPECT_EQ(call({"join", order, one, two, "--out", files.path("all.csv")}).status, 0);
  EXPECT_EQ(text_of_file(files.path("all.csv")), "sample\nA\nB\n");
}

TEST(Join, TellsOfAFileThatIsNotThere) {
  Files files;
  const Called joined = call({"join", files.write("order", ""), files.path("none.csv")});
  EXPECT_EQ(joined.status, 2);
  EXPECT_NE(joined.err.find("none.csv: error: can't be read: No such file or directory"), std::string::npos)
      << joined.err;
}

TEST(Join, TellsWhereTheResultCannotBeWritten) {
  Files files;
  const std::string order = files.write("order", "1\n");
  const Called joined = call({"join", order, files.write("1.csv", "sample\nA\n"), "--out", "/dev/full"});
  EXPECT_EQ(joined.status, 2);
  EXPECT_NE(joined.err.find("the results could not be written"), std::string::npos) << joined.err;
}

}  // namespace
}  // namespace driftwarden::join_test
