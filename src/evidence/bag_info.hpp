// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "record/moment.hpp"

namespace driftwarden {

// The octets and files of a bag's payload: its Payload-Oxum.
struct PayloadSize {
  std::uintmax_t bytes = 0;
  std::size_t files = 0;
  friend bool operator==(const PayloadSize&, const PayloadSize&) = default;
};
std::string to_text(const PayloadSize& size);

struct BagInfo {
  std::string version;
  std::string title;  // of the book
  Day as_of = no_day;
};

// The text of bag-info.txt. The day of bagging is the day that stands for today.
std::string bag_info_text(const BagInfo& info, const PayloadSize& payload);

// What bag-info.txt says under a label, or "".
std::string_view bag_info_value(std::string_view text, std::string_view label);

}  // namespace driftwarden
