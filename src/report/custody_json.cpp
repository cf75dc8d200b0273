// SPDX-License-Identifier: MIT
#include "report/custody_json.hpp"

#include "report/json_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

class CustodyWriter {
 public:
  std::string all(const CustodySheet& sheet) {
    json_.begin_object().key("tool").begin_object().member("name", "driftwarden").member("version", sheet.version);
    json_.end_object().key("book").begin_object().member("title", sheet.title).end_object();
    json_.member("batch", sheet.batch).member("as_of", sheet.as_of).member("time_zone", sheet.zone);
    json_.member("reference_conditions", sheet.reference);
    json_.texts("sender", sheet.consignment.sender);
    json_.texts("laboratory", sheet.consignment.laboratory);
    json_.text_or_null("laboratory_reference", sheet.consignment.reference);
    lines("samples", sheet.lines);
    lines("void", sheet.voids);
    json_.member("cautions", cautions).end_object();
    return out_ + '\n';
  }

 private:
  void lines(std::string_view name, const std::vector<CustodyLine>& all) {
    json_.key(name).begin_array();
    for (const CustodyLine& of : all) {
      out_ += '\n';
      line(of);
    }
    json_.end_array();
  }

  void line(const CustodyLine& of) {
    json_.begin_object().member("sample", of.sample).member("kind", of.is_blank ? "blank" : "sample");
    json_.member("verdict", to_text(of.verdict)).member("standing", to_text(of.standing));
    json_.text_or_null("started", of.started);
    json_.text_or_null("stopped", of.stopped);
    json_.member("minutes", of.minutes_min).member("flow_l_min", of.flow_l_min).member("volume_l", of.volume_l);
    json_.member("volume_reference_l", of.volume_reference_l);
    json_.text_or_null("volume_is", of.volume_is);
    json_.member("measured_volume_l", of.measured_volume_l);
    json_.member("measured_volume_expanded_uncertainty_l", of.measured_expanded_l);
    json_.text_or_null("method", of.method);
    json_.text_or_null("analysis", of.analysis);
    json_.texts("remarks", of.remarks);
    json_.texts("void_because", of.reasons);
    json_.text_or_null("pump", of.pump);
    json_.text_or_null("sampler", of.sampler);
    json_.text_or_null("medium", of.medium);
    json_.text_or_null("taken_by", of.taken_by);
    json_.end_object();
  }

  std::string out_;
  JsonText json_{out_};
};

}  // namespace

std::string custody_json(const CustodySheet& sheet) { return CustodyWriter().all(sheet); }

}  // namespace driftwarden
