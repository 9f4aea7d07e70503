include(CMakePackageConfigHelpers)
install(TARGETS whichwire EXPORT whichwire-targets ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(TARGETS whichwire_cli RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
install(DIRECTORY lib/include/whichwire DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(EXPORT whichwire-targets NAMESPACE whichwire:: DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/whichwire)
configure_package_config_file(cmake/whichwire-config.cmake.in ${CMAKE_CURRENT_BINARY_DIR}/whichwire-config.cmake
  INSTALL_DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/whichwire)
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/whichwire-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/whichwire-config.cmake ${CMAKE_CURRENT_BINARY_DIR}/whichwire-config-version.cmake
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/whichwire)
install(FILES LICENSE CHANGELOG.md README.md cli/MACHINES.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(DIRECTORY topologies DESTINATION ${CMAKE_INSTALL_DATADIR}/whichwire COMPONENT program)
