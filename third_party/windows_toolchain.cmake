# CMake toolchain of the windows preset and of windows_libraries.sh: Debian's mingw-w64 with POSIX threads, everything static, libraries
# from build/windows-libraries/root.
set(CMAKE_SYSTEM_NAME Windows)
set(CMAKE_SYSTEM_PROCESSOR x86_64)
set(CMAKE_SYSTEM_VERSION 10.0)
set(mingw x86_64-w64-mingw32)
set(CMAKE_C_COMPILER ${mingw}-gcc-posix)
set(CMAKE_CXX_COMPILER ${mingw}-g++-posix)
set(CMAKE_RC_COMPILER ${mingw}-windres)
set(CMAKE_AR ${mingw}-gcc-ar-posix)
set(CMAKE_RANLIB ${mingw}-gcc-ranlib-posix)

# Windows 10: the oldest that reads names as UTF-8 when the manifest asks for it.
set(flags "-D_WIN32_WINNT=0x0A00 -DFRIBIDI_LIB_STATIC -DCAIRO_WIN32_STATIC_BUILD -DFLAC__NO_DLL")
set(CMAKE_C_FLAGS_INIT "${flags}")
set(CMAKE_CXX_FLAGS_INIT "${flags}")
set(CMAKE_EXE_LINKER_FLAGS_INIT "-static")

get_filename_component(root ${CMAKE_CURRENT_LIST_DIR}/../build/windows-libraries/root ABSOLUTE)
set(CMAKE_CROSSCOMPILING_EMULATOR ${CMAKE_CURRENT_LIST_DIR}/../tests/windows/wine)
set(CMAKE_FIND_ROOT_PATH ${root} /usr/${mingw})
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_INCLUDE ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_PACKAGE ONLY)
set(ZLIB_LIBRARY /usr/${mingw}/lib/libz.a CACHE FILEPATH "the static one")
set(ENV{PKG_CONFIG_LIBDIR} ${root}/lib/pkgconfig)
set(PKG_CONFIG_ARGN --static)
# In the end of each line: a static library's needs come after it.
set(libraries "-lz -lssp -lkernel32 -luser32 -lgdi32 -lwinspool -lshell32 -lole32 -loleaut32 -luuid -lcomdlg32 -ladvapi32 -lmsimg32 -lshlwapi -lwinmm")
set(CMAKE_C_STANDARD_LIBRARIES "${libraries}" CACHE STRING "what every program is linked to")
set(CMAKE_CXX_STANDARD_LIBRARIES "${libraries}" CACHE STRING "what every program is linked to")
