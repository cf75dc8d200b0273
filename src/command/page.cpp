// SPDX-License-Identifier: MIT
#include <optional>
#include <ostream>
#include <system_error>

#include "command/opened_book.hpp"
#include "command/options.hpp"
#include "command/output_file.hpp"
#include "outside/whole_file.hpp"
#include "system/digest.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr const char* page_name = "driftwarden.html";

// Where the page lies: beside the packs, or, in the folder of the sources, where the preset `page` builds it.
std::vector<fs::path> places_of_the_page(const fs::path& share) {
  return {share / page_name, share / "build" / "page" / page_name};
}

std::optional<fs::path> page_file(const fs::path& share) {
  for (const fs::path& place : places_of_the_page(share)) {
    std::error_code ignored;
    if (fs::is_regular_file(place, ignored)) return place;
  }
  return std::nullopt;
}

Diagnostic no_page(const fs::path& share) {
  return error("page/not-there", {(share / page_name).string(), 0, 0},
               "this program was installed without its page, which is built apart",
               "take driftwarden.html from a release; or in the folder of the sources install the package emscripten, "
               "run cmake --preset page && cmake --build --preset page, and call the program from there");
}

}  // namespace

int run_page(const PageOptions& options, Surroundings& surroundings) {
  const std::optional<fs::path> place = page_file(surroundings.share);
  if (!place) return refuse({no_page(surroundings.share)}, surroundings);
  if (is_among({*place}, options.out)) return refuse({over_an_input(options.out)}, surroundings);
  const Result<HeldFile> page = HeldFile::open(*place, place->string());
  if (!page) return refuse(page.faults(), surroundings);
  const Diagnostics unwritten = write_whole(options.out, page->bytes());
  if (!unwritten.empty()) return refuse(unwritten, surroundings);
  surroundings.out << options.out << "\nSHA-256 " << sha256_of(page->bytes()) << '\n';
  return all_is_well;
}

}  // namespace driftwarden
