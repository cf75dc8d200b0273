# SPDX-License-Identifier: MIT
# Texts that the engine carries: nothing has to lie beside it, and no folder of the reader's can put others in their place.

# The pages' style sheets and script, built into the engine.
foreach(file page.css review.css custody.css kit.css letter.css lookback.css sheet.css labels.css form.css form.js review.js)
  string(MAKE_C_IDENTIFIER ${file} variable)
  string(TOUPPER ${variable} variable)
  file(READ src/report/${file} ${variable})
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS src/report/${file})
endforeach()
configure_file(src/report/page_files.cpp.in page_files.cpp @ONLY)
# What the program knows of itself: its change log, and its rule packs as they were shipped.
file(READ docs/CHANGELOG.md CHANGE_LOG)
set(SHIPPED_PACKS "")
file(GLOB packs CONFIGURE_DEPENDS rules/*.toml)
foreach(pack ${packs})
  cmake_path(GET pack STEM name)
  file(READ ${pack} text)
  string(APPEND SHIPPED_PACKS "      {\"${name}\", R\"pack(${text})pack\"},\n")
endforeach()
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS docs/CHANGELOG.md ${packs})
configure_file(src/evidence/shipped_texts.cpp.in shipped_texts.cpp @ONLY)
