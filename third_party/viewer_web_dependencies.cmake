# What the viewer needs beyond the engine when it is compiled for a browser: from build/web (web_sources.sh), with the target names
# that the layers know. GL is the browser's, sound too; no window library.
set(web ${CMAKE_SOURCE_DIR}/build/web)
set(web_parts ${CMAKE_CURRENT_LIST_DIR}/web)

set(imgui ${web}/imgui)
add_library(plumbline_imgui STATIC ${imgui}/imgui.cpp ${imgui}/imgui_draw.cpp ${imgui}/imgui_tables.cpp ${imgui}/imgui_widgets.cpp)
target_include_directories(plumbline_imgui SYSTEM PUBLIC ${imgui})
target_compile_definitions(plumbline_imgui PUBLIC IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_METRICS_WINDOW
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

function(plumbline_viewer_dependencies)
  target_include_directories(plumbline_viewer_render SYSTEM PRIVATE ${web_parts})
  plumbline_layer_uses(plumbline_viewer_render PRIVATE TinyGLTF::TinyGLTF)
  plumbline_layer_uses(plumbline_viewer_ui PUBLIC plumbline_imgui PRIVATE Freetype::Freetype)
  target_include_directories(plumbline_viewer_app SYSTEM PRIVATE ${web}/include/stb)
  target_include_directories(plumbline_viewer_model SYSTEM PRIVATE ${web}/include/stb)
endfunction()
set_target_properties(plumbline_imgui plumbline_tinygltf PROPERTIES UNITY_BUILD OFF)
