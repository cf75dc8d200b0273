// SPDX-License-Identifier: MIT
#include "command/command_tree.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace driftwarden::command_tree_test {
namespace {

struct Tree {
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, "", ""};
  CommandOptions options;
  Run run;
  CLI::App app{"", "driftwarden"};
  Tree() { add_commands(app, options, surroundings, run); }
};

TEST(CommandTree, ShowsNothingThatIsNotForPeople) {
  Tree tree;
  for (const CLI::App* command : shown_commands(tree.app)) {
    EXPECT_NE(command->get_name(), "complete");
    EXPECT_NE(command->get_name(), "manual");
    EXPECT_FALSE(command->get_description().empty());
  }
  EXPECT_EQ(shown_commands(tree.app).front()->get_name(), "new");
}

TEST(CommandTree, GoesAsFarAsTheWordsAreCommands) {
  Tree tree;
  std::size_t used = 0;
  EXPECT_EQ(deepest_command(tree.app, {"rules", "show", "drift"}, used)->get_name(), "show");
  EXPECT_EQ(used, 2U);
  EXPECT_EQ(deepest_command(tree.app, {"nothing"}, used), &tree.app);
  EXPECT_EQ(used, 0U);
}

}  // namespace
}  // namespace driftwarden::command_tree_test
