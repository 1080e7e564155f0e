# Whoever builds a package may fix its day by SOURCE_DATE_EPOCH; otherwise it is that of the version. Days
# since 1970 by the calendar's own arithmetic, with the year begun in March.
if(DEFINED ENV{SOURCE_DATE_EPOCH})
  set(JARFUL_EPOCH $ENV{SOURCE_DATE_EPOCH})
else()
  string(REGEX MATCH "^([0-9]+)-0?([0-9]+)-0?([0-9]+)$" day "${JARFUL_VERSION_DATE}")
  set(year ${CMAKE_MATCH_1})
  set(month ${CMAKE_MATCH_2})
  set(day ${CMAKE_MATCH_3})
  if(month LESS 3)
    math(EXPR year "${year} - 1")
    math(EXPR month "${month} + 12")
  endif()
  math(EXPR JARFUL_EPOCH "(365 * ${year} + ${year} / 4 - ${year} / 100 + ${year} / 400
    + (153 * (${month} - 3) + 2) / 5 + ${day} - 719469) * 86400")
endif()
# CMake takes the time from the environment here, and changes nothing of the caller's.
set(caller_epoch "$ENV{SOURCE_DATE_EPOCH}")
set(ENV{SOURCE_DATE_EPOCH} ${JARFUL_EPOCH})
string(TIMESTAMP JARFUL_DATE "%Y-%m-%d" UTC)
string(TIMESTAMP JARFUL_CHANGELOG_DATE "%a, %d %b %Y %H:%M:%S +0000" UTC)
if(caller_epoch STREQUAL "")
  unset(ENV{SOURCE_DATE_EPOCH})
endif()
