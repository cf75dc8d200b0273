// SPDX-License-Identifier: MIT
#include "book/own_page.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <string>

#include "book/scratch_folder.hpp"

namespace driftwarden::own_page_test {
namespace {

bool is_own(const std::string& bytes) {
  const ScratchFolder scratch;
  const std::filesystem::path path = scratch.path() / "page";
  std::ofstream(path, std::ios::binary) << bytes;
  return is_own_page(path);
}

TEST(OwnPage, IsKnownByItsMark) {
  const std::string html = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n";
  EXPECT_TRUE(is_own(html + std::string(html_mark) + "<title>"));
  EXPECT_FALSE(is_own(html + "<title>"));
  EXPECT_FALSE(is_own(std::string(html_mark)));
  EXPECT_TRUE(is_own("%PDF-1.4\n%%EOF\n" + std::string(pdf_mark)));
  EXPECT_FALSE(is_own("%PDF-1.4\n%%EOF\n"));
  EXPECT_FALSE(is_own("%PDF"));
  EXPECT_FALSE(is_own(""));
  EXPECT_FALSE(is_own_page("/nowhere"));
}

}  // namespace
}  // namespace driftwarden::own_page_test
