# The house's rules for every target: one standard, warnings as errors, sanitizers on request.
add_library(whichwire_rules INTERFACE)
target_compile_features(whichwire_rules INTERFACE cxx_std_20)
target_compile_options(whichwire_rules INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wnon-virtual-dtor -Woverloaded-virtual -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # gcc 12 takes `"text" + std::string` for overlapping memory (gcc bug 105651); clang judges the same code.
  target_compile_options(whichwire_rules INTERFACE -Wno-restrict)
endif()
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND WHICHWIRE_SANITIZE)
  # gcc 12 sees dangling and null pointers that are not there once the sanitizers rewrite the code.
  target_compile_options(whichwire_rules INTERFACE -Wno-maybe-uninitialized -Wno-nonnull)
endif()
if(WHICHWIRE_SANITIZE)
  target_compile_options(whichwire_rules INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(whichwire_rules INTERFACE -fsanitize=address,undefined)
endif()

# whichwire_layer(NAME): the folder's sources as one layer of the library.
function(whichwire_layer name)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  add_library(whichwire_${name} OBJECT ${sources})
  target_include_directories(whichwire_${name} PUBLIC
    $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/lib/include> $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/lib>)
  target_link_libraries(whichwire_${name} PRIVATE whichwire_rules)
  set_target_properties(whichwire_${name} PROPERTIES POSITION_INDEPENDENT_CODE ON)
  set_property(GLOBAL APPEND PROPERTY whichwire_layers ${name})
endfunction()

# whichwire_embed(TARGET FILE SYMBOL): the file's bytes as `extern const std::string_view whichwire::data::SYMBOL`.
function(whichwire_embed target file symbol)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/${symbol}.data.cpp)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${file})
  file(READ ${CMAKE_CURRENT_SOURCE_DIR}/${file} bytes)
  # A string literal may be 64 KiB at most by the standard's own count, so long files are cut into pieces.
  string(LENGTH "${bytes}" length)
  set(literal "")
  set(at 0)
  while(at LESS length)
    string(SUBSTRING "${bytes}" ${at} 8000 piece)
    string(APPEND literal "R\"~~~(${piece})~~~\"\n")
    math(EXPR at "${at} + 8000")
  endwhile()
  file(CONFIGURE OUTPUT ${out} @ONLY CONTENT
"#include <string_view>
namespace whichwire::data {
extern const std::string_view @symbol@;
const std::string_view @symbol@ = @literal@;
}
")
  # The pieces become one literal again, longer than the standard's minimum; both our compilers take it.
  set_source_files_properties(${out} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
  target_sources(${target} PRIVATE ${out})
endfunction()

# whichwire_embed_digest(TARGET FILE SYMBOL): the file's SHA-256 in base64 as `whichwire::data::SYMBOL`, as a Content
# Security Policy names what a page may run. Source: CSP Level 3, 2.3.1; RFC 4648, 4.
function(whichwire_embed_digest target file symbol)
  set(digits ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/)
  file(SHA256 ${CMAKE_CURRENT_SOURCE_DIR}/${file} hex)
  set(hex ${hex}00)  # 33 bytes: the last digit of base64 is of the padding
  set(base64 "")
  foreach(at RANGE 0 60 6)
    string(SUBSTRING ${hex} ${at} 6 three_bytes)
    math(EXPR number "0x${three_bytes}")
    foreach(shift 18 12 6 0)
      math(EXPR digit "(${number} >> ${shift}) & 63")
      string(SUBSTRING ${digits} ${digit} 1 letter)
      string(APPEND base64 ${letter})
    endforeach()
  endforeach()
  string(SUBSTRING ${base64} 0 43 base64)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/${symbol}.data.cpp)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${file})
  file(CONFIGURE OUTPUT ${out} @ONLY CONTENT
"#include <string_view>
namespace whichwire::data {
extern const std::string_view @symbol@;
const std::string_view @symbol@ = \"@base64@=\";
}
")
  target_sources(${target} PRIVATE ${out})
endfunction()

# whichwire_test(NAME LIBS…): the folder's test sources as one doctest program.
function(whichwire_test name)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  if(NOT sources)
    return()
  endif()
  add_executable(test_${name} ${sources})
  target_link_libraries(test_${name} PRIVATE testing whichwire whichwire_rules ${ARGN})
  target_include_directories(test_${name} PRIVATE ${PROJECT_SOURCE_DIR}/lib)
  add_test(NAME ${name} COMMAND test_${name})
endfunction()
