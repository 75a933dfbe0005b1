# Puts files into the program, so that it finds its assets wherever it is installed.
#
#   plumbline_embed(<target> NAMESPACE <a::b> FUNCTION <name> FILES <asset name>=<path> ...)
#
# writes, at build time and again whenever one of the files changes, a source that defines
#
#   std::optional<std::string_view> a::b::name(std::string_view asset_name);
#
# and adds it to <target>. The caller declares that function in a header of its own. The view holds the file's bytes exactly, lasts
# as long as the program, starts at a multiple of 16 bytes and is followed by a zero byte; an unknown name gives nullopt.
# Relative paths count from the current source folder. Call it from the CMakeLists.txt that makes <target>, which must have sources
# already (not be an INTERFACE library). 1 MB of bytes costs half a second to compile.
#
# example:  plumbline_embed(plumbline_load NAMESPACE plumbline::load FUNCTION embeddedAsset
#               FILES demo.routine.toml=${CMAKE_SOURCE_DIR}/assets/demo.routine.toml)
find_package(Python3 REQUIRED COMPONENTS Interpreter)
set(PLUMBLINE_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_DIR}/embed.py)

function(plumbline_embed target)
  cmake_parse_arguments(PARSE_ARGV 1 ARG "" "NAMESPACE;FUNCTION" "FILES")
  if(NOT ARG_NAMESPACE OR NOT ARG_FUNCTION OR NOT ARG_FILES OR ARG_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "plumbline_embed(<target> NAMESPACE n FUNCTION f FILES name=path ...), got: ${ARGN}")
  endif()
  set(assets)
  set(paths)
  foreach(asset IN LISTS ARG_FILES)
    if(NOT asset MATCHES "^([^=]+)=(.+)$")
      message(FATAL_ERROR "plumbline_embed: '${asset}' is not <asset name>=<path>")
    endif()
    set(name ${CMAKE_MATCH_1})
    get_filename_component(path ${CMAKE_MATCH_2} ABSOLUTE)
    list(APPEND assets ${name}=${path})
    list(APPEND paths ${path})
  endforeach()
  set(output ${CMAKE_CURRENT_BINARY_DIR}/${target}_${ARG_FUNCTION}.cc)
  add_custom_command(OUTPUT ${output}
    COMMAND ${Python3_EXECUTABLE} ${PLUMBLINE_EMBED_SCRIPT} ${output} ${ARG_NAMESPACE} ${ARG_FUNCTION} ${assets}
    DEPENDS ${PLUMBLINE_EMBED_SCRIPT} ${paths} COMMENT "Embedding ${ARG_FUNCTION} into ${target}" VERBATIM)
  target_sources(${target} PRIVATE ${output})
  # Literals longer than the standard's minimum of 65535 characters are fine with every compiler used here.
  set_source_files_properties(${output} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
endfunction()
