// SPDX-License-Identifier: MIT
#include "evidence/json_members.hpp"

#include <nlohmann/json.hpp>
#include <vector>

namespace driftwarden {
namespace {

using Json = nlohmann::json;

constexpr std::size_t deepest = 100;

// Takes the pieces of a document as the parser meets them.
class Collector : public Json::json_sax_t {
 public:
  bool null() override { return add("null", false); }
  bool boolean(bool value) override { return add(value ? "true" : "false", false); }
  bool number_integer(number_integer_t value) override { return add(std::to_string(value), false); }
  bool number_unsigned(number_unsigned_t value) override { return add(std::to_string(value), false); }
  bool number_float(number_float_t, const string_t& text) override { return add(text, false); }
  bool string(string_t& text) override { return add(text, true); }
  bool binary(binary_t&) override { return false; }
  bool key(string_t& name) override {
    places_.back().name = name;
    return true;
  }
  bool start_object(std::size_t) override { return go_in({false, "", 0}); }
  bool end_object() override { return come_out(); }
  bool start_array(std::size_t) override { return go_in({true, "", 0}); }
  bool end_array() override { return come_out(); }
  bool parse_error(std::size_t, const std::string&, const Json::exception&) override { return false; }

  JsonMembers members;

 private:
  struct PlaceInside {
    bool is_array;
    std::string name;
    std::size_t number;
  };

  std::string path() const {
    std::string text;
    for (const PlaceInside& place : places_) {
      if (place.is_array) {
        text += "[" + std::to_string(place.number) + "]";
      } else {
        text += (text.empty() ? "" : ".") + place.name;
      }
    }
    return text;
  }
  void step() {
    if (!places_.empty()) ++places_.back().number;
  }
  bool add(std::string text, bool is_text) {
    const bool is_there_once = members.emplace(path(), JsonMember{std::move(text), is_text}).second;
    step();
    return is_there_once;
  }
  bool go_in(PlaceInside place) {
    places_.push_back(std::move(place));
    return places_.size() < deepest;
  }
  bool come_out() {
    places_.pop_back();
    step();
    return true;
  }

  std::vector<PlaceInside> places_;
};

}  // namespace

std::optional<JsonMembers> json_members(std::string_view text) {
  Collector collector;
  if (!Json::sax_parse(text, &collector)) return std::nullopt;
  return std::move(collector.members);
}

}  // namespace driftwarden
