# The window's words for translators: cmake --build build/release --target words, then
# linguist build/release/swingroom_xx.ts. Needs lupdate (Debian: qt6-l10n-tools); without it there is no such target.
# A finished swingroom_LANGUAGE.qm is read from translations/ beside the program.
find_program(LUPDATE lupdate HINTS /usr/lib/qt6/bin)
if(LUPDATE)
  add_custom_target(words
    COMMAND ${LUPDATE} -silent -no-obsolete -I ${CMAKE_SOURCE_DIR} ${CMAKE_SOURCE_DIR}/app -ts ${CMAKE_BINARY_DIR}/swingroom_xx.ts
    COMMENT "Collecting the window's words in swingroom_xx.ts" VERBATIM)
endif()
