# Headers that are read once for many files instead of once a file. Files include what they use all the same: without these
# (LOBEWISE_PCH=OFF) everything compiles as well, only longer.
set(LOBEWISE_LIGHT_HEADERS <algorithm> <array> <cmath> <cstdint> <functional> <limits> <map> <memory> <optional> <span> <string>
    <string_view> <utility> <vector> <fmt/format.h>)
# In <>: the file is then the same in every clone, and so the compiler cache's.
set(LOBEWISE_JSON_HEADERS ${LOBEWISE_LIGHT_HEADERS} <fmt/ranges.h> <fstream> <nlohmann/json.hpp> <engine/api/json_instances.h>)
set(LOBEWISE_TEST_HEADERS ${LOBEWISE_LIGHT_HEADERS} <fstream> <gtest/gtest.h>)

# lobewise_headers(TARGET HEADER…), or lobewise_headers(TARGET REUSE_FROM OTHER) where both are compiled with the same options.
# The compiler cache cannot use a precompiled header that is new by its date alone.
if(CMAKE_CXX_COMPILER_ID STREQUAL Clang)
  set(CMAKE_PCH_INSTANTIATE_TEMPLATES ON)
  add_compile_options("SHELL:-Xclang -fno-pch-timestamp")
endif()

function(lobewise_headers target first)
  if(NOT LOBEWISE_PCH)
    return()
  endif()
  if(first STREQUAL REUSE_FROM)
    target_precompile_headers(${target} REUSE_FROM ${ARGN})
  else()
    target_precompile_headers(${target} PRIVATE ${first} ${ARGN})
  endif()
endfunction()
