// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "rule/house_rules.hpp"
#include "rule/pack.hpp"

namespace driftwarden {

// A sound pack with one sound rule, line by line, to change one thing of. Invented figures.
class PackText {
 public:
  // In place of the line of a key, or as a new line of the rule.
  PackText& with(const std::string& key, const std::string& value) { return line(key, key + " = " + value); }
  PackText& without(const std::string& key) {
    std::erase_if(rule_, [&](const auto& entry) { return entry.first == key; });
    return *this;
  }
  // In place of the limit within = "5 %".
  PackText& limit(const std::string& written) { return line("within", written); }
  PackText& examples(const std::string& written) {
    examples_ = written;
    return *this;
  }
  PackText& heading(const std::string& written) {
    heading_ = written;
    return *this;
  }

  std::string text() const {
    std::string all = heading_ + "[[rule]]\n";
    for (const auto& [key, written] : rule_) all += written + '\n';
    return all + examples_;
  }
  Result<Pack> parse() const { return parse_pack(text(), "p.toml"); }
  // The one rule; an empty one, and so a failing test, where the pack isn't sound.
  Rule rule() const {
    const Result<Pack> pack = parse();
    return pack && !pack->rules.empty() ? pack->rules.front() : Rule{};
  }
  std::string faults() const;

 private:
  PackText& line(const std::string& key, const std::string& written) {
    for (auto& entry : rule_) {
      if (entry.first != key) continue;
      entry.second = written;
      return *this;
    }
    rule_.emplace_back(key, written);
    return *this;
  }

  std::string heading_ = "pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n";
  std::vector<std::pair<std::string, std::string>> rule_ = {
      {"id", "id = \"r\""},
      {"of", "of = \"sample\""},
      {"measure", "measure = \"drift\""},
      {"within", "within = \"5 %\""},
      {"otherwise", "otherwise = \"void\""},
      {"reason", "reason = \"R\""},
      {"source", "source = \"S\""},
      {"standing", "standing = \"house\""},
  };
  std::string examples_ =
      "[[rule.example]]\ngiven = { drift = \"5 %\" }\ngives = \"valid\"\n"
      "[[rule.example]]\ngiven = { drift = \"-5.1 %\" }\ngives = \"void\"\n";
};

// One line each; "" where nothing is wrong.
inline std::string lines_of(const Diagnostics& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += to_text(diagnostic) + '\n';
  return text;
}

inline std::string PackText::faults() const { return lines_of(parse().faults()); }

inline Pack pack_of(const std::string& text, const std::string& file = "p.toml") {
  const Result<Pack> pack = parse_pack(text, file);
  return pack ? *pack : Pack{};
}

}  // namespace driftwarden
