# What every target of ours is compiled with.

find_program(CCACHE ccache)
if(CCACHE)
  # Without these ccache leaves files with a precompiled header alone.
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CMAKE_COMMAND} -E env CCACHE_SLOPPINESS=pch_defines,time_macros ${CCACHE})
endif()

set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG")

add_library(swingroom_options INTERFACE)
target_include_directories(swingroom_options INTERFACE ${CMAKE_SOURCE_DIR})
target_compile_options(swingroom_options INTERFACE -Wall -Wextra -Wshadow -Wconversion -Wno-sign-conversion
                       -Wno-restrict)  # GCC 12 sees overlaps in std::string that are not there.
# One alignment for the whole project: FCL's types change layout with Eigen's alignment.
# No fused multiply-add: the same bytes must come out on every x86-64 machine.
target_compile_definitions(swingroom_options INTERFACE EIGEN_MAX_ALIGN_BYTES=16)
target_compile_options(swingroom_options INTERFACE -ffp-contract=off -fpch-preprocess)

# Core's own files only: instrumenting the tests too would triple the time to build them and find no more.
add_library(swingroom_sanitizers INTERFACE)
if(SWINGROOM_SANITIZE)
  target_compile_options(swingroom_sanitizers INTERFACE -fsanitize=${SWINGROOM_SANITIZE}
                         -fno-omit-frame-pointer -fno-sanitize-recover=all)
  if(SWINGROOM_SANITIZE MATCHES undefined)
    # Compiles in a third of the time. What is null ends in the address sanitizer anyway, and x86-64 reads what
    # is not aligned; the others of these find nothing in code without casts of objects.
    target_compile_options(swingroom_sanitizers INTERFACE -O1
                           -fno-sanitize=null,alignment,object-size,pointer-overflow,vptr)
  endif()
  target_link_options(swingroom_options INTERFACE -fsanitize=${SWINGROOM_SANITIZE})
  target_compile_definitions(swingroom_options INTERFACE SWINGROOM_SANITIZED)
endif()
