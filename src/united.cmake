# SPDX-License-Identifier: MIT
# Which sources are compiled together.

# What every row and every sample passes through is compiled as one piece each, so that calls between rooms vanish.
set_source_files_properties(src/book/csv_scanner.cpp src/book/row_reader.cpp src/book/timestamp.cpp src/book/stamp_parts.cpp
  src/book/readings_file.cpp PROPERTIES UNITY_GROUP reading)
set_source_files_properties(src/quantity/limit.cpp src/correction/corrected_reading.cpp src/correction/certificate_error.cpp
  src/correction/rotameter.cpp src/correction/mass_meter.cpp src/correction/orifice.cpp src/correction/bubble.cpp
  src/correction/reference_conditions.cpp src/correction/certificate_in_force.cpp src/statistics/mean_and_spread.cpp
  src/assessment/calibrator_knowledge.cpp src/assessment/reading_set.cpp src/assessment/bracket.cpp src/assessment/sampled_volume.cpp
  src/assessment/drift.cpp src/assessment/sample_assessment.cpp src/rule/judgement.cpp
  src/verdict/applicability.cpp src/verdict/measured.cpp src/verdict/sample_judge.cpp PROPERTIES UNITY_GROUP judging)
# The other rooms of a floor are compiled ten at a time. Not the tables of a book: each has `fields` of its own.
if(DRIFTWARDEN_UNITE)
  foreach(room ${rooms})
    get_source_file_property(group ${room} UNITY_GROUP)
    cmake_path(GET room PARENT_PATH floor)
    cmake_path(GET floor FILENAME floor)
    if(NOT group AND NOT room MATCHES "book/(actions|certificates|checks|decisions|instruments|pooled|samples|service)_file.cpp$")
      list(APPEND rooms_of_${floor} ${room})
      list(LENGTH rooms_of_${floor} count)
      math(EXPR tenth "${count} / 10")
      set_source_files_properties(${room} PROPERTIES UNITY_GROUP ${floor}_${tenth})
    endif()
  endforeach()
endif()
