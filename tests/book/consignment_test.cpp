// SPDX-License-Identifier: MIT
#include "book/consignment.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::consignment_test {
namespace {

constexpr const char* settings_text = R"(time_zone = "UTC"
[custody]
sender = ["Quarry", "Lane 1"]
laboratory = ["Laboratory A"]
[custody."TF*"]
laboratory = ["Laboratory B", "Road 2"]
reference = "order 7"
[custody.TF46B]
reference = "order 8"
)";

TEST(Consignment, IsWhatIsSaidOfTheBatchElseOfAll) {
  const Result<Settings> settings = parse_settings(settings_text, "book.toml");
  ASSERT_TRUE(settings);
  const Settings::Consignment of_others = consignment_of(*settings, "ST40C");
  EXPECT_EQ(of_others.sender, (std::vector<std::string>{"Quarry", "Lane 1"}));
  EXPECT_EQ(of_others.laboratory, std::vector<std::string>{"Laboratory A"});
  EXPECT_EQ(of_others.reference, "");
  EXPECT_EQ(consignment_of(*settings, "TF45A").reference, "order 7");
  const Settings::Consignment of_b = consignment_of(*settings, "TF46B");
  EXPECT_EQ(of_b.reference, "order 8") << "the later table is right";
  EXPECT_EQ(of_b.laboratory, (std::vector<std::string>{"Laboratory B", "Road 2"})) << "and leaves what it is silent of";
  EXPECT_EQ(of_b.sender, of_others.sender);
}

TEST(Consignment, OfABookThatSaysNothingIsEmpty) {
  const Settings::Consignment consignment = consignment_of(Settings(), "TF46B");
  EXPECT_TRUE(consignment.sender.empty() && consignment.laboratory.empty() && consignment.reference.empty());
}

TEST(Consignment, IsRemarkedOnWhereNoBatchIsOfTheName) {
  const Book book = WrittenBook()
                        .file("book.toml", settings_text)
                        .file("samples.csv",
                              "sample,batch,pump,started,stopped\n"
                              "S-1,TF45A,PUMP-1,2026-05-01T08:00,2026-05-01T16:00\n")
                        .read();
  const Diagnostics idle = idle_consignments(book);
  ASSERT_EQ(idle.size(), 1U);
  EXPECT_EQ(to_text(idle[0]),
            "book.toml:8:10: remark: no batch of the book is called 'TF46B'; write its name as samples.csv has it, * "
            "for any letters [settings/no-such-batch]");
}

}  // namespace
}  // namespace driftwarden::consignment_test
