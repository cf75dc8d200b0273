// SPDX-License-Identifier: MIT
// Linked with a test program by mutate.py: writes to the file named by MUTANTS_REACHED which faults each test comes by:
// "SUITE.NAME milliseconds number number=2 …", and under "*" those that were come by before the first test.
#include <gtest/gtest.h>

#include <cstdlib>
#include <cstring>
#include <fstream>
#include <string>

#include "switches.hpp"

namespace {

class Recorder : public testing::EmptyTestEventListener {
 public:
  explicit Recorder(const char* path) : file_(path) {}

  void OnTestProgramStart(const testing::UnitTest&) override { write("*", 0); }
  void OnTestEnd(const testing::TestInfo& test) override {
    write(std::string(test.test_suite_name()) + "." + test.name(), test.result()->elapsed_time());
  }

 private:
  void write(const std::string& name, long long milliseconds) {
    file_ << name << " " << milliseconds;
    for (int n = 0; n < static_cast<int>(sizeof mutation::reached); ++n) {
      if (mutation::reached[n] != 0) file_ << " " << n << (mutation::reached[n] == 2 ? "=2" : "");
    }
    file_ << "\n" << std::flush;
    std::memset(mutation::reached, 0, sizeof mutation::reached);
  }

  std::ofstream file_;
};

[[maybe_unused]] const bool is_recording = [] {
  const char* path = std::getenv("MUTANTS_REACHED");
  if (path != nullptr) testing::UnitTest::GetInstance()->listeners().Append(new Recorder(path));
  return path != nullptr;
}();

}  // namespace
