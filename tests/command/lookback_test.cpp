// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::lookback_test {
namespace {

const std::string demo = std::string(project_folder()) + "/docs/demo";

TEST(LookbackCommand, FindsTheNewestCertificateBeyondTolerance) {
  const Called called = call({"lookback", demo, "ROT-2", "--format", "json"});
  EXPECT_EQ(called.status, 1);
  const auto json = nlohmann::json::parse(called.out);
  EXPECT_EQ(json["certificate"], "ROT-2/2026-11-11");
  EXPECT_EQ(json["samples"].size(), 19U);
}

TEST(LookbackCommand, TakesACertificateByName) {
  const Called called = call({"lookback", demo, "ROT-2", "--certificate", "ROT-2/2026-09-08", "--format", "json"});
  const auto json = nlohmann::json::parse(called.out);
  EXPECT_EQ(json["window"]["to"], "2026-09-08");
  EXPECT_EQ(called.status, 0) << called.err;
}

TEST(LookbackCommand, OfADayKnowsNoLaterCertificate) {
  const Called called = call({"lookback", demo, "ROT-2", "--as-of", "2026-11-10"});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(
      called.out.starts_with("No certificate found ROT-2 beyond its tolerance: there is nothing to look back on.\n\n"));
  for (const auto& [format, part] : {std::pair("csv", "sample,batch"), {"json", "\"samples\":[]"}, {"html", "<html"}}) {
    const Called other = call({"lookback", demo, "ROT-2", "--as-of", "2026-11-10", "--format", format});
    EXPECT_EQ(other.status, 0);
    EXPECT_NE(other.out.find(part), std::string::npos) << format;
  }
}

TEST(LookbackCommand, KnowsNoOtherInstruments) {
  const Called called = call({"lookback", demo, "ROT-3"});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("the book has no calibrator 'ROT-3'; did you mean"), std::string::npos) << called.err;
  EXPECT_EQ(call({"lookback", demo, "PUMP-01"}).status, 2) << "a pump is no calibrator";
}

TEST(LookbackCommand, KnowsNoOtherCertificates) {
  const Called called = call({"lookback", demo, "ROT-2", "--certificate", "VOL-1/2026-08-24"});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("ROT-2 has no certificate 'VOL-1/2026-08-24'"), std::string::npos) << called.err;
}

BookText with_certificates(const std::string& lines) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min]\n" + lines;
  return text;
}

TEST(LookbackCommand, NeedsSomebodyToSayWhatIsTolerated) {
  const CalledBook book(with_certificates("C1,V1,2026-01-05,2,2,2,2\n"));
  const Called called = call({"lookback", book.path(), "V1"});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.err,
            "command line: error: neither a certificate of 'V1' nor a rule says how far off it may be; name the "
            "certificate to look back from with --certificate [lookback/no-tolerance]\n");
}

TEST(LookbackCommand, NeedsACertificateThatSaysHowItWasFound) {
  const CalledBook book(with_certificates("C1,V1,2026-01-05,2,2,,2\n"));
  const Called called = call({"lookback", book.path(), "V1", "--certificate", "C1"});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("certificate 'C1' has no date or does not say how the instrument was found; give "
                            "'calibrated' and 'as found', or name another certificate with --certificate "
                            "[lookback/no-as-found]"),
            std::string::npos)
      << called.err;
}

TEST(LookbackCommand, WritesToAFileButNotOverTheBook) {
  const CalledBook book(with_certificates("C1,V1,2026-01-05,2,2,2.2,2\n"));
  const std::string file = book.file("page.html");
  EXPECT_EQ(call({"lookback", demo, "ROT-2", "--format", "html", "--out", file}).status, 1);
  EXPECT_TRUE(text_of_file(file).starts_with("<!DOCTYPE html>"));
  const std::string before = text_of_file(book.file("samples.csv"));
  const Called over = call({"lookback", book.path(), "V1", "--certificate", "C1", "--out", book.file("samples.csv")});
  EXPECT_EQ(over.status, 2);
  EXPECT_NE(over.err.find("the results would replace a file of the book"), std::string::npos) << over.err;
  EXPECT_EQ(text_of_file(book.file("samples.csv")), before);
  EXPECT_EQ(call({"lookback", demo, "ROT-2", "--out", book.file("no/such/folder")}).status, 2);
}

TEST(LookbackCommand, SaysTheSameWithAnyNumberOfThreads) {
  const std::string one = call({"lookback", demo, "ROT-2", "--threads", "1"}).out;
  EXPECT_EQ(one, call({"lookback", demo, "ROT-2", "--threads", "7"}).out);
}

}  // namespace
}  // namespace driftwarden::lookback_test
