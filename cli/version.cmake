# Writes OUTPUT, the source that holds VERSION and what `git describe` says of SOURCE_DIR. Run at
# every build, so that it is never stale; the file is touched only where it would be another one.
#   cmake -DSOURCE_DIR=... -DVERSION=... -DOUTPUT=... -P version.cmake

cmake_minimum_required(VERSION 3.20)

set(sources "")
set(day "")
find_program(GIT git)
# A source archive that lies within somebody else's repository is not described by that one.
if(GIT AND EXISTS "${SOURCE_DIR}/.git")
  execute_process(
    COMMAND "${GIT}" -C "${SOURCE_DIR}" describe --tags --dirty --always
    OUTPUT_VARIABLE sources
    OUTPUT_STRIP_TRAILING_WHITESPACE
    ERROR_QUIET)
  execute_process(
    COMMAND "${GIT}" -C "${SOURCE_DIR}" log -1 --format=%cs
    OUTPUT_VARIABLE day
    OUTPUT_STRIP_TRAILING_WHITESPACE
    ERROR_QUIET)
endif()
if(NOT sources MATCHES "^[A-Za-z0-9._+/-]*$")
  set(sources "")
endif()
if(NOT day MATCHES "^[0-9-]*$")
  set(day "")
endif()
file(CONFIGURE OUTPUT "${OUTPUT}" CONTENT
"#include \"cli/version.h\"

namespace kartwright::cli {

const char* const kVersion = \"@VERSION@\";
const char* const kSources = \"@sources@\";
const char* const kDay = \"@day@\";

}  // namespace kartwright::cli
" @ONLY)
