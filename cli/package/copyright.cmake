# Writes the package's copyright file: the project's own licence, and those of what is compiled in, as
# they came with each library.
#   cmake -D out=FILE -D licence=FILE -D "muparser=FOLDER or empty" -D "page=FILE or empty" -P copyright.cmake
file(READ ${licence} own)
set(text "Jarful\n======\n\n${own}\n
The program has other people's work compiled into it. What follows are their
licences, as they came with it.
")

function(part title licence file)
  string(REGEX REPLACE "." "=" line "${title}")
  if(EXISTS "${file}")
    file(READ "${file}" words)
  else()
    message(WARNING "The licence of ${title} is not at ${file}")
    set(words "${licence}\n")
  endif()
  set(text "${text}\n${title}\n${line}\n\n${words}" PARENT_SCOPE)
endfunction()

if(muparser)
  part("muParser" "BSD, two clauses." "${muparser}/LICENSE")
endif()
part("gumbo-parser" "Apache License, version 2.0." /usr/share/doc/libgumbo-dev/copyright)
part("utf8proc" "MIT, and the licence of Unicode's data." /usr/share/doc/libutf8proc-dev/copyright)
part("JSON for Modern C++" "MIT." /usr/share/doc/nlohmann-json3-dev/copyright)
part("CLI11" "BSD, three clauses." /usr/share/doc/libcli11-dev/copyright)
part("fast_float" "Apache 2.0, MIT or Boost." /usr/share/doc/libfast-float-dev/copyright)
if(page)
  # Compiled by Emscripten (MIT) with its C and C++ libraries. LLVM's licence asks for no notice in
  # compiled code; musl's does.
  part("musl, in the engine for pages" "MIT." /usr/share/emscripten/system/lib/libc/musl/COPYRIGHT)
endif()
set(text "${text}
Boost, fmt and the C++ library
==============================

What they bring to a program in machine code asks for no notice there: the Boost
Software License 1.0, MIT with fmt's exception for compiled code, and GPL 3 with
the GCC Runtime Library Exception 3.1. With their packages for developers come
the whole texts: libboost-dev, libfmt-dev, libstdc++-dev.
")
file(WRITE ${out} "${text}")
