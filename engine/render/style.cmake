# Compiles card.css into the program, with the SHA-256 of it that a content security policy names.

include(${CMAKE_CURRENT_SOURCE_DIR}/base64.cmake)
set(css ${CMAKE_CURRENT_SOURCE_DIR}/card.css)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${css})
file(READ ${css} JARFUL_CARD_CSS)
file(SHA256 ${css} hex)
jarful_base64(${hex} JARFUL_CARD_CSS_SHA256)
configure_file(html_style.cpp.in html_style.cpp @ONLY)
