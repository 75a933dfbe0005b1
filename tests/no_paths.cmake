# The project stands alone: no file names a place outside the checkout.
# usage: cmake -DROOT=<checkout> -P tests/no_paths.cmake
cmake_minimum_required(VERSION 3.25)
# The brackets keep this file from finding itself.
execute_process(COMMAND git -C ${ROOT} grep -nIE "(^|[^a-zA-Z0-9_.])/wor[k]/|\\.\\./share[d]|/(home|Users)/[a-z]+/" -- .
  OUTPUT_VARIABLE found RESULT_VARIABLE result)
if(result EQUAL 0)
  message(FATAL_ERROR "places outside the project:\n${found}")
elseif(result GREATER 1)
  message(STATUS "not a git checkout: nothing looked at")
endif()
