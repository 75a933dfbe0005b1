# What the viewer needs beyond the engine when it is compiled for a browser: from build/web (web_sources.sh), with the target names
# that the layers know. GL is the browser's, sound too; no window library.
set(web ${CMAKE_SOURCE_DIR}/build/web)
set(web_parts ${CMAKE_CURRENT_LIST_DIR}/web)

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
target_compile_definitions(plumbline_freetype PRIVATE FT2_BUILD_LIBRARY FT_CONFIG_MODULES_H="${web_parts}/freetype_modules.h"
  FT_CONFIG_OPTIONS_H="${web_parts}/freetype_options.h")
target_compile_options(plumbline_freetype PRIVATE -w -Os)

set(imgui ${web}/imgui)
add_library(plumbline_imgui STATIC ${imgui}/imgui.cpp ${imgui}/imgui_draw.cpp ${imgui}/imgui_tables.cpp ${imgui}/imgui_widgets.cpp
  ${imgui}/backends/imgui_impl_opengl3.cpp)
target_include_directories(plumbline_imgui SYSTEM PUBLIC ${imgui} ${imgui}/backends)
target_compile_definitions(plumbline_imgui PUBLIC IMGUI_IMPL_OPENGL_ES3 IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_METRICS_WINDOW
  IMGUI_DISABLE_FILE_FUNCTIONS)
target_compile_options(plumbline_imgui PRIVATE -w -Os)

file(CONFIGURE OUTPUT tiny_gltf.cc CONTENT [[
#define TINYGLTF_IMPLEMENTATION
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_PNG
#define STBI_ONLY_JPEG
#include <tiny_gltf.h>
]] @ONLY)
add_library(plumbline_tinygltf STATIC ${CMAKE_CURRENT_BINARY_DIR}/tiny_gltf.cc)
add_library(TinyGLTF::TinyGLTF ALIAS plumbline_tinygltf)
target_include_directories(plumbline_tinygltf SYSTEM PUBLIC ${web}/include ${web}/include/stb)
target_compile_definitions(plumbline_tinygltf PUBLIC TINYGLTF_NO_STB_IMAGE_WRITE)
target_compile_options(plumbline_tinygltf PRIVATE -w -Os)

# Latin, Greek, Cyrillic and the signs that panels use: the whole font would be a quarter of the page.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
find_path(INTER_FONT_DIR Inter-Regular.otf PATHS /usr/share/fonts/opentype/inter NO_CMAKE_FIND_ROOT_PATH REQUIRED
  DOC "Folder of the Inter fonts (Debian: fonts-inter)")
find_program(PLUMBLINE_FONTTOOLS fonttools NO_CMAKE_FIND_ROOT_PATH REQUIRED DOC "Subsets of fonts (Debian: fonttools)")
set(font_files)
foreach(weight IN ITEMS Regular Medium SemiBold)
  set(font ${CMAKE_BINARY_DIR}/fonts/Inter-${weight}.otf)
  add_custom_command(OUTPUT ${font}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${CMAKE_BINARY_DIR}/fonts
    COMMAND ${PLUMBLINE_FONTTOOLS} subset ${INTER_FONT_DIR}/Inter-${weight}.otf --output-file=${font}
      --unicodes=U+0020-017F,U+0192,U+0218-021B,U+02BC-02DD,U+0300-0308,U+0370-03FF,U+0400-045F,U+0490-0493,U+1E9E,U+2000-206F,U+2070-208E,U+20AC,U+2116,U+2122,U+2190-2195,U+2212,U+2215,U+2248,U+2260,U+2264,U+2265,U+25A0-25CF,U+FFFD
      --layout-features=kern --no-hinting --desubroutinize
    DEPENDS ${INTER_FONT_DIR}/Inter-${weight}.otf
    VERBATIM)
  list(APPEND font_files Inter-${weight}.otf=${font})
endforeach()

function(plumbline_viewer_dependencies)
  target_include_directories(plumbline_viewer_render SYSTEM PRIVATE ${web_parts})
  plumbline_layer_uses(plumbline_viewer_render PRIVATE TinyGLTF::TinyGLTF)
  plumbline_layer_uses(plumbline_viewer_ui PUBLIC plumbline_imgui PRIVATE Freetype::Freetype)
  plumbline_embed(plumbline_viewer_ui NAMESPACE plumbline::ui FUNCTION embeddedFont FILES ${font_files})
  target_include_directories(plumbline_viewer_app SYSTEM PRIVATE ${web}/include/stb)
  target_include_directories(plumbline_viewer_model SYSTEM PRIVATE ${web}/include/stb)
endfunction()
