# Compiles web/ into the program: the script joined from its modules, the style sheet behind that of the card, and what a
# content security policy names them by.
include(${PROJECT_SOURCE_DIR}/engine/render/base64.cmake)
set(web ${CMAKE_CURRENT_SOURCE_DIR}/web)

# Reads a file of which the build depends, and holds it against what would end the place it is put in.
function(jarful_read file result)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
  file(READ ${file} text)
  if(text MATCHES "</[sS]cript|</[sS]tyle|<!--|\\)web\"")
    message(FATAL_ERROR "${file} has something in it that cannot stand inside of a page")
  endif()
  set(${result} "${text}" PARENT_SCOPE)
endfunction()

# A module as part of one script: without its imports, and with nothing exported. Comments that have a line of their own
# stay behind, and so does the indentation.
function(jarful_join file result)
  jarful_read(${file} text)
  set(text "\n${text}")
  string(REGEX REPLACE "\n *//[^\n]*" "" text "${text}")
  string(REGEX REPLACE "\n */\\*\\*[^\n]*\\*/" "" text "${text}")
  string(REGEX REPLACE "\nimport [^\n]*" "" text "${text}")
  string(REGEX REPLACE "\n +" "\n" text "${text}")
  string(REGEX REPLACE "\nexport " "\n" text "${text}")
  string(REGEX REPLACE "\n\n+" "\n" text "${text}")
  set(${result} "${text}" PARENT_SCOPE)
endfunction()

jarful_join(${CMAKE_CURRENT_SOURCE_DIR}/wasm/loader.mjs JARFUL_PAGE_SCRIPT)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${web}/order.txt)
file(STRINGS ${web}/order.txt modules)
foreach(module IN LISTS modules)
  jarful_join(${web}/${module} part)
  string(APPEND JARFUL_PAGE_SCRIPT "${part}")
endforeach()
jarful_join(${web}/worker.mjs JARFUL_PAGE_WORKER)
jarful_read(${PROJECT_SOURCE_DIR}/engine/render/card.css card_css)
jarful_read(${web}/page.css JARFUL_PAGE_STYLE)
string(PREPEND JARFUL_PAGE_STYLE "${card_css}")
jarful_read(${web}/controls.html JARFUL_PAGE_CONTROLS)
jarful_read(${web}/after.html JARFUL_PAGE_AFTER)
jarful_read(${web}/icon.svg JARFUL_PAGE_ICON)
foreach(part SCRIPT STYLE)
  string(SHA256 hex "${JARFUL_PAGE_${part}}")
  jarful_base64(${hex} JARFUL_PAGE_${part}_SHA256)
endforeach()
# A text's own backslashes would be taken for CMake's; configure_file takes it as it is.
configure_file(web_files.cpp.in web_files.cpp @ONLY)
