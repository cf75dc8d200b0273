// SPDX-License-Identifier: MIT
#include "system/pages.hpp"

#include <sys/mman.h>

#include <cstdint>
#include <new>

namespace driftwarden {

Pages::Pages(std::size_t bytes) : mapped_bytes_(bytes + huge_page) {
  if (mapped_bytes_ < bytes) throw std::bad_alloc();
  mapped_ = ::mmap(nullptr, mapped_bytes_, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
  if (mapped_ == MAP_FAILED) throw std::bad_alloc();
  const auto address = reinterpret_cast<std::uintptr_t>(mapped_);
  // NOLINTNEXTLINE(performance-no-int-to-ptr): once for each column
  begin_ = reinterpret_cast<void*>((address + huge_page - 1) / huge_page * huge_page);
#ifdef MADV_HUGEPAGE
  ::madvise(begin_, bytes, MADV_HUGEPAGE);
#endif
}

Pages::~Pages() {
  if (mapped_ != nullptr) ::munmap(mapped_, mapped_bytes_);
}

}  // namespace driftwarden
