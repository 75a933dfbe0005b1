# Fails on any source of ours that clang-format 14 would change. Mend with: clang-format-14 -i FILE
# usage: cmake -DROOT=<checkout> -DCLANG_FORMAT=<program> -P tests/format.cmake
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE sources ${ROOT}/engine/*.h ${ROOT}/engine/*.cc ${ROOT}/viewer/*.h ${ROOT}/viewer/*.cc ${ROOT}/tests/*.h
  ${ROOT}/tests/*.cc)
execute_process(COMMAND ${CLANG_FORMAT} --dry-run -Werror ${sources} RESULT_VARIABLE result ERROR_VARIABLE said)
if(NOT result EQUAL 0)
  message("${said}")
  message(FATAL_ERROR "not as clang-format 14 writes it; mend with: clang-format-14 -i FILE")
endif()
