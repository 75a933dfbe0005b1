# What the viewer needs beyond the engine; each package hangs, as SYSTEM, on the layers that use it.
find_package(glfw3 REQUIRED)
find_package(TinyGLTF REQUIRED)
find_package(Freetype REQUIRED)
find_path(IMGUI_INCLUDE_DIR imgui.h PATH_SUFFIXES imgui REQUIRED)
find_library(IMGUI_LIBRARY imgui REQUIRED)
find_library(STB_LIBRARY stb REQUIRED)
find_path(STB_INCLUDE_DIR stb_image_write.h PATH_SUFFIXES stb REQUIRED)
find_package(Threads REQUIRED)
if(NOT WIN32)  # its own sound, and a hidden window instead of EGL
  find_package(SDL2 REQUIRED)
endif()
find_library(SNDFILE_LIBRARY sndfile REQUIRED)
set(SNDFILE_LIBRARIES ${SNDFILE_LIBRARY})
if(WIN32)  # static: with what it reads the kinds of files by
  foreach(codec IN ITEMS vorbisenc vorbis FLAC opus ogg mp3lame mpg123)
    find_library(${codec}_LIBRARY ${codec} REQUIRED)
    list(APPEND SNDFILE_LIBRARIES ${${codec}_LIBRARY})
  endforeach()
endif()
find_path(SNDFILE_INCLUDE_DIR sndfile.h REQUIRED)
find_program(PLUMBLINE_GLAD glad REQUIRED DOC "GL loader generator (Debian: python3-glad)")

# The GL and EGL loaders are generated at build time, offline and always the same. Both write khrplatform.h, so EGL waits for GL.
set(glad_dir ${CMAKE_BINARY_DIR}/glad)
add_custom_command(
  OUTPUT ${glad_dir}/src/gl.c ${glad_dir}/include/glad/gl.h
  COMMAND ${PLUMBLINE_GLAD} --quiet --reproducible --api gl:core=3.3
    --extensions GL_ARB_clip_control,GL_EXT_texture_filter_anisotropic,GL_KHR_debug --out-path ${glad_dir} c
  COMMENT "Generating the GL loader")
set(glad_apis gl)
if(NOT WIN32)
  add_custom_command(
    OUTPUT ${glad_dir}/src/egl.c ${glad_dir}/include/glad/egl.h
    COMMAND ${PLUMBLINE_GLAD} --quiet --reproducible --api egl=1.5
      --extensions EGL_EXT_platform_base,EGL_EXT_device_base,EGL_EXT_device_enumeration,EGL_EXT_device_query,EGL_EXT_platform_device,EGL_MESA_platform_surfaceless,EGL_KHR_surfaceless_context,EGL_KHR_no_config_context
      --out-path ${glad_dir} c --loader
    DEPENDS ${glad_dir}/src/gl.c
    COMMENT "Generating the EGL loader")
  list(APPEND glad_apis egl)
endif()
foreach(api IN LISTS glad_apis)
  add_library(plumbline_glad_${api} STATIC ${glad_dir}/src/${api}.c)
  target_include_directories(plumbline_glad_${api} SYSTEM PUBLIC ${glad_dir}/include)
endforeach()
if(NOT WIN32)
  add_dependencies(plumbline_glad_egl plumbline_glad_gl)
  target_link_libraries(plumbline_glad_egl PRIVATE ${CMAKE_DL_LIBS})
endif()

# The toolkit's library holds its back ends as well; the one for GL finds its functions itself, through libdl.
add_library(plumbline_imgui INTERFACE)
target_include_directories(plumbline_imgui SYSTEM INTERFACE ${IMGUI_INCLUDE_DIR})
target_link_libraries(plumbline_imgui INTERFACE ${IMGUI_LIBRARY} Freetype::Freetype ${STB_LIBRARY} ${CMAKE_DL_LIBS})

function(plumbline_viewer_dependencies)
  if(WIN32)
    plumbline_layer_uses(plumbline_viewer_platform PRIVATE glfw)
  else()
    plumbline_layer_uses(plumbline_viewer_platform PRIVATE plumbline_glad_egl glfw SDL2::SDL2)
  endif()
  plumbline_layer_uses(plumbline_viewer_render PRIVATE plumbline_glad_gl TinyGLTF::TinyGLTF)
  plumbline_layer_uses(plumbline_viewer_model PUBLIC Threads::Threads PRIVATE ${SNDFILE_LIBRARIES})
  plumbline_layer_uses(plumbline_viewer_ui PUBLIC plumbline_imgui PRIVATE Freetype::Freetype)
  plumbline_embed(plumbline_viewer_ui NAMESPACE plumbline::ui FUNCTION embeddedFont FILES
    Inter-Regular.otf=${INTER_FONT_DIR}/Inter-Regular.otf
    Inter-Medium.otf=${INTER_FONT_DIR}/Inter-Medium.otf
    Inter-SemiBold.otf=${INTER_FONT_DIR}/Inter-SemiBold.otf)
  target_include_directories(plumbline_viewer_app SYSTEM PRIVATE ${STB_INCLUDE_DIR})
  target_include_directories(plumbline_viewer_model SYSTEM PRIVATE ${STB_INCLUDE_DIR} ${SNDFILE_INCLUDE_DIR})
endfunction()
