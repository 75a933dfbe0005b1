# Reads engine/LAYERS and viewer/LAYERS, scans every #include of our own sources and fails on any that points up or sideways,
# or that brings a third-party library where it does not belong.
# usage: cmake -DROOT=<checkout> -P tests/layers.cmake
cmake_minimum_required(VERSION 3.25)

# Pairs: what an include looks like; which files may have it.
set(third_party_rules
  "^glad/gl\\.h$" "^viewer/render/"
  "^glad/egl\\.h$" "^viewer/platform/"
  "^(GLFW|EGL)/" "^viewer/platform/"
  "^(imgui|backends/imgui)" "^viewer/(ui|app)/"
  "^(tiny_gltf|stb_)" "^viewer/"
  "^(cairo|hb\\.h|hb-|fribidi)" "^engine/page/.*\\.cc$"
  "^sqlite3\\.h$" "^engine/season/.*\\.cc$"
  "^(Eigen|unsupported/Eigen)/" "^engine/estimate/"
  "^(toml\\+\\+|pugixml)" "\\.cc$"
  "^nlohmann" "\\.cc$|^engine/out/gltf_document\\.h$"  # the one whose content is JSON
  "^CLI/" "^engine/cli/"
  "^(unistd\\.h|fcntl\\.h|windows\\.h|sys/)" "^(engine/system|viewer/platform)/"
  "^(thread|mutex|condition_variable|future)$" "^(engine/system|viewer)/")

set(problems 0)
function(report file line what)
  message("${file}:${line}: ${what}")
  math(EXPR problems "${problems} + 1")
  set(problems ${problems} PARENT_SCOPE)
endfunction()

# allowed_<top>_<folder>: the folder itself and all that it may use, closed over.
foreach(top IN ITEMS engine viewer)
  file(STRINGS ${ROOT}/${top}/LAYERS lines REGEX "^[a-z]")
  foreach(line IN LISTS lines)
    string(REGEX MATCH "^([a-z]+):(.*)$" _ "${line}")
    set(folder ${CMAKE_MATCH_1})
    string(REPLACE " " ";" uses "${CMAKE_MATCH_2}")
    set(allowed ${top}/${folder})
    foreach(used IN LISTS uses)
      string(REGEX REPLACE "^engine/" "engine_" key "${used}")  # a name without a slash is of this file
      if(key STREQUAL used)
        set(key ${top}_${used})
      endif()
      if(used STREQUAL "engine")
        list(APPEND allowed ${engine_layers})
      elseif(DEFINED allowed_${key})
        list(APPEND allowed ${allowed_${key}})
      elseif(used)
        report(${top}/LAYERS 0 "${folder} uses ${used}, which is not above it in the file")
      endif()
    endforeach()
    list(REMOVE_DUPLICATES allowed)
    set(allowed_${top}_${folder} ${allowed})
    if(top STREQUAL "engine" AND NOT folder STREQUAL "cli")
      list(APPEND engine_layers engine/${folder})
    endif()
  endforeach()
endforeach()

file(GLOB_RECURSE sources RELATIVE ${ROOT} ${ROOT}/engine/*.h ${ROOT}/engine/*.cc ${ROOT}/viewer/*.h ${ROOT}/viewer/*.cc)
set(checked 0)
foreach(source IN LISTS sources)
  string(REGEX MATCH "^(engine|viewer)/([^/]+)/" _ ${source})
  set(top ${CMAKE_MATCH_1})
  set(folder ${CMAKE_MATCH_2})
  if(NOT DEFINED allowed_${top}_${folder})
    report(${source} 0 "${top}/${folder} is not in ${top}/LAYERS")
    continue()
  endif()
  file(READ ${ROOT}/${source} text)
  string(REGEX REPLACE "[];[]" "_" text "${text}")  # characters that split CMake lists
  string(REGEX REPLACE "\r?\n" ";" lines "${text}")
  set(number 0)
  foreach(line IN LISTS lines)
    math(EXPR number "${number} + 1")
    if(NOT line MATCHES "^ *# *include *[<\"]([^>\"]+)[>\"]")
      continue()
    endif()
    set(included ${CMAKE_MATCH_1})
    math(EXPR checked "${checked} + 1")
    if(included MATCHES "^((engine|viewer)/[a-z_]+)/")
      if(NOT CMAKE_MATCH_1 IN_LIST allowed_${top}_${folder})
        report(${source} ${number} "${top}/${folder} may not include ${included} (see ${top}/LAYERS)")
      endif()
    elseif(line MATCHES "\"" AND NOT EXISTS ${ROOT}/${included} AND NOT included MATCHES "^(imgui|backends/)")
      report(${source} ${number} "\"${included}\": own headers are included from the root, others in <>")
    endif()
    set(rules ${third_party_rules})
    while(rules)
      list(POP_FRONT rules what where)
      if(included MATCHES "${what}" AND NOT source MATCHES "${where}")
        report(${source} ${number} "<${included}> belongs only in files that match ${where}")
      endif()
    endwhile()
  endforeach()
endforeach()

if(checked EQUAL 0)
  message(FATAL_ERROR "no include found below ${ROOT}: wrong folder?")
endif()
if(problems)
  message(FATAL_ERROR "${problems} includes out of order")
endif()
message("${checked} includes, all in order")
