# The program for Windows, tried under Wine: the engine's tests, but for those that read pages back with Poppler or need processes of
# POSIX, and the program as its users run it, out of the archive (target zip), beside the native one.
set(PLUMBLINE_NATIVE ${CMAKE_SOURCE_DIR}/build/release/bin/plumbline CACHE FILEPATH "native program to compare with")
target_compile_definitions(plumbline_test_settings INTERFACE _USE_MATH_DEFINES)  # M_PI, which POSIX has
find_package(TinyGLTF REQUIRED)
add_subdirectory(figures)
foreach(layer IN ITEMS system base page units math earth data text routine path fly estimate record score load variant check margins review
    season walk brief sheets out cli)
  file(GLOB all CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/engine/${layer}/*.cc)
  set(sources)
  foreach(source IN LISTS all)
    file(STRINGS ${source} of_this_system REGEX "read_back.h|<sys/|<unistd")
    if(NOT of_this_system)
      list(APPEND sources ${source})
    endif()
  endforeach()
  if(sources)
    plumbline_add_test(test_${layer} unit SOURCES ${sources}
      LIBRARIES plumbline_${layer} plumbline_load plumbline_figures TinyGLTF::TinyGLTF pugixml::pugixml)
  endif()
endforeach()
file(GLOB demo ${CMAKE_SOURCE_DIR}/assets/demo/*.routine.toml)
add_test(NAME solves_as_native COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_SOURCE_DIR}/compare_paths.py
  ${demo} ${PLUMBLINE_NATIVE} -- ${CMAKE_CROSSCOMPILING_EMULATOR} $<TARGET_FILE:plumbline>)
set_tests_properties(solves_as_native PROPERTIES LABELS cli TIMEOUT 300)
if(PLUMBLINE_VIEWER)
  add_test(NAME windows_program COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/windows/program
    ${CMAKE_BINARY_DIR}/plumbline-${PROJECT_VERSION}-windows.zip ${PLUMBLINE_NATIVE}
    ${CMAKE_CURRENT_BINARY_DIR}/program)
  add_test(NAME windows_window COMMAND ${CMAKE_CURRENT_SOURCE_DIR}/windows/window $<TARGET_FILE_DIR:plumbline> ${PLUMBLINE_NATIVE}
    ${CMAKE_CURRENT_BINARY_DIR}/window)
  set_tests_properties(windows_program windows_window PROPERTIES LABELS cli TIMEOUT 400 RUN_SERIAL ON)  # each begins Wine anew
endif()
