# Emscripten of Debian's main archive (docs/decisions: it compiles C++20 with exceptions; no std::format, no from_chars(double)).
# Header-only libraries are taken through private links: adding /usr/include itself would mix the host's C library in.

# The compiler's own scripts need Debian's node modules, and the node in use need not be Debian's.
set(ENV{NODE_PATH} /usr/share/nodejs)
set(CMAKE_CXX_LINKER_LAUNCHER env NODE_PATH=/usr/share/nodejs)
find_program(CCACHE ccache)
if(CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER env NODE_PATH=/usr/share/nodejs CCACHE_COMPILERTYPE=clang
      CCACHE_SLOPPINESS=pch_defines,time_macros CCACHE_BASEDIR=${CMAKE_SOURCE_DIR} ${CCACHE})
endif()

include(/usr/share/emscripten/cmake/Modules/Platform/Emscripten.cmake)

set(LOBEWISE_WASM_INCLUDE ${CMAKE_BINARY_DIR}/wasm_include)
file(MAKE_DIRECTORY ${LOBEWISE_WASM_INCLUDE})
foreach(library nlohmann fmt fast_float)
  file(CREATE_LINK /usr/include/${library} ${LOBEWISE_WASM_INCLUDE}/${library} SYMBOLIC)
endforeach()
foreach(package Eigen3 fmt nlohmann_json)
  set(${package}_DIR ${CMAKE_CURRENT_LIST_DIR}/wasm)
endforeach()
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)

set(CMAKE_CXX_FLAGS_INIT "-fwasm-exceptions -msimd128")
