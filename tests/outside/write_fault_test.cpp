// SPDX-License-Identifier: MIT
#include "outside/write_fault.hpp"

#include <gtest/gtest.h>

#include <cerrno>

namespace driftwarden::write_fault_test {
namespace {

TEST(WriteFault, CarriesTheReasonOfTheSystem) {
  EXPECT_EQ(to_text(unwritable("x", 0)),
            "x: error: the results could not be written; check the folder, its rights and the room on the disk "
            "[output/unwritable]");
  EXPECT_EQ(to_text(unwritable("x", EACCES)),
            "x: error: the results could not be written: Permission denied; check the folder, its rights and the room "
            "on the disk [output/unwritable]");
}

TEST(WriteFault, SaysThatSomethingIsThere) {
  EXPECT_EQ(to_text(already_there("x")),
            "x: error: there is something of this name already; a folder is never written over anything; name another "
            "[output/already-there]");
}

}  // namespace
}  // namespace driftwarden::write_fault_test
