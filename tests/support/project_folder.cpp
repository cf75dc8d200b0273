// SPDX-License-Identifier: MIT
#include "support/project_folder.hpp"

namespace driftwarden {

const char* project_folder() { return PROJECT_FOLDER; }

}  // namespace driftwarden
