// SPDX-License-Identifier: MIT
#include "command/field_commands.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace driftwarden::field_commands_test {
namespace {

struct Tree {
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, "", ""};
  CommandOptions options;
  Run run;
  CLI::App app{"", "driftwarden"};
  Tree() { add_field_commands(app, options, surroundings, run); }
};

TEST(FieldCommands, AreThoseOfWhatGoesOutAndComesBack) {
  Tree tree;
  std::string names;
  for (const CLI::App* command : tree.app.get_subcommands({})) names += command->get_name() + " ";
  EXPECT_EQ(names, "ahead sheet labels form receive kit ");
}

TEST(FieldCommands, TakeTheirOptions) {
  Tree tree;
  tree.app.parse("labels book --batch B --size 70x37 --skip 3 --out l.html", false);
  EXPECT_EQ(tree.options.labels.batch, "B");
  EXPECT_EQ(tree.options.labels.size, "70x37");
  EXPECT_EQ(tree.options.labels.skip, 3U);
  EXPECT_TRUE(tree.run);
  EXPECT_THROW(Tree().app.parse("labels book --batch B --size 1x1 --out l.html", false), CLI::ParseError);
  EXPECT_THROW(Tree().app.parse("sheet book --out s.html", false), CLI::ParseError);
}

}  // namespace
}  // namespace driftwarden::field_commands_test
