// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// Why no file of a bag may have this name, as words that follow it; "" where one may. A name is a path from the bag's
// folder, with '/'. It stays inside, means the same on every system, and needs no escaping in a manifest: RFC 8493
// would write '%' and line ends as %25, %0A and %0D, and sha512sum would escape '\'.
std::string fault_of_bag_name(std::string_view name);

}  // namespace driftwarden
