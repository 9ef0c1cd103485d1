# One hash over all of FILES into the header OUT: cmake -DFILES=... -DOUT=... -P EngineText.cmake
cmake_minimum_required(VERSION 3.25)
set(ALL "")
foreach(FILE ${FILES})
  file(SHA256 ${FILE} HASH)
  string(APPEND ALL ${HASH})
endforeach()
string(SHA256 HASH "${ALL}")
file(WRITE ${OUT} "#define SWINGROOM_ENGINE_TEXT \"${HASH}\"\n")
