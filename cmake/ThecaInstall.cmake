# Install rules: headers, libraries, CMake package, pkg-config file.
install(
  TARGETS ${theca_targets}
  EXPORT thecaTargets
  ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}"
  LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}"
  RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}"
  FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}")
set(theca_package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/theca")
install(EXPORT thecaTargets NAMESPACE theca:: DESTINATION "${theca_package_dir}")
configure_package_config_file(cmake/thecaConfig.cmake.in "${CMAKE_CURRENT_BINARY_DIR}/thecaConfig.cmake"
                              INSTALL_DESTINATION "${theca_package_dir}")
write_basic_package_version_file("${CMAKE_CURRENT_BINARY_DIR}/thecaConfigVersion.cmake"
                                 COMPATIBILITY SameMinorVersion)
install(FILES "${CMAKE_CURRENT_BINARY_DIR}/thecaConfig.cmake" "${CMAKE_CURRENT_BINARY_DIR}/thecaConfigVersion.cmake"
        DESTINATION "${theca_package_dir}")
configure_file(cmake/theca.pc.in "${CMAKE_CURRENT_BINARY_DIR}/theca.pc" @ONLY)
install(FILES "${CMAKE_CURRENT_BINARY_DIR}/theca.pc" DESTINATION "${CMAKE_INSTALL_LIBDIR}/pkgconfig")
