// SPDX-License-Identifier: MIT
#include "rule/sampler_reader.hpp"

#include "rule/stated_amount.hpp"

namespace driftwarden {

namespace {

std::optional<double> nominal_flow(TableReader& reader, TomlFile& file) {
  const toml::node* node = reader.find("nominal");
  if (node == nullptr) return std::nullopt;
  const auto text = plain_text_of(*node);
  if (!text) {
    reader.fault("toml/wrong-type", file.place_of(*node),
                 "'nominal' of " + reader.what() + " is " + std::string(type_of(*node)),
                 R"(write a flow, as in "2.0 L/min")");
    return std::nullopt;
  }
  const auto stated = stated_amount(*text, {"nominal", Dimension::flow, {}}, file.place_of(*node));
  file.faults.insert(file.faults.end(), stated.faults().begin(), stated.faults().end());
  if (!stated) return std::nullopt;
  if (stated->amount.value > 0) return stated->amount.value;
  reader.fault("sampler/no-flow", file.place_of(*node), in_quotes(*text) + " is no flow to sample with",
               "write a flow above 0");
  return std::nullopt;
}

void read_cut(TableReader& reader, Sampler& sampler) {
  sampler.cut_exponent = reader.number("cut_exponent");
  sampler.cut_source = reader.text("cut_source");
  if (!sampler.cut_exponent || !sampler.cut_source.empty()) return;
  reader.fault("sampler/no-cut-source", reader.place_of_key("cut_exponent"),
               "'cut_exponent' of " + reader.what() + " has no 'cut_source'",
               "name where the exponent was published, or leave it out");
}

void read_standing(TableReader& reader, Sampler& sampler) {
  sampler.standing = reader.word<Standing>("standing");
  if (sampler.standing != Standing::memory || !sampler.nominal_l_min) return;
  reader.fault("sampler/flow-from-memory", reader.place_of_key("standing"),
               "the flow of " + reader.what() + " is from memory", "leave the flow out, or name where it was read");
}

Sampler read_sampler(const TomlEntry& entry, TomlFile& file, const std::string& pack) {
  Sampler sampler;
  sampler.name = entry.key->str();
  sampler.pack = pack;
  sampler.place = file.place_of(*entry.key);
  check_cell_text(sampler.name, sampler.place, file);
  TableReader reader(*entry.value->as_table(), file, "sampler " + in_quotes(sampler.name));
  sampler.title = reader.text("title");
  sampler.nominal_l_min = nominal_flow(reader, file);
  sampler.fraction = reader.text("fraction");
  read_cut(reader, sampler);
  sampler.source = reader.text("source");
  read_standing(reader, sampler);
  reader.refuse_other_keys();
  return sampler;
}

}  // namespace

std::vector<Sampler> read_samplers(TableReader& reader, TomlFile& file, const std::string& pack) {
  std::vector<Sampler> samplers;
  const toml::table* table = reader.table("sampler");
  if (table == nullptr) return samplers;
  for (const TomlEntry& entry : entries_of(*table)) {
    if (entry.value->is_table()) {
      samplers.push_back(read_sampler(entry, file, pack));
      continue;
    }
    reader.fault("toml/wrong-type", file.place_of(*entry.value),
                 "sampler " + in_quotes(entry.key->str()) + " is " + std::string(type_of(*entry.value)),
                 "write it as [sampler.NAME]");
  }
  return samplers;
}

}  // namespace driftwarden
