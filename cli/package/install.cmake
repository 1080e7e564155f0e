# What is installed beside the program.
# The manual page is what the program prints, and it prints what its help does.
set(manual ${CMAKE_CURRENT_BINARY_DIR}/jarful.1)
add_custom_command(OUTPUT ${manual} COMMAND jarful manual > ${manual} DEPENDS jarful VERBATIM)
add_custom_target(jarful_manual ALL DEPENDS ${manual})
install(FILES ${manual} COMPONENT program DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)

set(completions ${CMAKE_CURRENT_LIST_DIR}/completions)
install(FILES ${completions}/jarful.bash RENAME jarful COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${completions}/jarful.fish COMPONENT program
        DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)
# Debian's zsh looks below /usr for vendors' functions, and below /usr/local for those of the site.
install(CODE "set(functions \"${CMAKE_INSTALL_DATADIR}/zsh/site-functions\")
if(CMAKE_INSTALL_PREFIX STREQUAL \"/usr\")
  set(functions \"${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions\")
endif()
file(INSTALL \"${completions}/_jarful\" DESTINATION \"\${CMAKE_INSTALL_PREFIX}/\${functions}\")"
        COMPONENT program)
