// SPDX-License-Identifier: MIT
#include "rule/rule_reader.hpp"

#include "diagnostic/suggestion.hpp"
#include "rule/condition_reader.hpp"
#include "rule/example_reader.hpp"
#include "rule/limit_reader.hpp"
#include "rule/sentence.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view sources_hint = "name the document, its edition and the clause";
constexpr std::string_view reasons_hint = "say what goes wrong where the limit is not kept";

// "did you mean …", also where the name is a measure of something else.
std::string measure_hint(Subject of, const std::string& name) {
  for (std::size_t i = 0; i < words<Subject>().size(); ++i) {
    const auto other = static_cast<Subject>(i);
    if (measure_named(other, name)) return "it is a measure of a " + std::string(to_text(other));
  }
  std::vector<std::string_view> names;
  for (const Measure& measure : measures(of)) names.push_back(measure.name);
  const std::string hint = did_you_mean(name, names);
  return hint.empty() ? "'driftwarden rules measures' lists them" : hint;
}

// A flow's deviation from itself is always 0.
bool is_base_of_itself(const Measure& measure, Base base) {
  return (measure.name == "pre.deviation" && base == Base::pre) ||
         (measure.name == "post.deviation" && base == Base::post);
}

class RuleReader {
 public:
  RuleReader(const toml::table& table, TomlFile& file) : reader_(table, file, "a rule"), file_(file) {}

  Rule read(const Pack& pack) {
    rule_.pack = pack.name;
    rule_.edition = pack.edition;
    rule_.place = reader_.place();
    read_id();
    read_subject();
    read_base();
    read_rule_limit();
    read_consequences();
    read_grounds();
    read_sentence();
    read_enabled();
    read_examples(reader_, file_, rule_, measure_ != nullptr);
    reader_.refuse_other_keys();
    return rule_;
  }

 private:
  void read_id() {
    rule_.id = reader_.required_text("id");
    if (rule_.id.empty()) return;
    check_name(rule_.id, place_of_value("id"), file_);
    reader_.call("rule " + in_quotes(rule_.id));
  }

  void read_subject() {
    const auto of = reader_.required_word<Subject>("of");
    const toml::table* where = reader_.table("where");
    const std::string name = reader_.required_text("measure");
    if (!of) return;
    rule_.of = *of;
    if (where != nullptr) rule_.where = read_where(*where, *of, file_);
    if (!name.empty()) find_measure(name);
  }

  void find_measure(const std::string& name) {
    const auto index = measure_named(rule_.of, name);
    if (!index) {
      reader_.fault("rule/unknown-measure", place_of_value("measure"),
                    in_quotes(name) + " is no measure of a " + std::string(to_text(rule_.of)),
                    measure_hint(rule_.of, name));
      return;
    }
    rule_.measure = *index;
    measure_ = &measures(rule_.of)[*index];
  }

  void read_base() {
    const auto base = reader_.word<Base>("base");
    if (!base || measure_ == nullptr) return;
    rule_.base = *base;
    const std::string name = in_quotes(measure_->name);
    if (!measure_->has_base) {
      reader_.fault("rule/base", place_of_value("base"), name + " has no base to choose");
    } else if (is_base_of_itself(*measure_, *base)) {
      reader_.fault("rule/base", place_of_value("base"),
                    name + " relative to " + in_quotes(to_text(*base)) + " is always 0");
    }
  }

  void read_rule_limit() {
    FoundLimit found = read_limit(reader_, file_);
    if (!found.has_limit) {
      reader_.fault("rule/no-limit", reader_.place(), reader_.what() + " has no limit",
                    did_you_mean("", words<Limit::Form>()));
    }
    if (!found.limit || measure_ == nullptr) return;
    const Result<Limit> limit = limit_of(*found.limit, *measure_);
    if (limit) rule_.limit = *limit;
    file_.faults.insert(file_.faults.end(), limit.faults().begin(), limit.faults().end());
  }

  void read_consequences() {
    rule_.otherwise = reader_.required_word<Otherwise>("otherwise").value_or(Otherwise::void_);
    rule_.absent = reader_.word<Absent>("absent").value_or(Absent::undecided);
  }

  void read_grounds() {
    rule_.reason = reader_.required_text("reason", std::string(reasons_hint));
    rule_.source = reader_.required_text("source", std::string(sources_hint));
    rule_.note = reader_.text("note");
    rule_.standing = reader_.required_word<Standing>("standing").value_or(Standing::read);
    rule_.after = reader_.text("after");
    if (rule_.after.empty() || rule_.standing == Standing::house) return;
    reader_.fault("rule/after", place_of_value("after"),
                  reader_.what() + " is after a clause and stands as " + in_quotes(to_text(rule_.standing)),
                  "where the step from the clause to the rule is your own, write standing = \"house\"");
  }

  void read_sentence() {
    rule_.sentence = reader_.text("sentence");
    if (const auto fault = fault_of_sentence(rule_.sentence, rule_.of))
      reader_.fault("rule/sentence", place_of_value("sentence"), fault->message, fault->hint);
  }

  void read_enabled() {
    rule_.enabled = reader_.yes_no("enabled").value_or(true);
    if (rule_.standing != Standing::memory || !rule_.enabled) return;
    reader_.fault("rule/memory-enabled", place_of_value("standing"), reader_.what() + " is from memory and enabled",
                  "add enabled = false, or a source that was read");
  }

  Place place_of_value(std::string_view key) { return file_.place_of(*reader_.find(key)); }

  TableReader reader_;
  TomlFile& file_;
  Rule rule_;
  const Measure* measure_ = nullptr;
};

}  // namespace

Rule read_rule(const toml::table& table, TomlFile& file, const Pack& pack) {
  return RuleReader(table, file).read(pack);
}

}  // namespace driftwarden
