# How the fuzzers are compiled: all of the engine watched for new edges, for addresses and for
# undefined behaviour; or, for COVER, counted line by line. Read by the CMakeLists.txt of the root.

if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
  message(FATAL_ERROR "the fuzzers are built by clang: `sh tests/fuzz.sh` does it")
endif()
if(KARTWRIGHT_FUZZ STREQUAL "COVER")
  set(watching -fprofile-instr-generate -fcoverage-mapping)
else()
  set(watching -fsanitize=fuzzer-no-link,address,undefined
               -fno-sanitize=null,alignment,vptr,pointer-overflow
               -fno-sanitize-recover=all -fno-omit-frame-pointer
               "-fsanitize-ignorelist=${CMAKE_CURRENT_LIST_DIR}/unwatched.txt"
               "-fsanitize-coverage-ignorelist=${CMAKE_CURRENT_LIST_DIR}/unwatched.txt")
endif()
set(CMAKE_CXX_FLAGS_RELEASE "-O1")  # with asserts
add_compile_options(${watching} -w)                    # warnings are the other build's
add_link_options(${watching})
set(CMAKE_UNITY_BUILD ON)

# What no target calls is not compiled; where one comes to call it, the linker says what is missing.
set(fuzzed_without
    "/engine/practice/"
    "/advice/(answer_reader|asking|day|interview)"
    "/audit/(advice_difference|audit|cases|difference|propert|rule_difference|rule_page)"
    "/audit/(same_answer|scenario_folder|try_)"
    "/decision/day_")
list(JOIN fuzzed_without "|" fuzzed_without)
