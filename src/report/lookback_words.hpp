// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "history/lookback.hpp"

namespace driftwarden {

// What the table, the page and the data of a look-back say in the same words.

std::string batch_of(const Book& book, Row sample);
std::string date_text_or(Day day, std::string_view otherwise);

// "volume", "drift and volume", "checks", "incomplete": what moves with the instrument's error; and the whole sentence.
std::string_view bearing_word(Bearing bearing);
std::string_view bearing_sentence(Bearing bearing);

// "verdict", "figures", "nothing", "open before": what a supposition changes; the heading of those samples; and they.
std::string_view change_word(Change change);
std::string_view change_heading(Change change);
std::vector<const LookedBackSample*> samples_with(const Lookback& lookback, Change change);

// The sets that lean on the instrument: "pre, post", "pre via V2" (through the certificate of another calibrator).
std::string leans_text(const Book& book, const Lookback& lookback, const LookedBackSample& looked,
                       std::string_view separator = ", ");

// "6.0 % at 1 L/min": with as many decimals as show that it is beyond its tolerance. "±4 %", "up to 4 %".
std::string as_found_text(const LookbackWindow& window);
std::string tolerance_text(const Tolerance& tolerance);
// "left between -0.9 and 0.9 %": the errors of a certificate as left.
std::string as_left_text(const Certificate& certificate);

// What each supposition says, one sentence.
std::string_view supposition_sentence(Supposition supposition);

std::string drift_text(const JudgedSample& judged);

// Findings that a supposition brings and that it takes away.
std::vector<const ToldFinding*> findings_only_in(const JudgedSample& here, const JudgedSample& there);

// "VOL-3/2026-10-01 of VOL-3, made against ROT-2": how a certificate leans on the instrument.
std::string leaning_text(const Book& book, const LeaningCertificate& leaning);

// How many samples that were decided change their verdict under a supposition, and the sentence that sums all up.
std::size_t changed_under(const Lookback& lookback, Supposition supposition);
std::string summary_text(const Lookback& lookback);

}  // namespace driftwarden
