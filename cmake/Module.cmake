# Reading Eigen and the standard headers costs more than compiling most files: done once, for all of ours.
find_package(Eigen3 REQUIRED)
file(WRITE ${CMAKE_BINARY_DIR}/precompiled.cpp "")
add_library(swingroom_precompiled STATIC ${CMAKE_BINARY_DIR}/precompiled.cpp)
target_link_libraries(swingroom_precompiled PRIVATE swingroom_options swingroom_sanitizers Eigen3::Eigen)
target_precompile_headers(swingroom_precompiled PRIVATE <Eigen/Geometry> <algorithm> <filesystem> <functional> <map>
                          <memory> <optional> <random> <string> <vector>)

# swingroom_module(NAME [USES module...] [PRIVATE library...])
# One folder of core or app = one static library. USES names our own modules and is public;
# PRIVATE names third-party libraries that only the .cpp files see.
function(swingroom_module NAME)
  cmake_parse_arguments(ARG "" "" "USES;PRIVATE;PUBLIC" ${ARGN})
  file(GLOB SOURCES CONFIGURE_DEPENDS *.cpp)
  if(NOT SOURCES)
    file(WRITE ${CMAKE_CURRENT_BINARY_DIR}/empty.cpp "")
    set(SOURCES ${CMAKE_CURRENT_BINARY_DIR}/empty.cpp)
  endif()
  add_library(swingroom_${NAME} STATIC ${SOURCES})
  target_link_libraries(swingroom_${NAME} PUBLIC swingroom_options ${ARG_PUBLIC})
  target_precompile_headers(swingroom_${NAME} REUSE_FROM swingroom_precompiled)
  foreach(OTHER ${ARG_USES})
    target_link_libraries(swingroom_${NAME} PUBLIC swingroom_${OTHER})
  endforeach()
  target_link_libraries(swingroom_${NAME} PRIVATE $<BUILD_INTERFACE:swingroom_sanitizers> ${ARG_PRIVATE})
endfunction()

# swingroom_test(NAME LABEL label SOURCES file... USES module... [PRIVATE library...])
# One test program; its cases are found when the tests are run, so that building stays quick.
function(swingroom_test NAME)
  cmake_parse_arguments(ARG "" "LABEL" "SOURCES;USES;PRIVATE" ${ARGN})
  add_executable(${NAME} ${ARG_SOURCES})
  # In a unity build: files of one folder together, so that only their names must differ.
  set_target_properties(${NAME} PROPERTIES UNITY_BUILD_MODE GROUP)
  foreach(SOURCE ${ARG_SOURCES})
    get_filename_component(FOLDER ${SOURCE} DIRECTORY)
    string(MAKE_C_IDENTIFIER "${FOLDER}" GROUP)
    set_source_files_properties(${SOURCE} PROPERTIES UNITY_GROUP ${NAME}${GROUP})
  endforeach()
  target_precompile_headers(${NAME} REUSE_FROM swingroom_test_support)
  target_compile_options(${NAME} PRIVATE $<$<CONFIG:Release>:-O1>)  # As its precompiled header.
  target_link_libraries(${NAME} PRIVATE swingroom_options swingroom_test_support GTest::gtest_main
                        ${ARG_PRIVATE})
  foreach(OTHER ${ARG_USES})
    target_link_libraries(${NAME} PRIVATE swingroom_${OTHER})
  endforeach()
  gtest_discover_tests(${NAME} DISCOVERY_MODE PRE_TEST DISCOVERY_TIMEOUT 60 
                       PROPERTIES TIMEOUT 600 LABELS ${ARG_LABEL})
endfunction()
