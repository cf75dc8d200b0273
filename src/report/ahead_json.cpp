// SPDX-License-Identifier: MIT
#include "report/ahead_json.hpp"

#include "book/stamp_text.hpp"
#include "report/json_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view words_of_ends[] = {"mass", "volume rule", "reference rule", "time rule"};

class OutlookWriter {
 public:
  OutlookWriter(const Book& book, const Outlook& outlook) : book_(book), outlook_(outlook) {}

  std::string text(Day as_of, std::string_view version) {
    json_.begin_object().key("tool").begin_object().member("name", "driftwarden").member("version", version);
    json_.end_object().key("book").begin_object().member("title", book_.settings.title).end_object();
    json_.member("as_of", date_text(as_of)).text_or_null("batch", outlook_.batch);
    json_.key("samples").begin_array();
    for (const SampleOutlook& sample : outlook_.samples) {
      out_ += '\n';
      add(sample);
    }
    json_.end_array();
    add_blanks();
    json_.member("cautions", cautions).end_object();
    return std::move(out_) + '\n';
  }

 private:
  void instrument(std::string_view name, Row row) {
    json_.text_or_null(name, row == no_row ? "" : book_.instruments[row].name);
  }

  void add(const SampleOutlook& outlook) {
    const SampleAhead& sample = outlook.asked.sample;
    json_.begin_object().text_or_null("sample", sample.name).text_or_null("method", sample.method);
    json_.text_or_null("analysis", sample.analysis).text_or_null("sampler", sample.sampler);
    instrument("pump", sample.pump);
    instrument("calibrator", sample.calibrator);
    json_.member("flow_l_min", outlook.volume.flow_l_min).member("target_mg_m3", outlook.asked.target_mg_m3);
    json_.member("expected_mg_m3", outlook.asked.expected_mg_m3);
    json_.member("minutes", outlook.minutes).member("minutes_were_said", outlook.minutes_were_said);
    json_.member("is_possible", !outlook.volume.is_impossible()).member("is_outside", outlook.is_outside());
    add_end("least", outlook.volume, outlook.volume.least_end());
    add_end("most", outlook.volume, outlook.volume.most_end());
    json_.key("ends").begin_array();
    for (const VolumeEnd& end : outlook.volume.ends) put(outlook.volume, end);
    json_.end_array();
    std::vector<std::string> not_looked_at;
    for (const Rule* rule : outlook.volume.not_looked_at) not_looked_at.push_back(rule->full_name());
    json_.texts("not_looked_at", not_looked_at);
    add_facts(outlook.volume.facts);
    add_help(outlook.help);
    add_drift(outlook.drift);
    add_rehearsed(outlook);
    json_.texts("against", outlook.against).end_object();
  }

  void add_end(std::string_view name, const VolumeAhead& volume, const VolumeEnd* end) {
    json_.key(name);
    end == nullptr ? static_cast<void>(json_.null()) : put(volume, *end);
  }

  void put(const VolumeAhead& volume, const VolumeEnd& end) {
    const bool is_mass = end.from == VolumeEnd::From::mass;
    json_.begin_object().member("end", end.is_least ? "least" : "most");
    json_.member("from", words_of_ends[static_cast<std::size_t>(end.from)]).member("binds", end.binds);
    json_.member("includes_it", end.includes_it).member("volume_l", end.volume_l);
    json_.member("reference_l", end.reference_l).member("minutes", end.minutes);
    json_.member("mass_mg", is_mass ? volume.fact_of(end)->value : missing);
    json_.member("concentration_mg_m3", end.concentration_mg_m3);
    json_.text_or_null("rule", is_mass ? "" : end.rule->full_name());
    json_.text_or_null("limit", is_mass ? "" : end.rule->limit.text);
    json_.text_or_null("otherwise", is_mass ? "" : to_text(end.rule->otherwise));
    json_.text_or_null("source", is_mass ? volume.fact_of(end)->source : end.rule->source);
    json_.text_or_null("at", to_text(is_mass ? volume.fact_of(end)->place : end.rule->place)).end_object();
  }

  void add_facts(const MassFacts& facts) {
    json_.key("facts").begin_array();
    for (const MassFactKind kind : mass_fact_kinds) {
      const auto& fact = facts.of(kind);
      if (!fact) continue;
      json_.begin_object().member("fact", word_of(kind)).member("value", fact->value);
      json_.member("written", fact->written).member("source", fact->source);
      json_.member("standing", to_text(fact->standing)).member("at", to_text(fact->place)).end_object();
    }
    json_.end_array();
  }

  void add_help(const WindowHelp& help) {
    json_.key("would_help").begin_object().member("target_mg_m3", help.target_mg_m3.at);
    json_.member("quantification_mg", help.quantification_mg.at);
    json_.member("flow_from_l_min", help.flow_from_l_min.at).member("flow_to_l_min", help.flow_to_l_min.at);
    json_.member("expected_mg_m3", help.expected_mg_m3).end_object();
  }

  void add_drift(const DriftAhead& drift) {
    json_.key("drift").begin_object().member("earlier_uses", static_cast<std::size_t>(drift.earlier.uses));
    json_.member("s", drift.earlier.s).member("within", drift.within);
    json_.member("limit_low", drift.limit_low).member("limit_high", drift.limit_high);
    json_.member("probability_beyond", drift.beyond_limits);
    json_.text_or_null("rule", drift.rule == nullptr ? "" : drift.rule->full_name()).end_object();
  }

  void add_rehearsed(const SampleOutlook& outlook) {
    json_.key("rehearsed");
    if (outlook.rehearsed == nullptr) {
      json_.null().text_or_null("not_rehearsed", outlook.why_not);
      return;
    }
    const Budget& budget = outlook.rehearsed->budget;
    json_.begin_object().member("volume_l", outlook.rehearsed->figures->measured_volume_l);
    json_.member("volume_expanded_uncertainty_l", budget.about(BudgetFigure::volume).expanded);
    json_.member("flow_expanded_uncertainty_l_min", budget.about(BudgetFigure::flow).expanded);
    json_.member("drift_expanded_uncertainty", budget.about(BudgetFigure::drift).expanded);
    json_.member("spare_minutes", outlook.spare_minutes);
    json_.end_object().key("not_rehearsed").null();
  }

  void add_blanks() {
    const BlanksAhead& blanks = outlook_.blanks;
    json_.key("blanks").begin_object().member("samples", blanks.samples).member("least", blanks.least);
    json_.member("is_capped", blanks.is_capped).key("rules").begin_array();
    for (const BlanksByRule& by : blanks.rules) {
      json_.begin_object().member("rule", by.rule->full_name()).member("limit", by.rule->limit.text);
      json_.member("least", by.least)
          .member("source", by.rule->source)
          .member("at", to_text(by.rule->place))
          .end_object();
    }
    json_.end_array().end_object();
  }

  const Book& book_;
  const Outlook& outlook_;
  std::string out_;
  JsonText json_{out_};
};

}  // namespace

std::string ahead_json(const Book& book, const Outlook& outlook, Day as_of, std::string_view version) {
  return OutlookWriter(book, outlook).text(as_of, version);
}

}  // namespace driftwarden
