// SPDX-License-Identifier: MIT
#include "command/screen_results.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::screen_results_test {
namespace {

struct Opened {
  explicit Opened(const BookText& text) : folder(text) {
    book = open_book({folder.path(), "2026-11-16", 1}, surroundings);
  }
  CalledBook folder;
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, project_folder(), "0.1.0"};
  std::unique_ptr<OpenedBook> book;
};

TEST(ScreenResults, AreWhatTheCommandPrints) {
  Opened opened(judged_text());
  const Selection all = *selected_samples(*opened.book, {}, opened.surroundings);
  for (const std::string format : {"table", "csv", "json", "sarif"}) {
    std::ostringstream written;
    const Totals totals = write_screen(*opened.book, all, {format, false, 2}, "0.1.0", written);
    EXPECT_EQ(totals.samples, all.samples.size());
    EXPECT_EQ(written.str(), call({"screen", opened.folder.path(), "--as-of", "2026-11-16", "--format", format}).out);
  }
}

// Three samples of P1 with drifts of -2.5, -7.5 and +1 %, and one of P2; two of them and two blanks are batch A. The
// last sample ran after the day that stands for today. Invented data.
BookText with_subjects() {
  BookText text;
  text.settings += "[rules]\npacks = [\"own.toml\"]\n";
  text.rules =
      "pack = \"own\"\ntitle = \"Own\"\nedition = \"1\"\n"
      "[[rule]]\nid = \"habit\"\nof = \"pump\"\nmeasure = \"drift.mean\"\nwithin = \"1 %\"\n"
      "otherwise = \"note\"\nreason = \"A reason.\"\nsource = \"A source\"\nstanding = \"house\"\n"
      "[[rule.example]]\ngiven = { \"drift.mean\" = \"1 %\" }\ngives = \"valid\"\n"
      "[[rule.example]]\ngiven = { \"drift.mean\" = \"2 %\" }\ngives = \"note\"\n"
      "[[rule]]\nid = \"blanks\"\nof = \"batch\"\nmeasure = \"blanks\"\nat_least = 3\n"
      "otherwise = \"qualify\"\nreason = \"A reason.\"\nsource = \"A source\"\nstanding = \"house\"\n"
      "[[rule.example]]\ngiven = { blanks = 3 }\ngives = \"valid\"\n"
      "[[rule.example]]\ngiven = { blanks = 2 }\ngives = \"qualified\"\n";
  text.samples =
      "sample,batch,kind,pump,started,stopped\n"
      "S1,A,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,A,sample,P1,2026-09-28T08:00,2026-09-28T16:00\n"
      "BA,A,blank,,,\nBB,A,blank,,,\n"
      "S3,C,sample,P2,2026-09-28T08:00,2026-09-28T16:00\n"
      "S4,D,sample,P1,2026-12-01T08:00,2026-12-01T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-28T07:30,pre,S2,V1,2.000\n2026-09-28T16:10,post,S2,V1,1.850\n"
      "2026-09-28T07:30,pre,S3,V1,2.000\n2026-09-28T16:10,post,S3,V1,2.000\n"
      "2026-12-01T07:30,pre,S4,V1,2.000\n2026-12-01T16:10,post,S4,V1,2.020\n";
  return text;
}

// The first lines of what is said about pumps and batches, one after another.
std::string apart(const CalledBook& book, std::vector<std::string> options) {
  options.insert(options.begin(), {"screen", book.path(), "--threads", "2"});
  const std::string out = call(options).out;
  std::string lines;
  for (const char* of : {"- note: On average", "- qualified: Batch"}) {
    for (std::size_t at = out.find(of); at != std::string::npos; at = out.find(of, at + 1)) {
      lines += out.substr(at, out.find('\n', at) - at) + "\n";
    }
  }
  return lines;
}

TEST(ScreenResults, SayTheSameOfAPumpAndABatchWhateverIsChosenForPrinting) {
  const CalledBook book(with_subjects());
  const std::string of_all =
      "- note: On average the flow of P1 fell 5.0 % over a sample (2 samples); the\n"
      "- qualified: Batch A has 2 blanks (4 samples and blanks); the rule asks for at\n";
  const auto begins = [&](const std::vector<std::string>& options) {
    return apart(book, options).substr(0, of_all.size());
  };
  EXPECT_EQ(begins({}), of_all);
  EXPECT_EQ(apart(book, {"--sample", "S2"}), of_all);
  EXPECT_EQ(apart(book, {"--batch", "A"}), of_all);
  EXPECT_EQ(apart(book, {"--since", "2026-09-27", "--batch", "A"}), of_all);
  EXPECT_EQ(apart(book, {"--sample", "S3"}),
            "- qualified: Batch C has no blank (1 sample or blank); the rule asks for at\n");
}

TEST(ScreenResults, LetAsOfAndUntilDecideOnWhatAPumpsFindingsRest) {
  const CalledBook book(with_subjects());
  const auto pump = [&](const std::vector<std::string>& options) {
    const std::string lines = apart(book, options);
    return lines.substr(0, lines.find("; the"));
  };
  EXPECT_EQ(pump({"--as-of", "2026-09-21"}), "- note: On average the flow of P1 fell 2.5 % over a sample (1 sample)");
  EXPECT_EQ(pump({"--until", "2026-09-22"}), "- note: On average the flow of P1 fell 2.5 % over a sample (1 sample)");
  EXPECT_EQ(pump({"--as-of", "2026-12-02"}), "- note: On average the flow of P1 fell 3.0 % over a sample (3 samples)");
}

TEST(ScreenResults, TellHowFarTheyHaveCome) {
  const Opened opened(judged_text());
  std::ostringstream written;
  std::size_t last = 0;
  write_screen(*opened.book, {{0}, opened.book->as_of}, {"csv", false, 1}, "0.1.0", written,
               [&last](std::string_view, std::size_t done, std::size_t of) { last = done == of ? done : 0; });
  EXPECT_EQ(last, 1U);
}

}  // namespace
}  // namespace driftwarden::screen_results_test
