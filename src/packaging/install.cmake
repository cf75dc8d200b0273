# SPDX-License-Identifier: MIT
# What `cmake --install` lays down, how others find the engine there, and the Debian package.
include(CMakePackageConfigHelpers)

install(TARGETS driftwarden RUNTIME COMPONENT program)
install(DIRECTORY rules plots DESTINATION ${CMAKE_INSTALL_DATADIR}/driftwarden COMPONENT program
        FILES_MATCHING PATTERN "*.toml")

# The page, where it was built before (docs/page.md).
install(FILES build/page/driftwarden.html DESTINATION ${CMAKE_INSTALL_DATADIR}/driftwarden COMPONENT program OPTIONAL)

# The manual pages hold what --help says: the program writes them itself.
find_program(GZIP gzip REQUIRED)
set(manual ${CMAKE_CURRENT_BINARY_DIR}/manual)
add_custom_command(TARGET driftwarden POST_BUILD COMMAND ${CMAKE_COMMAND} -E rm -rf ${manual}
                   COMMAND ${CMAKE_COMMAND} -E make_directory ${manual}
                   COMMAND driftwarden manual ${manual} COMMAND ${GZIP} -9nr ${manual} VERBATIM)
install(DIRECTORY ${manual}/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program FILES_MATCHING PATTERN "*.1.gz")
install(FILES src/packaging/completions/driftwarden.bash RENAME driftwarden
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES src/packaging/completions/_driftwarden DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
install(FILES src/packaging/completions/driftwarden.fish
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)

# The licence, what changed, and what is linked, with versions, as SPDX 2.3 wants it.
configure_file(src/packaging/driftwarden.spdx.in driftwarden.spdx @ONLY)
configure_file(src/packaging/changelog.Debian.in changelog.Debian @ONLY)
add_custom_command(OUTPUT changelog.gz changelog.Debian.gz COMMAND ${GZIP} -9nc ${PROJECT_SOURCE_DIR}/docs/CHANGELOG.md > changelog.gz
                   COMMAND ${GZIP} -9nc changelog.Debian > changelog.Debian.gz
                   DEPENDS docs/CHANGELOG.md ${CMAKE_CURRENT_BINARY_DIR}/changelog.Debian VERBATIM)
add_custom_target(packed_changelog DEPENDS changelog.gz changelog.Debian.gz)
add_dependencies(driftwarden packed_changelog)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/changelog.gz ${CMAKE_CURRENT_BINARY_DIR}/changelog.Debian.gz
        DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/driftwarden.spdx src/packaging/copyright
        DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)

# The engine for other programs: find_package(driftwarden), one target, one header.
install(TARGETS driftwarden_engine EXPORT driftwarden ARCHIVE COMPONENT engine)
install(DIRECTORY include/driftwarden/engine DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/driftwarden COMPONENT engine)
set(config_folder ${CMAKE_INSTALL_LIBDIR}/cmake/driftwarden)
install(EXPORT driftwarden NAMESPACE driftwarden:: DESTINATION ${config_folder} FILE driftwardenTargets.cmake COMPONENT engine)
configure_package_config_file(src/packaging/driftwardenConfig.cmake.in driftwardenConfig.cmake INSTALL_DESTINATION ${config_folder})
write_basic_package_version_file(driftwardenConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/driftwardenConfig.cmake ${CMAKE_CURRENT_BINARY_DIR}/driftwardenConfigVersion.cmake
        DESTINATION ${config_folder} COMPONENT engine)

# `cpack` in the build folder makes driftwarden_VERSION_ARCHITECTURE.deb of the program.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The driftwarden authors <driftwarden@project.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME driftwarden)
set(CPACK_DEBIAN_PROGRAM_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "quality assurance of air-sampling flow, from plain files")
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION
"Reads calibrator readings of air-sampling pumps with temperature and pressure,
 corrects flows to reference conditions, works out drift, sampled volume and
 their uncertainty, voids or qualifies samples by rules that can be read and
 changed, plots what instruments did, and packs evidence for an audit.")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "gnuplot-nox | gnuplot, tzdata")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS chromium)
include(CPack)
