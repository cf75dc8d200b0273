// SPDX-License-Identifier: MIT
#include "driftwarden/correction/reference_conditions.hpp"

namespace driftwarden {

namespace {

// Volume that an amount of gas takes at `to`, over the volume it takes at `from`.
double expansion(Conditions from, Conditions to) {
  return (from.pressure / to.pressure) * (to.temperature / from.temperature);
}

}  // namespace

ReferenceFlow flow_at_reference(ActualFlow actual, Conditions at, Conditions reference) {
  return ReferenceFlow(actual.value * expansion(at, reference));
}

ActualFlow flow_at_conditions(ReferenceFlow flow, Conditions reference, Conditions at) {
  return ActualFlow(flow.value * expansion(reference, at));
}

ReferenceVolume volume_at_reference(ActualVolume actual, Conditions at, Conditions reference) {
  return ReferenceVolume(actual.value * expansion(at, reference));
}

}  // namespace driftwarden
