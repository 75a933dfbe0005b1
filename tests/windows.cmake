# The program for Windows, tried under Wine: the engine's tests (those of pages and figures need libraries of this system's), and the
# program as its users run it, beside the native one.
set(PLUMBLINE_NATIVE ${CMAKE_SOURCE_DIR}/build/release/bin/plumbline CACHE FILEPATH "native program to compare with")
target_compile_definitions(plumbline_test_settings INTERFACE _USE_MATH_DEFINES)  # M_PI, which POSIX has
foreach(layer IN ITEMS system base units math earth data text routine path load season record check cli)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/engine/${layer}/*.cc)
  # With processes of POSIX, with pages read back, with simulated flights, with tables written.
  list(FILTER sources EXCLUDE REGEX "/(hard_times|trend_plot|sensor_path|bank_from_path|placeless_path)_test\\.cc$")
  if(sources)
    plumbline_add_test(test_${layer} unit SOURCES ${sources} LIBRARIES plumbline_${layer})
  endif()
endforeach()
file(GLOB demo ${CMAKE_SOURCE_DIR}/assets/demo/*.routine.toml)
add_test(NAME solves_as_native COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_SOURCE_DIR}/compare_paths.py
  ${demo} ${PLUMBLINE_NATIVE} -- ${CMAKE_CROSSCOMPILING_EMULATOR} $<TARGET_FILE:plumbline>)
set_tests_properties(solves_as_native PROPERTIES LABELS cli TIMEOUT 300)
if(PLUMBLINE_VIEWER)
  add_test(NAME windows_program COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/windows/program $<TARGET_FILE_DIR:plumbline> ${PLUMBLINE_NATIVE}
    ${CMAKE_CURRENT_BINARY_DIR}/program)
  add_test(NAME windows_window COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/windows/window $<TARGET_FILE_DIR:plumbline> ${PLUMBLINE_NATIVE}
    ${CMAKE_CURRENT_BINARY_DIR}/window)
  set_tests_properties(windows_program windows_window PROPERTIES LABELS cli TIMEOUT 400 RUN_SERIAL ON)  # each begins Wine anew
endif()
