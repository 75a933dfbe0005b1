# The dependencies of what is compiled by em++, from the folder that web_sources.sh prepares; the same target names as the native
# ones, so that the layers notice nothing.
set(web ${CMAKE_SOURCE_DIR}/build/web)
if(NOT EXISTS ${web}/include)
  message(FATAL_ERROR "no ${web}: run third_party/web_sources.sh first")
endif()
add_compile_options(-fwasm-exceptions)
add_link_options(-fwasm-exceptions -sALLOW_MEMORY_GROWTH=1)
if(NOT PLUMBLINE_VIEWER)
  # Node's file system as it is; compiled at once, since this em++ would ask Node's fetch() for a file.
  add_link_options(-sNODERAWFS=1 -sEXIT_RUNTIME=1 -sWASM_ASYNC_COMPILATION=0)
endif()
include_directories(SYSTEM ${web}/include)

add_library(fmt::fmt INTERFACE IMPORTED)
target_compile_definitions(fmt::fmt INTERFACE FMT_HEADER_ONLY)
add_library(tomlplusplus::tomlplusplus INTERFACE IMPORTED)
add_library(plumbline_glm INTERFACE)
add_library(plumbline_eigen INTERFACE)

add_library(pugixml STATIC ${web}/pugixml/src/pugixml.cpp)
add_library(pugixml::pugixml ALIAS pugixml)

# Only what local coordinates need; the warnings are others'.
set(geographiclib ${web}/geographiclib/src)
add_library(plumbline_geographiclib STATIC ${geographiclib}/Geocentric.cpp ${geographiclib}/LocalCartesian.cpp
  ${geographiclib}/Math.cpp ${geographiclib}/Geodesic.cpp ${geographiclib}/GeodesicLine.cpp)
target_compile_options(plumbline_geographiclib PRIVATE -w)

# Only what unpacking needs.
set(zlib ${web}/zlib)
add_library(zlib STATIC ${zlib}/adler32.c ${zlib}/crc32.c ${zlib}/inffast.c ${zlib}/inflate.c ${zlib}/inftrees.c ${zlib}/zutil.c)
target_include_directories(zlib SYSTEM PUBLIC ${zlib})
target_compile_options(zlib PRIVATE -w)
add_library(ZLIB::ZLIB ALIAS zlib)
