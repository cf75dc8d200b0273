// SPDX-License-Identifier: MIT
#include "evidence/package_note.hpp"

#include <algorithm>
#include <iterator>
#include <nlohmann/json.hpp>

#include "evidence/bag_layout.hpp"
#include "evidence/version.hpp"

namespace driftwarden {
namespace {

using nlohmann::ordered_json;

constexpr int package_format = 1;

Diagnostic unusable(const std::string& why) {
  return error("evidence/package", {std::string(package_note_file), 0, 0}, why,
               "it says what the package was made by and of; without it nothing can be judged anew");
}

}  // namespace

std::string_view to_text(ChartsOf charts_of) { return charts_of_words[static_cast<std::size_t>(charts_of)]; }

std::optional<ChartsOf> charts_of(std::string_view word) {
  const auto* const found = std::find(std::begin(charts_of_words), std::end(charts_of_words), word);
  if (found == std::end(charts_of_words)) return std::nullopt;
  return static_cast<ChartsOf>(found - std::begin(charts_of_words));
}

std::string package_note_text(const PackageNote& note) {
  ordered_json json;
  json["format"] = package_format;
  json["tool"] = {{"name", "driftwarden"}, {"version", note.version}};
  json["as_of"] = note.as_of;
  json["batches"] = note.batches;
  json["charts"] = note.has_charts;
  json["signed"] = note.is_signed;
  if (note.charts_of != ChartsOf::used) json["charts_of"] = to_text(note.charts_of);
  return json.dump(2, ' ', true, ordered_json::error_handler_t::replace) + "\n";
}

Result<PackageNote> parse_package_note(std::string_view text) {
  const ordered_json json = ordered_json::parse(text, nullptr, false);
  if (!json.is_object()) return unusable("the file is not the JSON it should be");
  try {
    if (json.at("format") != package_format)
      return unusable("the package is of a format that this version does not know");
    PackageNote note;
    json.at("tool").at("version").get_to(note.version);
    json.at("as_of").get_to(note.as_of);
    json.at("batches").get_to(note.batches);
    json.at("charts").get_to(note.has_charts);
    json.at("signed").get_to(note.is_signed);
    const std::string of = json.value("charts_of", "used");
    if (!charts_of(of)) return unusable("there are no charts of " + in_quotes(of));
    note.charts_of = *charts_of(of);
    if (!version_from(note.version)) return unusable("the version " + in_quotes(note.version) + " is no version");
    return note;
  } catch (const ordered_json::exception&) {
    return unusable("the file lacks something, or has it in another form");
  }
}

}  // namespace driftwarden
