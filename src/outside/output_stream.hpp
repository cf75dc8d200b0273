// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <memory>
#include <ostream>
#include <streambuf>
#include <string_view>
#include <vector>

namespace driftwarden {

// Bytes on their way to an open descriptor. The first reason for which one could not be written is kept, so that what
// is told is what happened and not what some later call left in errno.
class DescriptorBuffer : public std::streambuf {
 public:
  explicit DescriptorBuffer(int descriptor);  // -1: what errno says is why there is none
  DescriptorBuffer(const DescriptorBuffer&) = delete;
  DescriptorBuffer& operator=(const DescriptorBuffer&) = delete;
  ~DescriptorBuffer() override;

  int descriptor() const { return descriptor_; }
  int reason() const { return reason_; }
  // Everything written, on the disk if that is asked for, and the descriptor closed: some file systems tell only then
  // that there is no room. The reason for which not, or 0.
  int finish(bool to_the_disk);

 protected:
  int_type overflow(int_type character) override;
  std::streamsize xsputn(const char* text, std::streamsize count) override;
  int sync() override;

 private:
  bool put(const char* bytes, std::size_t count);
  bool put_what_waits();

  int descriptor_;
  int reason_ = 0;
  std::vector<char> waiting_;
};

// A stream into such a buffer.
class OutputStream : public std::ostream {
 public:
  explicit OutputStream(int descriptor);
  // A file that is not there yet, and the folders above it.
  explicit OutputStream(const std::filesystem::path& new_file);

  int descriptor() const { return buffer_.descriptor(); }
  int reason() const { return buffer_.reason(); }
  int finish(bool to_the_disk) { return buffer_.finish(to_the_disk); }

 private:
  DescriptorBuffer buffer_;
};

// Writes a file that is not there yet, and the folders above it. The reason for which not, or 0.
int write_new(const std::filesystem::path& file, std::string_view text);

// Ends what a command wrote: an OutputStream as above, any other stream as far as it can tell. The reason for which
// something was not written, 0 where everything was; -1: something was not, and nobody knows why.
int end_of_output(std::ostream& out);

}  // namespace driftwarden
