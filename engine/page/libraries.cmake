# The page's engine is compiled from source, libraries too: Emscripten has none of the machine's. Headers are
# reached through links in the build folder, because a whole /usr/include would bring the machine's own C
# library along.
set(JARFUL_UTF8PROC_SOURCE "${PROJECT_SOURCE_DIR}/build/utf8proc" CACHE PATH "Folder of utf8proc's source")
if(NOT EXISTS "${JARFUL_UTF8PROC_SOURCE}/utf8proc.c")
  message(FATAL_ERROR "JARFUL_UTF8PROC_SOURCE names no folder with utf8proc.c in it: cli/page-engine.sh fetches it.")
endif()
foreach(tables LARDER LEXICON)
  if(NOT JARFUL_${tables}_COMPILE)
    message(FATAL_ERROR "JARFUL_${tables}_COMPILE must name the compiler of these tables of a build for this machine.")
  endif()
endforeach()

set(headers ${PROJECT_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
foreach(library boost=boost/version.hpp nlohmann=nlohmann/json.hpp fmt=fmt/core.h fast_float=fast_float/fast_float.h)
  string(REPLACE "=" ";" library ${library})
  list(GET library 0 folder)
  list(GET library 1 header)
  find_path(JARFUL_${folder}_HEADERS ${header} PATHS /usr/local/include /usr/include REQUIRED
            NO_DEFAULT_PATH NO_CMAKE_FIND_ROOT_PATH)
  file(CREATE_LINK ${JARFUL_${folder}_HEADERS}/${folder} ${headers}/${folder} SYMBOLIC)
endforeach()
foreach(name Boost::headers nlohmann_json::nlohmann_json fmt::fmt-header-only FastFloat::fast_float)
  add_library(${name} INTERFACE IMPORTED)
  set_target_properties(${name} PROPERTIES INTERFACE_INCLUDE_DIRECTORIES ${headers})
endforeach()

enable_language(C)
add_library(jarful_utf8proc OBJECT ${JARFUL_UTF8PROC_SOURCE}/utf8proc.c)
target_compile_definitions(jarful_utf8proc PUBLIC UTF8PROC_STATIC)
target_compile_options(jarful_utf8proc PRIVATE -w)
target_include_directories(jarful_utf8proc SYSTEM PUBLIC ${JARFUL_UTF8PROC_SOURCE})
add_library(PkgConfig::UTF8PROC ALIAS jarful_utf8proc)
# Pages are not read on a page, and no git is there: see the list of what is left out in engine/CMakeLists.txt.
add_library(PkgConfig::GUMBO INTERFACE IMPORTED)
