# One precompiled header for all layers: what most of them include, and glm.
file(GENERATE OUTPUT ${CMAKE_BINARY_DIR}/common_headers.cc CONTENT "")
add_library(plumbline_common_headers OBJECT ${CMAKE_BINARY_DIR}/common_headers.cc)
target_link_libraries(plumbline_common_headers PRIVATE plumbline_warnings plumbline_glm)
target_include_directories(plumbline_common_headers PRIVATE ${CMAKE_SOURCE_DIR})
target_precompile_headers(plumbline_common_headers PRIVATE <algorithm> <array> <cmath> <cstdint> <filesystem> <functional> <map> <memory>
  <optional> <string> <string_view> <utility> <vector> <glm/glm.hpp> <glm/gtc/quaternion.hpp>)
