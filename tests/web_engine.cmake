# The engine compiled for a browser, run under Node: solves the demo and compares the path with that of the native program.
set(PLUMBLINE_NATIVE ${CMAKE_SOURCE_DIR}/build/release/bin/plumbline CACHE FILEPATH "native program to compare with")
file(GLOB demo ${CMAKE_SOURCE_DIR}/assets/demo/*.routine.toml)
add_test(NAME web_engine_solves_as_native COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_SOURCE_DIR}/compare_paths.py
  ${demo} ${PLUMBLINE_NATIVE} -- ${CMAKE_CROSSCOMPILING_EMULATOR} $<TARGET_FILE:plumbline>)
set_tests_properties(web_engine_solves_as_native PROPERTIES LABELS cli TIMEOUT 300)
