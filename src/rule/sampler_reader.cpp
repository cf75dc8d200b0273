// SPDX-License-Identifier: MIT
#include "rule/sampler_reader.hpp"

#include <cmath>
#include <map>

#include "rule/stated_amount.hpp"

namespace driftwarden {

namespace {

// What an amount of a sampler is, how it is written, and what is the matter with one that isn't above 0.
struct Wanted {
  Dimension dimension;
  std::string_view words;  // "a flow, as in …"
  std::string_view fault;
  std::string_view is_none;  // what it is not
  std::string_view hint;
};
constexpr Wanted wanted_flow{Dimension::flow, R"(write a flow, as in "2.0 L/min")", "sampler/no-flow",
                             "is no flow to sample with", "write a flow above 0"};
constexpr Wanted wanted_diameter{Dimension::diameter, R"(write a diameter, as in "4.0 µm")", "sampler/no-cut",
                                 "is no diameter of a cut", "write the aerodynamic diameter at 50 %, above 0"};

std::optional<double> amount_at(const toml::node& node, std::string_view key, const Wanted& wanted, TableReader& reader,
                                TomlFile& file) {
  const auto text = plain_text_of(node);
  if (!text) {
    reader.fault("toml/wrong-type", file.place_of(node),
                 in_quotes(key) + " of " + reader.what() + " is " + std::string(type_of(node)),
                 std::string(wanted.words));
    return std::nullopt;
  }
  const auto stated = stated_amount(*text, {key, wanted.dimension, {}}, file.place_of(node));
  file.faults.insert(file.faults.end(), stated.faults().begin(), stated.faults().end());
  if (!stated) return std::nullopt;
  if (stated->amount.value > 0) return stated->amount.value;
  reader.fault(std::string(wanted.fault), file.place_of(node), in_quotes(*text) + " " + std::string(wanted.is_none),
               std::string(wanted.hint));
  return std::nullopt;
}

std::optional<double> amount_of_key(std::string_view key, const Wanted& wanted, TableReader& reader, TomlFile& file) {
  const toml::node* node = reader.find(key);
  return node == nullptr ? std::nullopt : amount_at(*node, key, wanted, reader, file);
}

std::optional<double> spread_of_cut(TableReader& reader) {
  const std::optional<double> said = reader.number("cut_spread");
  if (!said || *said > 1) return said;
  reader.fault("sampler/no-spread", reader.place_of_key("cut_spread"),
               "'cut_spread' of " + reader.what() + " is not above 1",
               "write the geometric standard deviation of the curve, the root of d16 / d84, as 1.25");
  return std::nullopt;
}

Bounds flows_of_cut(TableReader& reader, TomlFile& file) {
  const toml::node* node = reader.find("cut_flows");
  if (node == nullptr) return {};
  const toml::array* ends = node->as_array();
  if (ends == nullptr || ends->size() != 2) {
    reader.fault("toml/wrong-type", file.place_of(*node), "'cut_flows' of " + reader.what() + " is not two flows",
                 R"(write the least and the greatest flow of its calibration, as ["1.5 L/min", "2.5 L/min"])");
    return {};
  }
  const auto lower = amount_at(*ends->get(0), "cut_flows", wanted_flow, reader, file);
  const auto upper = amount_at(*ends->get(1), "cut_flows", wanted_flow, reader, file);
  return lower && upper ? Bounds{*lower, *upper} : Bounds{};
}

void read_cut(TableReader& reader, TomlFile& file, Sampler& sampler) {
  sampler.cut_um = amount_of_key("cut", wanted_diameter, reader, file);
  sampler.cut_spread = spread_of_cut(reader);
  sampler.cut_kind = reader.word<CutKind>("cut_law");
  sampler.cut_exponent = reader.number("cut_exponent");
  sampler.cut_flows_l_min = flows_of_cut(reader, file);
  sampler.cut_source = reader.text("cut_source");
}

// A curve is stated as a whole: no mass follows from a cut without its spread, or without how it goes with the flow.
class CutCheck {
 public:
  CutCheck(TableReader& reader, const Sampler& sampler) : reader_(reader), sampler_(sampler) {}

  void run() {
    if (is_of_theory(sampler_.cut_kind) && has("cut_exponent")) two_laws();
    for (const std::string_view key : {"cut", "cut_exponent", "cut_law"}) {
      if (has(key) && !has("cut_source")) return no_source(key);
    }
    if (!has("cut") && !has("cut_spread") && !has("cut_flows") && !is_of_theory(sampler_.cut_kind)) return;
    for (const std::string_view key : {"nominal", "cut", "cut_spread", "cut_flows"}) {
      if (!has(key)) incomplete(key);
    }
    if (!has("cut_law") && !has("cut_exponent")) incomplete("cut_law");
    check_flows();
  }

 private:
  bool has(std::string_view key) const { return reader_.find(key) != nullptr; }

  void no_source(std::string_view key) {
    reader_.fault("sampler/no-cut-source", reader_.place_of_key(key),
                  in_quotes(key) + " of " + reader_.what() + " has no 'cut_source'",
                  key == "cut_exponent" ? "name where the exponent was published, or leave it out"
                                        : "name where the cut was published or measured, or leave it out");
  }

  void two_laws() {
    reader_.fault("sampler/two-laws", reader_.place_of_key("cut_exponent"),
                  "'cut_exponent' of " + reader_.what() + " stands beside the law of an " +
                      std::string(word_of(*sampler_.cut_kind)) + ", which has its own",
                  "leave one of the two out: an exponent of its own calibration needs no cut_law");
  }

  void incomplete(std::string_view lacking) {
    static const std::map<std::string_view, std::string> hints{
        {"nominal", R"(write the flow at which the cut was found, as nominal = "2.0 L/min")"},
        {"cut", R"(write the aerodynamic diameter at 50 % and the nominal flow, as cut = "4.0 µm")"},
        {"cut_spread", "write the geometric standard deviation of the curve, as cut_spread = 1.25"},
        {"cut_flows", R"(write over which flows its law was found, as cut_flows = ["1.5 L/min", "2.5 L/min"])"},
        {"cut_law", R"(write cut_law = "impactor", "elutriator" or "cyclone", or a cut_exponent of its own)"}};
    reader_.fault("sampler/incomplete-cut", reader_.place(),
                  "the cut of " + reader_.what() + " lacks " + in_quotes(lacking), hints.at(lacking));
  }

  void check_flows() {
    const Bounds& flows = sampler_.cut_flows_l_min;
    const double nominal = sampler_.nominal_l_min.value_or(no_figure);
    if (std::isnan(flows.lower) || std::isnan(nominal)) return;
    if (flows.lower < flows.upper && flows.lower <= nominal && nominal <= flows.upper) return;
    reader_.fault("sampler/no-range", reader_.place_of_key("cut_flows"),
                  "'cut_flows' of " + reader_.what() + " do not hold its nominal flow between them",
                  "write the least flow first, and a range that the nominal flow lies in");
  }

  TableReader& reader_;
  const Sampler& sampler_;
};

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
  sampler.nominal_l_min = amount_of_key("nominal", wanted_flow, reader, file);
  sampler.fraction = reader.text("fraction");
  read_cut(reader, file, sampler);
  CutCheck(reader, sampler).run();
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
