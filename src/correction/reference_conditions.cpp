// SPDX-License-Identifier: MIT
#include "correction/reference_conditions.hpp"

namespace driftwarden {

ReferenceFlow flow_at_reference(ActualFlow actual, Conditions at, Conditions reference) {
  return ReferenceFlow(at_reference(actual.value, in_numbers(at), in_numbers(reference)));
}

ActualFlow flow_at_conditions(ReferenceFlow flow, Conditions reference, Conditions at) {
  return ActualFlow(at_reference(flow.value, in_numbers(reference), in_numbers(at)));
}

ReferenceVolume volume_at_reference(ActualVolume actual, Conditions at, Conditions reference) {
  return ReferenceVolume(at_reference(actual.value, in_numbers(at), in_numbers(reference)));
}

}  // namespace driftwarden
