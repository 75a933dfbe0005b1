# One interface target carries the warnings and the number rules of our own code.
add_library(plumbline_warnings INTERFACE)
target_compile_options(plumbline_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict> -Wconversion -Wno-sign-conversion -Wold-style-cast -Wnon-virtual-dtor
  -ffp-contract=off)
if(PLUMBLINE_WERROR)
  target_compile_options(plumbline_warnings INTERFACE -Werror)
endif()
