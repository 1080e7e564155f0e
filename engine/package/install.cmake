# What an outside program needs to link the engine: the libraries, their headers, and a package that
# find_package(jarful) finds, or pkg-config for the one with C's doors. The program itself is installed by cli/.
include(CMakePackageConfigHelpers)

# Public are the headers that can be read without any third-party library: those that include one,
# and those that include such a header in their turn, stay behind.
file(GLOB_RECURSE public_headers RELATIVE ${PROJECT_SOURCE_DIR} CONFIGURE_DEPENDS
     ${PROJECT_SOURCE_DIR}/engine/*.hpp)
list(FILTER public_headers EXCLUDE REGEX "^engine/larder/compile/")
set(private_include "#include *<(boost|fast_float|fmt|nlohmann|muParser|utf8proc|gumbo|git2|CLI)[./]")
set(more TRUE)
while(more)
  set(more FALSE)
  foreach(header IN LISTS public_headers)
    file(STRINGS ${PROJECT_SOURCE_DIR}/${header} includes REGEX "${private_include}")
    if(includes)
      list(REMOVE_ITEM public_headers ${header})
      string(REPLACE "." "\\." header "${header}")
      string(APPEND private_include "|#include *\"${header}\"")
      set(more TRUE)
    endif()
  endforeach()
endwhile()

foreach(header IN LISTS public_headers)
  cmake_path(GET header PARENT_PATH room)
  install(FILES ${PROJECT_SOURCE_DIR}/${header} COMPONENT engine
          DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/jarful/${room})
endforeach()

set(package_folder ${CMAKE_INSTALL_LIBDIR}/cmake/jarful)
install(TARGETS jarful_engine EXPORT jarful_targets COMPONENT engine
        ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(EXPORT jarful_targets NAMESPACE jarful:: FILE jarfulTargets.cmake COMPONENT engine
        DESTINATION ${package_folder})
install(TARGETS jarful_c EXPORT jarful_c_targets
        LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT engine NAMELINK_COMPONENT engine)
install(EXPORT jarful_c_targets NAMESPACE jarful:: FILE jarfulCTargets.cmake COMPONENT engine
        DESTINATION ${package_folder})
install(FILES ${PROJECT_SOURCE_DIR}/engine/jarful.h COMPONENT engine
        DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
file(RELATIVE_PATH JARFUL_PREFIX_FROM_PC /${CMAKE_INSTALL_LIBDIR}/pkgconfig /)
configure_file(${CMAKE_CURRENT_LIST_DIR}/jarful.pc.in ${PROJECT_BINARY_DIR}/jarful.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/jarful.pc COMPONENT engine
        DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
if(JARFUL_MUPARSER_SOURCE)
  set(JARFUL_MUPARSER_COMPILED_IN TRUE)
else()
  set(JARFUL_MUPARSER_COMPILED_IN FALSE)
endif()
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/jarfulConfig.cmake.in
  ${PROJECT_BINARY_DIR}/jarfulConfig.cmake INSTALL_DESTINATION ${package_folder})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/jarfulConfigVersion.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/jarfulConfig.cmake
              ${PROJECT_BINARY_DIR}/jarfulConfigVersion.cmake
        COMPONENT engine DESTINATION ${package_folder})
