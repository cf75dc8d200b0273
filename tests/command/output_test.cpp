// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::output_test {
namespace {

TEST(Output, GoesToStandardOutputWhereNoFileIsNamed) {
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, project_folder(), "0.1.0"};
  EXPECT_TRUE(write_out("text\n", "table", "", surroundings));
  EXPECT_EQ(out.str(), "text\n");
}

TEST(Output, GoesToTheFileNamedAndSaysWhereItCannot) {
  const ScratchFolder folder;
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, project_folder(), "0.1.0"};
  const std::string file = (folder.path() / "result").string();
  EXPECT_TRUE(write_out("text\n", "table", file, surroundings));
  EXPECT_EQ(text_of_file(file), "text\n");
  EXPECT_FALSE(write_out("text\n", "csv", file + "/below", surroundings));
  EXPECT_FALSE(write_out("text\n", "csv", "/dev/full", surroundings));
  EXPECT_EQ(out.str(), "");
  EXPECT_NE(err.str().find("/dev/full: error: the results could not be written"), std::string::npos) << err.str();
}

TEST(Output, IsOfTheFormatThatWasSaidElseAsTheFileIsCalled) {
  std::ostringstream err;
  Surroundings surroundings{err, err, false, false, 0, project_folder(), "0.1.0"};
  const auto meant = [&](const std::string& said, const std::string& file) {
    return format_meant(said, file, {"html", "pdf", "json"}, surroundings).value_or("refused");
  };
  EXPECT_EQ(meant("", ""), "html");
  EXPECT_EQ(meant("", "page.odd"), "html");
  EXPECT_EQ(meant("", "page"), "html");
  EXPECT_EQ(meant("", "a.b/page.pdf"), "pdf");
  EXPECT_EQ(meant("json", "page.html"), "json");
  EXPECT_EQ(err.str(), "");
  EXPECT_EQ(meant("html", "page.pdf"), "refused");
  EXPECT_EQ(meant("pdf", ""), "refused");
  EXPECT_EQ(err.str(),
            "command line: error: --out is called .pdf, and --format is html; leave --format out, or name the file "
            "otherwise [command/refused]\ncommand line: error: a PDF is not written to a terminal; name a file with "
            "--out [command/refused]\n");
}

TEST(Output, ForPeopleIsMadeSafeAndForProgramsIsLeftExact) {
  const ScratchFolder folder;
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, project_folder(), "0.1.0"};
  const std::string file = (folder.path() / "result").string();
  EXPECT_TRUE(write_out("\x1b[2J\n", "table", file, surroundings));
  EXPECT_EQ(text_of_file(file), "\\x1b[2J\n");
  EXPECT_TRUE(write_out("\x1b[2J\n", "csv", file, surroundings));
  EXPECT_EQ(text_of_file(file), "\x1b[2J\n");
}

}  // namespace
}  // namespace driftwarden::output_test
