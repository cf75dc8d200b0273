// SPDX-License-Identifier: MIT
#include "workshop/pdf_print.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <iterator>

#include "book/scratch_folder.hpp"

namespace driftwarden::pdf_print_test {
namespace {

namespace fs = std::filesystem;

constexpr Day in_november = 20773;  // 2026-11-16

// A stand-in for the browser: a script that does what its text says; $pdf is the file it is to write.
std::string stand_in(const ScratchFolder& folder, const std::string& does) {
  const fs::path file = folder.path() / "browser";
  std::ofstream(file) << "#!/bin/sh\nfor word; do case $word in --print-to-pdf=*) pdf=${word#*=};; esac; done\n"
                      << does << "\n";
  chmod(file.c_str(), 0700);
  return file.string();
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(PdfPrint, DatesTheFileByTheDayOfTheReview) {
  EXPECT_EQ(with_dates_of("/CreationDate (D:20270203040506+00'00')\n/ModDate (D:20270203040507+00'00')", in_november),
            "/CreationDate (D:20261116000000+00'00')\n/ModDate (D:20261116000000+00'00')");
  EXPECT_EQ(with_dates_of("%PDF without dates", in_november), "%PDF without dates");
  EXPECT_EQ(with_dates_of("cut /ModDate (D:2027", in_november), "cut /ModDate (D:2027");
}

TEST(PdfPrint, PutsWhatTheBrowserWroteInItsPlace) {
  const ScratchFolder folder;
  const std::string browser = stand_in(folder, "printf '%%PDF-1.4 /ModDate (D:20270203040506)%%%%EOF' >\"$pdf\"");
  const Diagnostics said =
      print_to_pdf(folder.path() / "page.html", folder.path() / "out.pdf", folder.path(), in_november, browser);
  EXPECT_TRUE(said.empty());
  EXPECT_EQ(text_of(folder.path() / "out.pdf"), "%PDF-1.4 /ModDate (D:20261116000000)%%EOF\n%driftwarden\n");
}

TEST(PdfPrint, NamesThePackageWhereThereIsNoBrowser) {
  const ScratchFolder folder;
  const Diagnostics said = print_to_pdf(folder.path() / "page.html", folder.path() / "out.pdf", folder.path(),
                                        in_november, "no-such-browser");
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(
      to_text(said[0]),
      "no-such-browser: error: the page can't be printed: there is no program no-such-browser; install the package "
      "chromium (sudo apt-get install chromium), or leave out --format pdf and print the page from a browser "
      "[print/no-browser]");
}

TEST(PdfPrint, TellsABrowserThatFailsOrWritesNothing) {
  const ScratchFolder folder;
  const auto print = [&](const std::string& does) {
    return print_to_pdf(folder.path() / "page.html", folder.path() / "out.pdf", folder.path(), in_november,
                        stand_in(folder, does));
  };
  EXPECT_NE(to_text(print("exit 3").at(0)).find("it ended with status 3"), std::string::npos);
  EXPECT_EQ(print("exit 0").at(0).id, "print/failed");
  EXPECT_EQ(print("echo no pdf >\"$pdf\"").at(0).id, "print/failed");
  EXPECT_EQ(print("printf '%%PDF-1.4 cut off' >\"$pdf\"").at(0).id, "print/failed");
  EXPECT_FALSE(fs::exists(folder.path() / "out.pdf"));
}

TEST(PdfPrint, TellsWhereThePdfCanNotBeWritten) {
  const ScratchFolder folder;
  const std::string browser = stand_in(folder, "printf '%%PDF-1.4 %%%%EOF' >\"$pdf\"");
  const Diagnostics said =
      print_to_pdf(folder.path() / "page.html", folder.path() / "no" / "out.pdf", folder.path(), in_november, browser);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].id, "output/unwritable");
}

}  // namespace
}  // namespace driftwarden::pdf_print_test
