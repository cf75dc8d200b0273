// SPDX-License-Identifier: MIT
#include "command/output.hpp"

#include <gtest/gtest.h>

#include <filesystem>

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
  EXPECT_EQ(meant("", "page"), "html");
  EXPECT_EQ(meant("", "a.b/page.pdf"), "pdf");
  EXPECT_EQ(meant("", "PAGE.PDF"), "pdf");
  EXPECT_EQ(meant("", "page.htm"), "html");
  EXPECT_EQ(meant("", "pages.d/page"), "html");
  EXPECT_EQ(meant("", "/dev/stdout"), "html");
  EXPECT_EQ(meant("json", "page.odd"), "json");
  EXPECT_EQ(meant("json", "page.html"), "json");
  EXPECT_EQ(err.str(), "");
  EXPECT_EQ(meant("html", "page.pdf"), "refused");
  EXPECT_EQ(meant("pdf", ""), "refused");
  EXPECT_EQ(err.str(),
            "command line: error: --out is called .pdf, and --format is html; leave --format out, or name the file "
            "otherwise [command/refused]\ncommand line: error: a PDF is not written to a terminal; name a file with "
            "--out [command/refused]\n");
}

// A page under the name of something else would be taken for it.
TEST(Output, IsRefusedWhereTheNameEndsInWhatIsNotWritten) {
  std::ostringstream err;
  Surroundings surroundings{err, err, false, false, 0, project_folder(), "0.1.0"};
  EXPECT_FALSE(format_meant("", "page.txt", {"html", "pdf"}, surroundings));
  EXPECT_FALSE(format_meant("", "form.pdf", {"html"}, surroundings));
  EXPECT_EQ(err.str(),
            "command line: error: --out ends in .txt, and what is written is html or pdf; end the file's name "
            "accordingly, or say with --format what is meant [command/refused]\n"
            "command line: error: --out ends in .pdf, and what is written is html; end the file's name in .html "
            "[command/refused]\n");
  EXPECT_EQ(format_meant("", "list.txt", {"table", "csv"}, surroundings), "table");
  EXPECT_EQ(format_meant("", "mail.txt", {"html", "text"}, surroundings), "text");
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

// Every command that writes a page or a table to a file.
TEST(Output, OfEveryCommandFollowsTheNameOrIsRefused) {
  BookText text = judged_text("5 %");
  text.samples = "sample,batch,pump,started,stopped\nS1,B1,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.issues = "kit,instrument,out\nK-1,P1,2026-09-20\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],"
      "tolerance [%]\nC1,V1,2026-01-05,2,2,2,2,2\n";
  const CalledBook book(text);
  const std::vector<std::vector<std::string>> commands = {{"sheet", "--batch", "B1"},
                                                          {"labels", "--batch", "B1"},
                                                          {"form", "--batch", "B1"},
                                                          {"letter", "--batch", "B1"},
                                                          {"custody", "--batch", "B1"},
                                                          {"kit", "--kit", "K-1"},
                                                          {"kit"},
                                                          {"lookback", "V1", "--certificate", "C1"},
                                                          {"review", "--as-of", "2026-09-24"},
                                                          {"screen"},
                                                          {"risk"},
                                                          {"compare", "--guard", "1"}};
  for (const std::vector<std::string>& command : commands) {
    const std::string file = book.file(command[0] + ".docx");
    std::vector<std::string> words{command[0], book.path()};
    words.insert(words.end(), command.begin() + 1, command.end());
    words.insert(words.end(), {"--out", file});
    const Called called = call(words);
    EXPECT_EQ(called.status, 2) << command[0];
    EXPECT_NE(called.err.find("--out ends in .docx, and what is written is "), std::string::npos)
        << command[0] << ": " << called.err;
    EXPECT_FALSE(std::filesystem::exists(file)) << command[0];
  }
  EXPECT_NE(call({"screen", book.path(), "--out", book.file("s.csv")}).status, 2);
  EXPECT_TRUE(text_of_file(book.file("s.csv")).starts_with("sample,batch,"));
  EXPECT_EQ(call({"kit", book.path(), "--out", book.file("k.pdf")}).status, 2);
  EXPECT_EQ(call({"kit", book.path(), "--kit", "K-1", "--out", book.file("k.csv")}).status, 2);
}

}  // namespace
}  // namespace driftwarden::output_test
