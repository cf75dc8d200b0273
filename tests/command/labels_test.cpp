// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::labels_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText planned() {
  BookText text;
  text.instruments = "instrument,kind,principle,serial\nP1,pump,,AB-1\nP2,pump,,\nV1,calibrator,volumetric,\n";
  text.certificates.clear();
  text.plan = "sample,batch,kind,pump,medium\nS2,B1,,P1,C-1\nS3,B1,,P1,\nK1,B1,blank,,\n";
  return text;
}

std::string page_of_labels(const CalledBook& book, const std::string& of) {
  const std::string page = book.file(of + ".html");
  const Called called = call({"labels", book.path(), "--batch", "B1", "--of", of, "--out", page});
  EXPECT_EQ(called.status, 0) << called.err;
  return text_of_file(page);
}

TEST(Labels, AreOfSamplesOfPumpsOrOfBoth) {
  const CalledBook book(planned());
  const std::string samples = page_of_labels(book, "samples");
  for (const char* part :
       {"<bdi>S2</bdi>", "<bdi>C-1</bdi>", "<bdi>K1</bdi>", "<bdi>blank</bdi>", "<bdi>batch B1</bdi>"})
    EXPECT_TRUE(has(samples, part)) << part;
  EXPECT_FALSE(has(samples, "<bdi>P1</bdi>"));
  const std::string pumps = page_of_labels(book, "pumps");
  EXPECT_TRUE(has(pumps, "<strong><bdi>P1</bdi></strong><span><bdi>serial AB-1</bdi></span>"));
  EXPECT_EQ(pumps.find("<bdi>P1</bdi>"), pumps.rfind("<bdi>P1</bdi>"));
  EXPECT_FALSE(has(pumps, "<bdi>P2</bdi>"));
  const std::string both = page_of_labels(book, "both");
  EXPECT_TRUE(has(both, "<bdi>S2</bdi>") && has(both, "<bdi>P1</bdi>"));
}

TEST(Labels, AreOfASizeThatThereIs) {
  const CalledBook book(planned());
  EXPECT_EQ(call({"labels", book.path(), "--batch", "B1", "--size", "1x1", "--out", book.file("l.html")}).status, 2);
  EXPECT_EQ(call({"labels", book.path(), "--batch", "B9", "--out", book.file("l.html")}).status, 2);
}

}  // namespace
}  // namespace driftwarden::labels_test
