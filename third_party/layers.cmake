# With CMAKE_UNITY_BUILD (presets of which nobody compiles one file again and again) the sources of these layers are compiled several at a
# time: what costs is the headers they share. Each name in their unnamed namespaces must be alone in its layer.
set(PLUMBLINE_COMPILED_TOGETHER plumbline_cli plumbline_record plumbline_viewer_model plumbline_viewer_ui plumbline_viewer_app)

# Reads a LAYERS file: for each "folder: uses..." line, one static library <prefix>_<folder> from the folder's sources,
# linked to those it may use. A folder with headers only becomes an interface library; its main.cc, if any, is left out.
function(plumbline_read_layers file out_names)
  file(STRINGS ${file} lines REGEX "^[a-z]")
  set(names)
  foreach(line IN LISTS lines)
    string(REGEX MATCH "^([a-z]+):(.*)$" _ "${line}")
    set(name ${CMAKE_MATCH_1})
    string(STRIP "${CMAKE_MATCH_2}" uses)
    string(REPLACE " " ";" uses "${uses}")
    list(APPEND names ${name})
    set(LAYER_${name}_USES "${uses}" PARENT_SCOPE)
  endforeach()
  set(${out_names} "${names}" PARENT_SCOPE)
endfunction()

function(plumbline_add_layer prefix name uses)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cc)
  list(FILTER sources EXCLUDE REGEX "/main\\.cc$")  # main() is the program's own; see plumbline_add_program
  # A browser has none of these systems and libraries; name_web.cc stands for name.cc and name_LIBRARY.cc there.
  file(GLOB web_sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*_web.cc)
  list(REMOVE_ITEM sources ${web_sources} "")
  if(EMSCRIPTEN)
    list(FILTER sources EXCLUDE REGEX "_(glfw|sdl|xdg|egl|sndfile|cairo|sqlite)\\.cc$")
    foreach(source IN LISTS web_sources)
      string(REGEX REPLACE "_web\\.cc$" ".cc" native ${source})
      list(REMOVE_ITEM sources ${native})
    endforeach()
    list(APPEND sources ${web_sources})
  endif()
  # name_windows.cc stands, on Windows alone, for name_LIBRARY.cc of what it has none of.
  if(WIN32)
    list(FILTER sources EXCLUDE REGEX "_(sdl|xdg|egl)\\.cc$")
  else()
    list(FILTER sources EXCLUDE REGEX "_windows\\.cc$")
  endif()
  set(target plumbline_${prefix}${name})
  if(sources)
    add_library(${target} STATIC ${sources})
    set(scope PUBLIC)
    if(NOT target IN_LIST PLUMBLINE_COMPILED_TOGETHER)
      set_target_properties(${target} PROPERTIES UNITY_BUILD OFF)
    endif()
    target_link_libraries(${target} PRIVATE plumbline_warnings)
    # cli has headers of its own; in routine a name of the standard library's would stand before one of ours.
    if(TARGET plumbline_common_headers AND NOT target MATCHES "^plumbline_(cli|routine)$")
      target_precompile_headers(${target} REUSE_FROM plumbline_common_headers)
    endif()
  else()
    add_library(${target} INTERFACE)
    set(scope INTERFACE)
  endif()
  target_include_directories(${target} ${scope} ${CMAKE_SOURCE_DIR})
  # A file set, so that CMAKE_VERIFY_INTERFACE_HEADER_SETS can compile each header alone.
  file(GLOB headers CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.h)
  if(headers)
    target_sources(${target} ${scope} FILE_SET HEADERS BASE_DIRS ${CMAKE_SOURCE_DIR} FILES ${headers})
  endif()
  foreach(used IN LISTS uses)
    if(used STREQUAL "engine")
      target_link_libraries(${target} ${scope} plumbline::engine)
    elseif(used MATCHES "^engine/(.*)$")
      target_link_libraries(${target} ${scope} plumbline_${CMAKE_MATCH_1})
    else()
      target_link_libraries(${target} ${scope} plumbline_${prefix}${used})
    endif()
  endforeach()
endfunction()

# The program: main.cc of a layer, linked to that layer.
function(plumbline_add_program target prefix name)
  add_executable(${target} ${CMAKE_CURRENT_SOURCE_DIR}/${name}/main.cc)
  target_link_libraries(${target} PRIVATE plumbline_${prefix}${name} plumbline_warnings)
endfunction()

# Sources of a layer that are not compiled where something is missing; names without ".cc".
function(plumbline_leave_out target)
  list(JOIN ARGN "|" names)
  get_target_property(sources ${target} SOURCES)
  list(FILTER sources EXCLUDE REGEX "/(${names})\\.cc$")
  set_property(TARGET ${target} PROPERTY SOURCES ${sources})
endfunction()

# The contrary: no others are.
function(plumbline_keep_only target)
  list(JOIN ARGN "|" names)
  get_target_property(sources ${target} SOURCES)
  list(FILTER sources INCLUDE REGEX "/(${names})\\.cc$|^${CMAKE_BINARY_DIR}/")  # what was made (embedded files) stays
  set_property(TARGET ${target} PROPERTY SOURCES ${sources})
endfunction()
