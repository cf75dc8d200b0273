// SPDX-License-Identifier: MIT
#include "rule/english.hpp"

namespace driftwarden {
namespace {

constexpr MeasureTexts row(auto number, std::string_view says, std::string_view missing) {
  MeasureTexts texts;
  texts.of = subject_of(number);
  texts.number = static_cast<std::size_t>(number);
  texts.says = says;
  texts.missing = missing;
  return texts;
}
// A figure above zero, and below it.
constexpr MeasureTexts two_ways(auto number, std::string_view above, std::string_view below, std::string_view missing) {
  return row(number, above, missing).below(below);
}
constexpr MeasureTexts count(auto number, std::string_view none, std::string_view one, std::string_view many,
                             std::string_view missing) {
  return row(number, many, missing).at_none(none).at_one(one);
}
// Of readings: of none it is told whether there were none or all are struck out.
constexpr MeasureTexts readings(auto number, std::string_view none, std::string_view one, std::string_view many,
                                std::string_view missing) {
  return count(number, none, one, many, missing).of_readings();
}
constexpr MeasureTexts yes_no(auto number, std::string_view yes, std::string_view no, std::string_view missing) {
  return row(number, yes, missing).at_none(no);
}

using S = SampleMeasure;

constexpr MeasureTexts of_samples[] = {
    two_ways(S::drift, "The flow rose {size}{of_base}, from {from} before sampling to {flow} after",
             "The flow fell {size}{of_base}, from {from} before sampling to {flow} after",
             "The change of flow from before to after can't be worked out: {why}")
        .at_none("The flow was the same before and after"),
    row(S::flow, "The flow that the volume is formed with is {figure}",
        "The flow that the volume is formed with is not known: {why}"),
    two_ways(S::flow_deviation, "On average the flow was {size} above the {base} ({flow}, {beside} {from})",
             "On average the flow was {size} below the {base} ({flow}, {beside} {from})",
             "How far the flow was from the {base} on average can't be worked out: {why}"),
    row(S::pre_flow, "The flow before sampling was {figure}", "The flow before sampling is not known: {why}"),
    row(S::post_flow, "The flow after sampling was {figure}", "The flow after sampling is not known: {why}"),
    two_ways(S::pre_deviation, "Before sampling the flow was {size} above the {base} ({flow}, {beside} {from})",
             "Before sampling the flow was {size} below the {base} ({flow}, {beside} {from})",
             "How far the flow before sampling was from the {base} can't be worked out: {why}"),
    two_ways(S::post_deviation, "After sampling the flow was {size} above the {base} ({flow}, {beside} {from})",
             "After sampling the flow was {size} below the {base} ({flow}, {beside} {from})",
             "How far the flow after sampling was from the {base} can't be worked out: {why}"),
    readings(S::pre_count, "No flow reading before sampling is on record (enter them if they were written down)",
             "1 reading was taken before sampling", "{figure} readings were taken before sampling",
             "How many readings were taken before sampling is not known: {why}"),
    readings(S::post_count, "No flow reading after sampling is on record (enter them if they were written down)",
             "1 reading was taken after sampling", "{figure} readings were taken after sampling",
             "How many readings were taken after sampling is not known: {why}"),
    row(S::pre_rsd, "The flow readings before sampling scatter: their standard deviation is {figure}{of_mean}",
        "How the readings before sampling scatter is not known: {why}"),
    row(S::post_rsd, "The flow readings after sampling scatter: their standard deviation is {figure}{of_mean}",
        "How the readings after sampling scatter is not known: {why}"),
    readings(S::field_count, "No flow reading during sampling is on record (enter them if they were written down)",
             "1 reading was taken during sampling", "{figure} readings were taken during sampling",
             "How many readings were taken during sampling is not known: {why}"),
    two_ways(S::field_deviation, "During sampling the flow was read {size} above the {base} ({flow}, {beside} {from})",
             "During sampling the flow was read {size} below the {base} ({flow}, {beside} {from})",
             "How far the flow during sampling was from the {base} can't be worked out: {why}"),
    row(S::minutes, "The sample ran for {figure}", "How long the sample ran is not known: {why}"),
    row(S::paused, "The pump was paused for {figure}", "How long the pump was paused is not known: {why}"),
    row(S::volume, "The volume is {figure}", "The volume is not known: {why}"),
    row(S::volume_reference, "The volume at reference conditions is {figure}",
        "The volume at reference conditions is not known: {why}"),
    row(S::volume_uncertainty, "The expanded uncertainty of the volume is {figure}",
        "The uncertainty of the volume can't be stated: {why}"),
    row(S::warm_up, "When its flow was read before sampling, {pump} had run for {figure}",
        "How long {pump} had run when its flow was read before sampling is not known: {why}"),
    row(S::vacuum, "The vacuum behind the sampler was {figure}",
        "How large the vacuum behind the sampler was is not known: {why}"),
    row(S::leak, "The leak test of the sampler showed {figure}",
        "What the leak test of the sampler showed is not known: {why}")
        .at_none("The leak test of the sampler showed no leak"),
    count(S::interruptions, "Sampling was not interrupted", "Sampling was interrupted once",
          "Sampling was interrupted {figure} times", "How often sampling was interrupted is not known: {why}"),
    row(S::pressure_drop, "The pressure fell by {figure} over the sampler",
        "How far the pressure fell over the sampler is not known: {why}"),
    row(S::pulsation, "The flow of {pump} swung by {figure} about its mean",
        "How far the flow of {pump} swung about its mean is not known: {why}"),
    two_ways(S::pre_age, "The flow was read {size} before sampling began",
             "The flow was read {size} after sampling began",
             "How long before sampling the flow was read is not known: {why}"),
    two_ways(S::post_age, "The flow was read {size} after sampling ended",
             "The flow was read {size} before sampling ended",
             "How long after sampling the flow was read is not known: {why}"),
    two_ways(S::temperature_change, "It was {size} warmer when the flow was read than during sampling",
             "It was {size} colder when the flow was read than during sampling",
             "How the temperature differed between reading and sampling is not known: {why}"),
    two_ways(S::pressure_change, "The air pressure was {size} higher when the flow was read than during sampling",
             "The air pressure was {size} lower when the flow was read than during sampling",
             "How the air pressure differed between reading and sampling is not known: {why}"),
    row(S::overlap,
        "{pump} is on record for this sample and {other} at the same time, {period} ({figure}): if the field "
        "sheets say otherwise, correct the record",
        "Whether another sample ran on the pump at the same time is not known: {why}")
        .at_none("No other sample is on record for {pump} at the same time")
        .plain_at_zero(),
    yes_no(S::fault, "A fault of {pump} is on record in this sample{seen}", "No fault was seen",
           "Nobody wrote down whether a fault was seen"),
    two_ways(S::calibrator_overdue, "The flow was read {size} after the recalibration of {calibrator} was due",
             "The flow was read {size} before the recalibration of {calibrator} was due",
             "When the calibrator was due is not known: {why}")
        .at_none("The flow was read on the day the recalibration of {calibrator} was due")
        .plain_at_zero(),
    row(S::calibrator_range, "A reading lies {figure} outside the range of {calibrator}",
        "Whether the readings lie within the calibrator's range is not known: {why}")
        .at_none("The readings lie within the range of {calibrator}")
        .plain_at_zero(),
    yes_no(S::calibrator_same, "{calibrator} read the flow both before and after",
           "Different calibrators read the flow before and after: {calibrator}",
           "Whether one calibrator read the flow before and after is not known: {why}"),
    row(S::calibrator_read_at, "{calibrator} was read at the {figure} of its float",
        "Nobody says where on its float a rotameter was read"),
    yes_no(S::certificate_missing, "{calibrator} had no certificate in force when it was read",
           "A certificate was in force for every reading", "Whether a certificate was in force is not known: {why}"),
    two_ways(S::cut_shift, "At this flow the 50 % cut size of the sampler is {size} larger than at its nominal flow",
             "At this flow the 50 % cut size of the sampler is {size} smaller than at its nominal flow",
             "How the flow moved the sampler's cut size is not known: {why}"),
    row(S::cut_size, "At this flow the 50 % cut size of the sampler is {figure}",
        "The 50 % cut size of the sampler at this flow is not known: {why}"),
    two_ways(S::mass_shift_actual,
             "By the stated curve of its sampler, this flow makes the concentration by the actual volume {size} too "
             "high{of_dusts}",
             "By the stated curve of its sampler, this flow makes the concentration by the actual volume {size} too "
             "low{of_dusts}",
             "What this flow does to the concentration by the actual volume can't be told: {why}")
        .at_none(
            "By the stated curve of its sampler, this flow leaves the concentration by the actual volume as it is"),
    two_ways(S::mass_shift_nominal,
             "By the stated curve of its sampler, this flow makes the concentration by the nominal volume {size} too "
             "high{of_dusts}",
             "By the stated curve of its sampler, this flow makes the concentration by the nominal volume {size} too "
             "low{of_dusts}",
             "What this flow does to the concentration by the nominal volume can't be told: {why}")
        .at_none(
            "By the stated curve of its sampler, this flow leaves the concentration by the nominal volume as it is"),
    two_ways(S::mass_bias,
             "By the stated curve of its sampler, the concentration lies {size} above that of the convention{of_dusts}",
             "By the stated curve of its sampler, the concentration lies {size} below that of the convention{of_dusts}",
             "How far the concentration lies from that of the convention can't be told: {why}")
        .at_none("By the stated curve of its sampler, the concentration is that of the convention"),
    row(S::calibrator_uncertainty, "The certificate of {calibrator} states the flow to {figure} (expanded uncertainty)",
        "How well the calibrator is known is not stated: {why}"),
    yes_no(S::record_pump_serial, "The serial number of {pump} is written down",
           "The serial number of {pump} is not written down", "There is no pump to look for a serial number of"),
    yes_no(S::record_by, "Every reading says who took it", "Some reading does not say who took it",
           "There is no reading to say who took it"),
    yes_no(S::record_conditions, "Every reading has its temperature and pressure",
           "Some reading lacks its temperature or pressure", "There is no reading to have a temperature and pressure"),
    yes_no(S::record_sampling_conditions, "The sample has its own temperature and pressure",
           "The sample lacks its own temperature or pressure",
           "The temperature and pressure of the sample are not known"),
    yes_no(S::record_calibrator_serial, "The serial number of {calibrator} is written down",
           "The serial number of {calibrator} is not written down",
           "There is no calibrator to look for a serial number of"),
    yes_no(S::record_certificate_uncertainty, "The certificate of {calibrator} states its uncertainty at every point",
           "The certificate of {calibrator} leaves out its uncertainty at some point",
           "There is no certificate in force to state an uncertainty"),
    yes_no(S::record_certificate_issuer, "The certificate of {calibrator} says who issued it",
           "The certificate of {calibrator} does not say who issued it",
           "There is no certificate in force to say who issued it"),
    yes_no(S::record_certificate_standard, "The certificate of {calibrator} says what it was made against",
           "The certificate of {calibrator} does not say what it was made against",
           "There is no certificate in force to say what it was made against"),
    yes_no(S::record_chain, "The certificates behind {calibrator} lead to a standard without a gap",
           "There is a gap in the certificates behind {calibrator}",
           "There is no calibrator to look for certificates of"),
    yes_no(S::record_void_reasons, "Every reading that is struck out has a note that says why",
           "A reading that is struck out has no note that says why", "No reading is struck out"),
    yes_no(S::record_method, "The sample names its method", "The sample does not name its method",
           "The method of the sample is not known"),
    yes_no(S::record_fault, "Somebody wrote down whether a fault was seen",
           "Nobody wrote down whether a fault was seen", "Whether a fault was seen is not known"),
    yes_no(S::record_uncertainty, "The records suffice to state an uncertainty of the volume",
           "The records do not suffice to state an uncertainty of the volume",
           "Whether the volume has an uncertainty is not known"),
    two_ways(S::field_nominal_deviation,
             "During sampling the flow was read {size} above the nominal flow ({flow}, {beside} {from})",
             "During sampling the flow was read {size} below the nominal flow ({flow}, {beside} {from})",
             "How far the flow during sampling was from the nominal flow can't be worked out: {why}"),
    yes_no(S::sampler_known, "The sampler {sampler} is described", "Nobody describes the sampler {sampler}",
           "The sample names no sampler"),
    yes_no(S::method_known, "The method of the sample is described", "Nobody describes the method of the sample",
           "The sample names no method"),
    yes_no(S::analysis_known, "The analysis of the sample is described", "Nobody describes the analysis of the sample",
           "The sample names no analysis"),
};

using T = SetMeasure;

constexpr MeasureTexts of_sets[] = {
    readings(T::count, "No reading {set} counts", "1 reading was taken {set}", "{figure} readings were taken {set}",
             "How many readings were taken {set} is not known: {why}"),
    row(T::rsd, "The flow readings {set} scatter: their standard deviation is {figure}{of_mean}",
        "How the readings {set} scatter is not known: {why}"),
    row(T::range, "The readings {set} lie {figure} apart, from the lowest to the highest",
        "How far the readings {set} lie apart is not known: {why}"),
    row(T::flow, "The flow {set} was {figure}", "The flow {set} is not known: {why}"),
    two_ways(T::flow_deviation, "The flow {set} was {size} above the {base} ({flow}, {beside} {from})",
             "The flow {set} was {size} below the {base} ({flow}, {beside} {from})",
             "How far the flow {set} was from the {base} can't be worked out: {why}"),
    row(T::duration, "Taking the readings {set} took {figure}", "How long the readings {set} took is not known: {why}"),
    row(T::age, "Between sampling and the readings {set} lie {figure}",
        "How long before or after sampling the readings {set} were taken is not known: {why}"),
};

using R = ReadingMeasure;

constexpr MeasureTexts of_readings[] = {
    row(R::indicated, "{calibrator} showed {figure} in the reading at {reading}",
        "What {calibrator} showed in the reading at {reading} is not known: {why}"),
    row(R::actual, "The corrected flow of the reading at {reading} is {figure}",
        "The corrected flow of the reading at {reading} is not known: {why}"),
    two_ways(R::correction, "The reading at {reading} is corrected upwards by {size}",
             "The reading at {reading} is corrected downwards by {size}",
             "The correction of the reading at {reading} is not known: {why}"),
    row(R::range, "The reading at {reading} lies {figure} outside the range of {calibrator}",
        "Whether the reading at {reading} lies within the range of {calibrator} is not known: {why}")
        .at_none("The reading at {reading} lies within the range of {calibrator}")
        .plain_at_zero(),
    row(R::temperature, "The temperature at the reading at {reading} was {figure}",
        "The temperature at the reading at {reading} is not known: {why}"),
    row(R::pressure, "The air pressure at the reading at {reading} was {figure}",
        "The air pressure at the reading at {reading} is not known: {why}"),
    row(R::humidity, "The relative humidity at the reading at {reading} was {figure}",
        "The relative humidity at the reading at {reading} is not known: {why}"),
};

using C = CalibratorMeasure;

constexpr MeasureTexts of_calibrators[] = {
    two_ways(C::due, "The recalibration of {calibrator} is due in {size}",
             "The recalibration of {calibrator} was due {size} ago", "When {calibrator} is due is not known: {why}")
        .at_none("The recalibration of {calibrator} is due today")
        .plain_at_zero(),
    two_ways(C::as_found_error, "At its last calibration {calibrator} read up to {size} too high as found",
             "At its last calibration {calibrator} read up to {size} too low as found",
             "What {calibrator} showed as found at its last calibration is not known: {why}"),
    row(C::age, "The newest certificate of {calibrator} is {size} old",
        "How old the newest certificate of {calibrator} is, is not known: {why}"),
    row(C::read_at, "{calibrator} is read at the {figure} of its float",
        "Nobody wrote down where on its float {calibrator} is read"),
    yes_no(C::record_as_found, "The newest certificate of {calibrator} says at every point what it showed as found",
           "The newest certificate of {calibrator} leaves out at some point what it showed as found",
           "{calibrator} has no certificate to say what it showed as found"),
};

using P = PumpMeasure;

constexpr MeasureTexts of_pumps[] = {
    two_ways(P::drift_mean, "On average the flow of {pump} rose {size} over a sample",
             "On average the flow of {pump} fell {size} over a sample",
             "How far the flow of {pump} moves over a sample is not known: {why}"),
    row(P::drift_sd,
        "The change of flow of {pump} from before to after scatters from sample to sample: its standard deviation is "
        "{figure} of the flow",
        "How the drift of {pump} scatters is not known: {why}"),
    two_ways(P::trend, "The flow of {pump} before sampling rises by {size} a week",
             "The flow of {pump} before sampling falls by {size} a week",
             "Where the flow of {pump} goes is not known: {why}"),
    row(P::void_share, "{figure} of the samples of {pump} are void",
        "How many samples of {pump} are void is not known: {why}"),
};

using B = BatchMeasure;

constexpr MeasureTexts of_batches[] = {
    count(B::blanks, "Batch {batch} has no blank", "Batch {batch} has 1 blank", "Batch {batch} has {figure} blanks",
          "How many blanks batch {batch} has is not known: {why}"),
    row(B::blank_share, "The blanks of batch {batch} come to {figure} of its samples",
        "How many blanks batch {batch} has for its samples is not known: {why}")
        .at_none("Batch {batch} has no blank for its samples"),
    row(B::void_share, "{figure} of the samples of batch {batch} are void",
        "How many samples of batch {batch} are void is not known: {why}"),
    row(B::record_complete, "{figure} of the samples of batch {batch} have complete records",
        "How many samples of batch {batch} have complete records is not known: {why}"),
};

using L = ResultMeasure;

constexpr MeasureTexts of_results[] = {
    row(L::mass, "The laboratory found {figure} of {analyte}",
        "How much {analyte} the laboratory found is not known: {why}"),
    two_ways(L::mass_net, "Less the {taken_off} there is {size} of {analyte}",
             "The {taken_off} carry {size} of {analyte} more than the sample",
             "How much {analyte} there is less the {taken_off} is not known: {why}"),
    yes_no(L::detected, "What there is of {analyte} reaches the laboratory's limit",
           "What there is of {analyte} is less than the laboratory's limit",
           "Whether what there is of {analyte} reaches the laboratory's limit can't be said: {why}"),
    count(L::blank_count, "No field blank of batch {batch} has a result of {analyte}",
          "1 field blank of batch {batch} has a result of {analyte}",
          "{figure} field blanks of batch {batch} have a result of {analyte}",
          "How many field blanks have a result of {analyte} is not known: {why}"),
    row(L::blank_share, "The field blanks of batch {batch} come to {figure} of its samples with a result of {analyte}",
        "How many field blanks there are for the results of {analyte} is not known: {why}")
        .at_none("Batch {batch} has no field blank for its results of {analyte}"),
    two_ways(L::blank_mean, "The field blanks of batch {batch} carry {size} of {analyte} on average",
             "The field blanks of batch {batch} lost {size} of {analyte} on average",
             "What the field blanks carry of {analyte} is not known: {why}")
        .at_none("The field blanks of batch {batch} carry no {analyte}"),
    yes_no(L::blank_above_limit, "A field blank carries {analyte} above its limit: {blanks}",
           "No field blank of batch {batch} carries {analyte} above its limit",
           "Whether a field blank carries more {analyte} than the limit can't be said: {why}"),
    two_ways(L::concentration, "The concentration of {analyte} is {size}",
             "The concentration of {analyte} comes to {size} less than nothing, for the {taken_off} carry more",
             "The concentration of {analyte} is not known: {why}"),
    row(L::concentration_uncertainty, "The concentration of {analyte} is known to {figure}",
        "How well the concentration of {analyte} is known is not stated: {why}"),
    yes_no(L::balance_certificate_missing, "{balance} had no certificate in force when the {analyte} was weighed",
           "A certificate of {balance} was in force when the {analyte} was weighed",
           "Whether a certificate of the balance was in force is not known: {why}"),
    two_ways(L::balance_overdue, "The {analyte} was weighed {size} after the recalibration of {balance} was due",
             "The {analyte} was weighed {size} before the recalibration of {balance} was due",
             "When the balance was due is not known: {why}")
        .at_none("The {analyte} was weighed on the day the recalibration of {balance} was due")
        .plain_at_zero(),
    count(L::control_count, "No control filter was weighed with the {analyte} of batch {batch}",
          "1 control filter was weighed with the {analyte} of batch {batch}",
          "{figure} control filters were weighed with the {analyte} of batch {batch}",
          "How many control filters were weighed with the {analyte} is not known: {why}"),
    two_ways(L::control_mean, "The control filters of batch {batch} gained {size} on average",
             "The control filters of batch {batch} lost {size} on average",
             "How the control filters changed is not known: {why}")
        .at_none("The control filters of batch {batch} weigh as before, on average"),
    two_ways(L::control_change, "A control filter of batch {batch} gained {size}",
             "A control filter of batch {batch} lost {size}", "How the control filters changed is not known: {why}")
        .at_none("No control filter of batch {batch} weighs other than before"),
};

constexpr LimitTexts limits[] = {
    {"; the limit is {limit}", ", within the limit of {limit}"},
    {"; it has to be less than {limit}", ", less than the limit of {limit}"},
    {"; the limit is {limit}", ", within the limit of {limit}"},
    {"; it has to be less than {limit}", ", less than the limit of {limit}"},
    {"; the rule asks for at least {limit}", ", at least the {limit} that the rule asks for"},
    {"; it has to be more than {limit}", ", more than the {limit} that the rule asks for"},
    {"; the rule asks for {limit}", ", within the {limit} that the rule asks for"},
    {"; the rule asks for {limit}", ", as the rule asks"},
    {"; the rule asks for {limit}", ", as the rule asks"},
};

}  // namespace

constexpr Texts english_texts{
    .measures = {of_samples, of_sets, of_readings, of_calibrators, of_pumps, of_batches, of_results},
    .limits = std::to_array(limits),
    .near = {.chance = ", but its uncertainty leaves a chance of {chance} that the true value lies beyond the limit",
             .guarded =
                 ", but closer to it than the guard band of {guard} U allows: its uncertainty leaves a chance of "
                 "{chance} that the true value lies beyond the limit",
             .unguarded = ", but its uncertainty can't be stated, so the guard band of {guard} U can't be kept"},
    .lacks = {.not_said = "the book does not say",
              .no_readings =
                  "no flow reading before or after sampling is on record (enter them if they were written down)",
              .none_before = "no flow reading before sampling is on record (enter it if it was written down)",
              .none_during = "no flow reading during sampling is on record (enter it if it was written down)",
              .none_after = "no flow reading after sampling is on record (enter it if it was written down)",
              .all_struck_out = "all readings {set} are struck out",
              .temperature = "a reading of {calibrator} lacks its temperature",
              .pressure = "a reading of {calibrator} lacks its pressure",
              .humidity = "a reading of {calibrator} lacks its humidity",
              .scale_conditions =
                  "the conditions that the scale of {calibrator} is made for are not in instruments.csv",
              .no_curve = "the penetration curve of the sampler is not described",
              .no_exponent = "how the cut of the sampler goes with the flow is not stated",
              .nominal_beyond_law =
                  "the nominal flow of the sample lies outside those that the law of the sampler's cut was found over",
              .beyond_law = "the flow lies outside those that the law of the sampler's cut was found over",
              .no_convention = "the fraction of the sampler is none of a convention",
              .nothing_through =
                  "so little of the coarsest dust comes through the sampler that no ratio can be formed of it",
              .less_than = "it is less than the laboratory's limit",
              .counted = "fibres were counted, and no mass is stated",
              .no_blank = "no field blank of its batch has a result of it",
              .no_limit = "no limit of the laboratory is on record",
              .no_air = "the volume of air is not known",
              .no_uncertainty = "of what it is formed of not every uncertainty is stated",
              .not_weighed = "it was not weighed on a balance of instruments.csv, or nobody says when",
              .no_due = "no certificate of the balance in force says when it is due, nor does its interval",
              .no_control = "no control filter was weighed with its batch"},
    .sets = {"before sampling", "during sampling", "after sampling"},
    .bases = {"flow before sampling", "flow after sampling", "mean flow", "nominal flow"},
    .of_bases = {"", " of the flow after sampling", " of the mean flow", " of the nominal flow"},
    .beside = {"before sampling", "after sampling", "mean", "nominal"},
    .of_their_mean = " of their mean",
    .of_dusts = ", for the dust that makes the most of it",
    .one_struck_out = "The one reading {set} is struck out",
    .all_struck_out = "All {n} readings {set} are struck out",
    .noted = "; noted there: '{note}'",
    .not_noted = " (it stopped, or an inlet was blocked; nobody noted which)",
    .period = "from {from} to {to}",
    .one_day = "1 day",
    .days = "{figure} days",
    .or_ = " or ",
    .to = " to ",
    .and_ = " and ",
    .rests_on = " ({n})",
    .known_to = " ({n}; expanded uncertainty {u})",
    .by_our_reading = "; that this voids is how the pack reads {clause}",
    .passed_over = "; the rule lets that pass",
    .unknown_where = "Whether the rule applies can't be said, for the sample lacks: {fields}",
    .bad_record = "A record that the sample leans on can't be understood: {problem}",
    .unknown_words = {"Neither a pack nor book.toml describes the sampler {word}",
                      "Neither a pack nor book.toml describes the method {word}",
                      "Neither a pack nor book.toml describes the analysis {word}"},
    .taken_off = {"blanks", "control filters"},
    .near_word = " (did you mean {word}?)",
    .left_out = "; so these rules could not be applied: {rules}",
};

static_assert(texts_check::is_complete(english_texts));
const Texts english = english_texts;

}  // namespace driftwarden
