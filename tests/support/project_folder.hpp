// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// The top of the checkout that the tests were built from.
const char* project_folder();

}  // namespace driftwarden
