# What is packed, and what is said of it: `cmake --build build/release --target package` writes a .deb.

# The library that reads a book's history is loaded by its name, so that no tool finds out about it.
file(STRINGS ${GIT2_INCLUDE_DIR}/git2/version.h git2_soname REGEX "define LIBGIT2_SOVERSION")
string(REGEX REPLACE ".*\"([0-9.]+)\".*" "\\1" git2_soname "${git2_soname}")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME jarful)
set(CPACK_PACKAGE_VENDOR "The Jarful developers")
set(CPACK_PACKAGE_CONTACT "The Jarful developers <developers@jarful.invalid>")
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "house recipes for fermented vegetables, by weight")
set(CPACK_PACKAGE_DESCRIPTION
"A house recipe is a small text file in which every quantity hangs on the
vegetable's weight. Jarful reads it, works it out for the produce that is
there, rounds it to what the scales can show, and holds the salt to published
ranges, whose sources it names.

It also appraises recipes found elsewhere, chooses jars, makes brines, plans
the days, and checks whole books of recipes. A book to look at is in
/usr/share/doc/jarful/examples.")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "${CPACK_PACKAGE_DESCRIPTION}")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "git, libgit2-${git2_soname}")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "libedit2, libqrencode4")
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME jarful)
set(CPACK_DEBIAN_PROGRAM_FILE_NAME DEB-DEFAULT)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
    GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_VERBATIM_VARIABLES ON)
# Read when the package is made.
configure_file(${CMAKE_CURRENT_LIST_DIR}/when_packing.cmake.in ${PROJECT_BINARY_DIR}/when_packing.cmake
               @ONLY)
set(CPACK_PROJECT_CONFIG_FILE ${PROJECT_BINARY_DIR}/when_packing.cmake)
include(CPack)
