// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "book/book.hpp"

namespace driftwarden {

// Who sends a batch, and to whom: what book.toml says of it, else what it says of all. Where several patterns fit, the
// last that says something is right.
Settings::Consignment consignment_of(const Settings& settings, const std::string& batch);

// settings/no-such-batch: a remark on each [custody."…"] that no batch of the book is called by.
Diagnostics idle_consignments(const Book& book);

}  // namespace driftwarden
