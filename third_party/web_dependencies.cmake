# The dependencies of what is compiled by em++, from the folder that web_sources.sh prepares; the same target names as the native
# ones, so that the layers notice nothing.
set(web ${CMAKE_SOURCE_DIR}/build/web)
if(NOT EXISTS ${web}/include)
  message(FATAL_ERROR "no ${web}: run third_party/web_sources.sh first")
endif()
add_compile_options(-fwasm-exceptions)
add_link_options(-fwasm-exceptions -sALLOW_MEMORY_GROWTH=1)
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

# Of FreeType what draws the outlines of the embedded font (CFF) with light hinting.
set(freetype ${web}/freetype)
set(freetype_sources)
foreach(source IN ITEMS base/ftbase base/ftbitmap base/ftdebug base/ftglyph base/ftinit base/ftsystem cff/cff psaux/psaux pshinter/pshinter psnames/psnames
    sfnt/sfnt smooth/smooth)
  list(APPEND freetype_sources ${freetype}/src/${source}.c)
endforeach()
add_library(plumbline_freetype STATIC ${freetype_sources})
add_library(Freetype::Freetype ALIAS plumbline_freetype)
target_include_directories(plumbline_freetype SYSTEM PUBLIC ${freetype}/include)
target_compile_definitions(plumbline_freetype PRIVATE FT2_BUILD_LIBRARY FT_CONFIG_MODULES_H="${CMAKE_CURRENT_LIST_DIR}/web/freetype_modules.h"
  FT_CONFIG_OPTIONS_H="${CMAKE_CURRENT_LIST_DIR}/web/freetype_options.h")
target_compile_options(plumbline_freetype PRIVATE -w -Os)

# Latin, Greek, Cyrillic and the signs that panels use: the whole font would be a quarter of the page.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
find_path(INTER_FONT_DIR Inter-Regular.otf PATHS /usr/share/fonts/opentype/inter NO_CMAKE_FIND_ROOT_PATH REQUIRED
  DOC "Folder of the Inter fonts (Debian: fonts-inter)")
find_program(PLUMBLINE_FONTTOOLS fonttools NO_CMAKE_FIND_ROOT_PATH REQUIRED DOC "Subsets of fonts (Debian: fonttools)")
set(PLUMBLINE_WEB_FONTS)
set(web_fonts)
foreach(weight IN ITEMS Regular Medium SemiBold)
  set(font ${CMAKE_BINARY_DIR}/fonts/Inter-${weight}.otf)
  add_custom_command(OUTPUT ${font}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${CMAKE_BINARY_DIR}/fonts
    COMMAND ${PLUMBLINE_FONTTOOLS} subset ${INTER_FONT_DIR}/Inter-${weight}.otf --output-file=${font}
      --unicodes=U+0020-017F,U+0192,U+0218-021B,U+02BC-02DD,U+0300-0308,U+0370-03FF,U+0400-045F,U+0490-0493,U+1E9E,U+2000-206F,U+2070-208E,U+20AC,U+2116,U+2122,U+2190-2195,U+2212,U+2215,U+2248,U+2260,U+2264,U+2265,U+25A0-25CF,U+FFFD
      --layout-features=kern --no-hinting --desubroutinize
    DEPENDS ${INTER_FONT_DIR}/Inter-${weight}.otf
    VERBATIM)
  list(APPEND PLUMBLINE_WEB_FONTS Inter-${weight}.otf=${font})
  list(APPEND web_fonts ${font})
endforeach()
add_custom_target(plumbline_web_fonts DEPENDS ${web_fonts})  # a rule is known where a target of its folder needs it
# Their sources name their own parts alike.
set_target_properties(pugixml plumbline_geographiclib zlib plumbline_freetype PROPERTIES UNITY_BUILD OFF)
