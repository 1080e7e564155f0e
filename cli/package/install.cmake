# What is installed beside the program: its manual page, its completions, its papers and the demo book.
set(package_folder ${CMAKE_CURRENT_LIST_DIR})
set(made ${CMAKE_CURRENT_BINARY_DIR}/package)
file(MAKE_DIRECTORY ${made})

# The manual page is what the program prints, and it prints what its help does.
set(manual ${CMAKE_CURRENT_BINARY_DIR}/jarful.1)
add_custom_command(OUTPUT ${manual} COMMAND jarful manual > ${manual} DEPENDS jarful VERBATIM)
configure_file(${package_folder}/changelog.in ${made}/changelog @ONLY)
# The engine for pages is installed where it has been built (cli/page-engine.sh).
set(JARFUL_PAGE_ENGINE ${PROJECT_SOURCE_DIR}/build/page/jarful-page-engine.wasm.gz CACHE FILEPATH
    "The engine for pages, to be installed with the program if it is there")
set(page_engine "")
if(EXISTS "${JARFUL_PAGE_ENGINE}")
  set(page_engine ${JARFUL_PAGE_ENGINE})
endif()
install(FILES "${JARFUL_PAGE_ENGINE}" COMPONENT program OPTIONAL
        DESTINATION ${CMAKE_INSTALL_DATADIR}/jarful)
add_custom_command(OUTPUT ${made}/copyright
  COMMAND ${CMAKE_COMMAND} -D out=${made}/copyright -D licence=${PROJECT_SOURCE_DIR}/LICENSE
          -D "muparser=${JARFUL_MUPARSER_SOURCE}" -D "page=${page_engine}"
          -P ${package_folder}/copyright.cmake
  DEPENDS ${package_folder}/copyright.cmake ${PROJECT_SOURCE_DIR}/LICENSE ${page_engine} VERBATIM)
set(papers ${made}/copyright ${made}/changelog.gz ${made}/jarful.1.gz)
find_program(JARFUL_GZIP gzip REQUIRED)
foreach(paper ${manual} ${made}/changelog)
  cmake_path(GET paper FILENAME name)
  # Neither name nor time in it, so that the same page makes the same bytes.
  add_custom_command(OUTPUT ${made}/${name}.gz
    COMMAND ${JARFUL_GZIP} -9 -n -c ${paper} > ${made}/${name}.gz DEPENDS ${paper} VERBATIM)
endforeach()
add_custom_target(jarful_papers ALL DEPENDS ${manual} ${papers})

install(FILES ${made}/jarful.1.gz COMPONENT program DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${made}/copyright ${made}/changelog.gz COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs/ COMPONENT program DESTINATION ${CMAKE_INSTALL_DOCDIR}
        FILES_MATCHING PATTERN "*.md" PATTERN "*.json")
install(DIRECTORY ${PROJECT_SOURCE_DIR}/recipes/ COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples
        FILES_MATCHING PATTERN "*.jarful" PATTERN "*.md")
install(FILES ${package_folder}/lintian-overrides RENAME jarful COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DATADIR}/lintian/overrides)

set(completions ${package_folder}/completions)
install(FILES ${completions}/jarful.bash RENAME jarful COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${completions}/jarful.fish COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
# Debian's zsh looks below /usr for vendors' functions, and below /usr/local for those of the site.
install(CODE "set(functions \"${CMAKE_INSTALL_DATADIR}/zsh/site-functions\")
if(CMAKE_INSTALL_PREFIX MATCHES \"/usr$\")
  set(functions \"${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions\")
endif()
file(INSTALL \"${completions}/_jarful\" DESTINATION \"\${CMAKE_INSTALL_PREFIX}/\${functions}\")"
        COMPONENT program)
