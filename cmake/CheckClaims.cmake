# Finds words that promise what geometry cannot: cmake -DSOURCE=... [-DPROGRAM=...] -P CheckClaims.cmake
# That a toy is safe, certified, approved, or keeps to a standard. Looked at: what the sources say to their user,
# README files, resources; with PROGRAM also what a check of the tug with --print says and writes.
cmake_minimum_required(VERSION 3.25)

# Each needs a letter-free place before it. Standards are named as what a figure rests on, never as what is kept.
set(STANDARD "(the )?(en [0-9]|iso [0-9]|astm|16 cfr|cpsia|toy safety|safety standard|standards?([^a-z]|$)|requirements of)")
set(CLAIMS
  "(is|are|be|makes? (it|them)|proven|perfectly|completely|totally|now|child|toy|kid|baby)[ -]safe([^a-z]|$)"
  "safe (for|to) (a |the |any |small |young |all )?(child|children|kids|toddler|baby|babies|play|use|sell|chew|swallow)"
  "certif(y|ies|ied|icate|ication)"
  "conform(s|ed|ing|ity|ance)?([^a-z]|$)"
  "(comply|complies|complied|complying|compliant|compliance)([^a-z]|$)"
  "approved([^a-z]|$)"
  "(meet|meets|met|pass|passes|passed|satisfy|satisfies|satisfied|fulfil|fulfils|fulfilled) ${STANDARD}"
  "in accordance with ${STANDARD}"
  "(harmless|no danger|not dangerous|without risk|risk-free|no risk)"
  "(suitable|fit) for (a |the |any |small |young |all )?(child|children|kids|toddlers|babies)")
# What denies one. Taken out before looking, so that the same sentence may not claim another thing.
set(DENIALS
  "certif(y|ies) nothing"
  "nothing certified"
  "whether a toy is safe"
  "say nothing of a toy.s safety")

# FOUND: the first claim in TEXT with what stands round it, or nothing.
function(find_claim TEXT FOUND)
  string(TOLOWER " ${TEXT} " TEXT)
  string(REGEX REPLACE "[ \t\r\n]+" " " TEXT "${TEXT}")
  foreach(DENIAL ${DENIALS})
    string(REGEX REPLACE "${DENIAL}" "" TEXT "${TEXT}")
  endforeach()
  set(${FOUND} "" PARENT_SCOPE)
  foreach(CLAIM IN LISTS CLAIMS)
    if(TEXT MATCHES "[^a-z](${CLAIM})")
      string(FIND "${TEXT}" "${CMAKE_MATCH_1}" AT)
      math(EXPR FROM "${AT} - 60")
      if(FROM LESS 0)
        set(FROM 0)
      endif()
      string(SUBSTRING "${TEXT}" ${FROM} 140 AROUND)
      set(${FOUND} "${CMAKE_MATCH_1}: ...${AROUND}..." PARENT_SCOPE)
      return()
    endif()
  endforeach()
endfunction()

# It has to find what is planted, and to leave alone what is not claimed.
foreach(PLANTED
    "This toy is safe." "A child-safe figure" "All parts are safe to use" "It conforms to EN 71." "Complies with ASTM F963"
    "Certified for sale" "approved by the laboratory" "the head meets EN 71-1" "It passes the standards of the place of sale"
    "It certifies nothing, and is certified." "CE conformity" "passes 16 CFR 1501.4" "suitable for small children")
  find_claim("${PLANTED}" FOUND)
  if(NOT FOUND)
    message(FATAL_ERROR "The check of claims lets pass: ${PLANTED}")
  endif()
endforeach()
foreach(HARMLESS
    "These are hints on geometry as modelled, they certify nothing." "Whether a toy is safe is decided by laboratories."
    "Safe from several threads." "it passes through the hole" "passes a hole of 44.45 mm diameter (16 CFR 1117.2)"
    "36 of 40 parts go wholly into the small-parts cylinder (16 CFR 1501.4)" "the arm meets the torso")
  find_claim("${HARMLESS}" FOUND)
  if(FOUND)
    message(FATAL_ERROR "The check of claims takes for one: ${HARMLESS}")
  endif()
endforeach()

set(WRONG "")
set(COUNT 0)
function(check_file FILE NAME)
  file(READ ${FILE} TEXT)
  string(REPLACE ";" "," TEXT "${TEXT}")
  if(FILE MATCHES "\\.(cpp|h)$")
    string(REGEX REPLACE "//[^\n]*" "" TEXT "${TEXT}")
    # One text over several lines.
    string(REGEX REPLACE "\"[ \t\r\n]*\"" "" TEXT "${TEXT}")
  elseif(FILE MATCHES "\\.html$")
    string(REGEX REPLACE "data:image/png.base64,[^\"]*" "" TEXT "${TEXT}")
    string(REGEX REPLACE "<[^>]*>" " " TEXT "${TEXT}")
  endif()
  find_claim("${TEXT}" FOUND)
  if(FOUND)
    set(WRONG ${WRONG} "${NAME}: ${FOUND}" PARENT_SCOPE)
  endif()
endfunction()

file(GLOB_RECURSE FILES RELATIVE ${SOURCE}
     ${SOURCE}/app/*.cpp ${SOURCE}/app/*.h ${SOURCE}/core/*.cpp ${SOURCE}/core/*.h ${SOURCE}/resources/*
     ${SOURCE}/sample_assemblies/*.md ${SOURCE}/sample_assemblies/*.json ${SOURCE}/README.md)
list(FILTER FILES EXCLUDE REGEX "\\.(png|stl|3mf|obj|ply|ttf|ico)$")
foreach(FILE ${FILES})
  check_file(${SOURCE}/${FILE} ${FILE})
endforeach()
list(LENGTH FILES COUNT)

if(PROGRAM)
  string(RANDOM LENGTH 12 NAME)
  set(FOLDER "$ENV{TMPDIR}")
  if(NOT FOLDER)
    set(FOLDER /tmp)
  endif()
  set(FOLDER ${FOLDER}/swingroom-claims-${NAME})
  file(MAKE_DIRECTORY ${FOLDER})
  execute_process(
    COMMAND ${CMAKE_COMMAND} -E env XDG_CONFIG_HOME=${FOLDER}/config XDG_DATA_HOME=${FOLDER}/data
            ${PROGRAM} check ${SOURCE}/sample_assemblies/harbour_tug/harbour_tug.swing.json --print --no-cache
            --no-history --report ${FOLDER}/report
    OUTPUT_FILE ${FOLDER}/said.txt ERROR_FILE ${FOLDER}/errors.txt RESULT_VARIABLE EXIT)
  if(NOT EXISTS ${FOLDER}/report/report.html)
    message(FATAL_ERROR "The tug could not be checked: ${EXIT}")
  endif()
  foreach(FILE said.txt errors.txt report/report.html report/report.json)
    check_file(${FOLDER}/${FILE} "of a check: ${FILE}")
  endforeach()
  file(REMOVE_RECURSE ${FOLDER})
endif()

if(WRONG)
  list(JOIN WRONG "\n" WRONG)
  message(FATAL_ERROR "A promise that nobody can keep:\n${WRONG}")
endif()
message(STATUS "${COUNT} files promise nothing")
