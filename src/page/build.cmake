# SPDX-License-Identifier: MIT
# The program as a module of WebAssembly, and the page around it (docs/adr/0030-the-program-in-a-page.md).

enable_language(C)

# Libraries without sources of their own, and only those: what else lies in /usr/include is for this machine.
set(headers ${CMAKE_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
file(GLOB dragonbox /usr/include/dragonbox-*/dragonbox)
foreach(library boost toml++ fmt nlohmann CLI)
  file(CREATE_LINK /usr/include/${library} ${headers}/${library} SYMBOLIC)
endforeach()
file(CREATE_LINK ${dragonbox} ${headers}/dragonbox SYMBOLIC)

# Libraries with sources, as Debian has them.
set(sources ${CMAKE_BINARY_DIR}/libraries)
execute_process(COMMAND bash ${PROJECT_SOURCE_DIR}/src/page/libraries.sh ${sources} COMMAND_ERROR_IS_FATAL ANY)
file(WRITE ${CMAKE_BINARY_DIR}/libraries/expat_config.h
     "#define BYTEORDER 1234\n#define HAVE_MEMMOVE 1\n#define XML_NS 1\n#define XML_DTD 1\n#define XML_CONTEXT_BYTES 1024\n#define XML_DEV_URANDOM 1\n")
# Names of files stand in asserts: the same ones wherever it is built, also where ccache makes them relative (its base_dir).
add_compile_options(-fwasm-exceptions -ffile-prefix-map=${CMAKE_BINARY_DIR}=./build -ffile-prefix-map=${PROJECT_SOURCE_DIR}=.
  -ffile-prefix-map=../../=./ -ffile-prefix-map=headers/=./build/headers/ -ffile-prefix-map=libraries/=./build/libraries/)
foreach(part adler32 compress crc32 deflate inffast inflate inftrees trees uncompr zutil)
  list(APPEND zlib_parts ${sources}/zlib/${part}.c)
endforeach()
add_library(zlib STATIC ${zlib_parts})
target_include_directories(zlib PUBLIC ${sources}/zlib)
add_library(expat STATIC ${sources}/expat/expat/lib/xmlparse.c ${sources}/expat/expat/lib/xmlrole.c ${sources}/expat/expat/lib/xmltok.c)
target_include_directories(expat PUBLIC ${sources}/expat/expat/lib PRIVATE ${sources})
add_library(pugixml STATIC ${sources}/pugixml/src/pugixml.cpp)
target_include_directories(pugixml PUBLIC ${sources}/pugixml/src)
add_library(tomcrypt STATIC ${sources}/libtomcrypt/src/hashes/sha2/sha256.c ${sources}/libtomcrypt/src/hashes/sha2/sha512.c)
target_compile_definitions(tomcrypt PUBLIC ARGTYPE=3)
target_include_directories(tomcrypt PUBLIC ${sources}/libtomcrypt/src/headers)
# libzip asks its compiler some seventy questions, which take minutes here; these are the answers that count.
foreach(has FILENO FSEEKO FTELLO LOCALTIME_R SNPRINTF STRCASECMP STRDUP STRTOLL STRTOULL STDBOOL_H STRINGS_H UNISTD_H NULLABLE)
  set(HAVE_${has} ON)
endforeach()
set(LIBZIP_TYPES_INCLUDE "#include <inttypes.h>")
foreach(bits 8 16 32 64)
  set(ZIP_INT${bits}_T int${bits}_t)
  set(ZIP_UINT${bits}_T uint${bits}_t)
endforeach()
set(SIZEOF_OFF_T 8)
set(SIZEOF_SIZE_T 4)
configure_file(${sources}/libzip/cmake-config.h.in libzip/config.h)
configure_file(${sources}/libzip/cmake-zipconf.h.in libzip/zipconf.h)
add_library(ZLIB::ZLIB ALIAS zlib)
function(add_libzip PROJECT_SOURCE_DIR PROJECT_BINARY_DIR)
  add_subdirectory(${PROJECT_SOURCE_DIR}/lib libzip EXCLUDE_FROM_ALL)
endfunction()
add_libzip(${sources}/libzip ${CMAKE_BINARY_DIR}/libzip)

# The program: all of it but what a browser has nothing for, which has a stand-in here, at the same path.
file(GLOB_RECURSE rooms CONFIGURE_DEPENDS src/*.cpp)
file(GLOB_RECURSE stand_ins CONFIGURE_DEPENDS RELATIVE ${PROJECT_SOURCE_DIR}/src/page src/page/*.cpp)
foreach(room ${stand_ins})
  list(REMOVE_ITEM rooms ${PROJECT_SOURCE_DIR}/src/${room})
endforeach()
list(REMOVE_ITEM rooms ${PROJECT_SOURCE_DIR}/src/system/own_openssl.cpp)
include(src/built_in.cmake)
include(src/united.cmake)
add_executable(module ${rooms} ${CMAKE_CURRENT_BINARY_DIR}/page_files.cpp ${CMAKE_CURRENT_BINARY_DIR}/shipped_texts.cpp)
set_target_properties(module PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP OUTPUT_NAME driftwarden)
target_include_directories(module PRIVATE src include src/page SYSTEM ${headers})
target_compile_definitions(module PRIVATE FMT_HEADER_ONLY)
set_source_files_properties(src/command/shipped.cpp PROPERTIES COMPILE_DEFINITIONS
  "DRIFTWARDEN_VERSION=\"${PROJECT_VERSION}\";DRIFTWARDEN_SHARE_FROM_PROGRAM=\"/share\"")
target_compile_options(module PRIVATE -ffp-contract=off -include ${PROJECT_SOURCE_DIR}/src/page/old_library.hpp)
target_link_libraries(module PRIVATE zip expat pugixml tomcrypt)
target_link_options(module PRIVATE -fwasm-exceptions -sMODULARIZE=1 -sEXPORT_NAME=driftwarden -sENVIRONMENT=worker,node -sINVOKE_RUN=0 -sEXIT_RUNTIME=1
  -sFORCE_FILESYSTEM=1 -sEXPORTED_RUNTIME_METHODS=FS,callMain,ENV -sALLOW_MEMORY_GROWTH=1 -sIMPORTED_MEMORY=1 -sMAXIMUM_MEMORY=4GB
  -sINITIAL_MEMORY=33554432 -sTOTAL_STACK=8388608 -sDYNAMIC_EXECUTION=0)

# What a run needs, in one archive that is the same bytes wherever it was packed.
add_custom_command(OUTPUT packed.tar DEPENDS module ${PROJECT_SOURCE_DIR}/src/page/pack.sh COMMENT "Packing" VERBATIM
  COMMAND bash ${PROJECT_SOURCE_DIR}/src/page/pack.sh ${CMAKE_BINARY_DIR} ${PROJECT_SOURCE_DIR})
set(page_parts assemble.py look.css page.html page.js policies.js run.js unpack.js verdicts.js worker.js)
list(TRANSFORM page_parts PREPEND ${PROJECT_SOURCE_DIR}/src/page/)
add_custom_command(OUTPUT driftwarden.html DEPENDS packed.tar ${page_parts} COMMENT "Writing driftwarden.html" VERBATIM
  COMMAND /usr/bin/python3 ${PROJECT_SOURCE_DIR}/src/page/assemble.py ${PROJECT_SOURCE_DIR} ${CMAKE_BINARY_DIR})
add_custom_target(page ALL DEPENDS driftwarden.html)
