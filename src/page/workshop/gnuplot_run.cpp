// SPDX-License-Identifier: MIT
#include "workshop/gnuplot_run.hpp"

#include "outside/whole_file.hpp"

namespace driftwarden {

// What was to be given to gnuplot is the pictures themselves (page/plot/picture_script), one after the other.
Diagnostics draw_pictures(const std::string& script, const std::vector<std::string>& pictures,
                          const std::filesystem::path& folder, const std::string&) {
  const std::string_view last = "</svg>\n";
  std::size_t at = 0;
  for (const std::string& picture : pictures) {
    if (!picture.ends_with(".svg"))
      return {error("plot/failed", {picture, 0, 0}, "the page draws pictures as SVG alone",
                    "ask for that, or for others of the program where it is installed")};
    const std::size_t begin = at + picture.size() + 1;  // below the line with its name
    at = script.find(last, begin) + last.size();
    Diagnostics unwritten = write_whole(folder / picture, script.substr(begin, at - begin));
    if (!unwritten.empty()) return unwritten;
  }
  return {};
}

}  // namespace driftwarden
