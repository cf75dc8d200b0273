// SPDX-License-Identifier: MIT
#include "outside/output_stream.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <cerrno>
#include <fstream>
#include <sstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::output_stream_test {
namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(OutputStream, WritesLittleAndMuch) {
  const ScratchFolder folder;
  std::string expected;
  OutputStream out(folder.path() / "a" / "b");
  for (int i = 0; i < 50; ++i) {
    const std::string piece(static_cast<std::size_t>(i * i * 80), static_cast<char>('a' + i % 26));
    out << piece << i;
    expected += piece + std::to_string(i);
  }
  EXPECT_EQ(out.finish(true), 0);
  EXPECT_EQ(text_of(folder.path() / "a" / "b"), expected);
}

TEST(OutputStream, NeverWritesOverAFile) {
  const ScratchFolder folder;
  EXPECT_EQ(write_new(folder.path() / "a", "first"), 0);
  EXPECT_EQ(write_new(folder.path() / "a", "second"), EEXIST);
  EXPECT_EQ(text_of(folder.path() / "a"), "first");
}

TEST(OutputStream, KeepsTheFirstReason) {
  OutputStream out(::open("/dev/full", O_WRONLY));
  out << std::string(1'000'000, 'x');
  EXPECT_FALSE(out);
  errno = EPERM;  // what happens later is another matter
  out << "more" << std::flush;
  EXPECT_EQ(out.finish(true), ENOSPC);
  EXPECT_EQ(out.finish(true), ENOSPC);
}

TEST(OutputStream, TellsOfWhatWaitedUntilTheEnd) {
  OutputStream out(::open("/dev/full", O_WRONLY));
  out << "a little";
  EXPECT_TRUE(out);
  EXPECT_EQ(out.finish(false), ENOSPC);
}

TEST(OutputStream, SaysWhyItCouldNotBeOpened) {
  OutputStream out(::open("/nowhere/file", O_WRONLY));
  EXPECT_FALSE(out);
  EXPECT_EQ(out.finish(false), ENOENT);
}

TEST(OutputStream, OfAClosedDescriptorIsToldWhenItIsWrittenTo) {
  OutputStream out(987);
  out << "text";
  EXPECT_EQ(end_of_output(out), EBADF);
}

TEST(OutputStream, EndsAnyOtherStreamAsFarAsThatCanTell) {
  std::ostringstream sound;
  std::ofstream full("/dev/full");
  full << "text";
  EXPECT_EQ(end_of_output(sound), 0);
  EXPECT_EQ(end_of_output(full), -1);
}

}  // namespace
}  // namespace driftwarden::output_stream_test
