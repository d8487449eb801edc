# What a Debian package wants beyond what is installed, done to the tree that is about to be packed:
# a changelog, and manual and changelog compressed without a time stamp.

cmake_minimum_required(VERSION 3.20)

find_program(GZIP gzip REQUIRED)
find_program(GIT git)

set(sources "")
set(day "Thu, 01 Jan 1970 00:00:00 +0000")
if(GIT AND EXISTS "${CPACK_KARTWRIGHT_SOURCE}/.git")
  execute_process(COMMAND "${GIT}" -C "${CPACK_KARTWRIGHT_SOURCE}" describe --tags --dirty --always
                  OUTPUT_VARIABLE sources OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
  execute_process(COMMAND "${GIT}" -C "${CPACK_KARTWRIGHT_SOURCE}" log -1 --format=%cD
                  OUTPUT_VARIABLE day OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
  set(sources ", from ${sources}")
endif()

set(share "${CPACK_TEMPORARY_INSTALL_DIRECTORY}${CPACK_PACKAGING_INSTALL_PREFIX}/share")
set(changelog "${share}/doc/kartwright/changelog.Debian")
file(WRITE "${changelog}"
"kartwright (${CPACK_PACKAGE_VERSION}-${CPACK_DEBIAN_PACKAGE_RELEASE}) unstable; urgency=medium

  * Version ${CPACK_PACKAGE_VERSION}${sources}.

 -- ${CPACK_PACKAGE_CONTACT}  ${day}
")
file(GLOB pages "${share}/man/man1/*.1")
execute_process(COMMAND "${GZIP}" -9nf ${pages} "${changelog}" COMMAND_ERROR_IS_FATAL ANY)
