# Lets a text file be part of a library, so that the engine needs no file system.
#
#   embed_text(TARGET FILE SYMBOL)
#
# adds to TARGET a source with `extern const std::string_view starter::SYMBOL`, which holds the bytes
# of FILE (relative to the calling folder) and is made anew when FILE changes. The user declares it:
#
#   namespace starter { extern const std::string_view plan_schema_text; }
#
#   embed_files(TARGET TABLE FILES...)
#
# adds each file so, and a table of them by name, which `starter::TABLE()` gives as a
# std::span<const PageFile> (output/html.h).
#
# Run as a script (cmake -P) the same file writes that source.

#   join_json(OUTPUT FILES...)
#
# writes one JSON array of the JSON documents in FILES (relative to the calling folder).

#   pack_files(OUTPUT ROOT FILES...)
#
# writes one text of FILES: for each a line with its path below ROOT, a line with its size in bytes, its
# bytes and a new line.

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE AND PACK_TO)
  file(STRINGS "${PACK_LIST}" files)
  set(packed "")
  foreach(file IN LISTS files)
    cmake_path(RELATIVE_PATH file BASE_DIRECTORY "${PACK_ROOT}" OUTPUT_VARIABLE path)
    file(SIZE "${file}" size)
    string(HEX "${path}\n${size}\n" head)
    file(READ "${file}" bytes HEX)
    string(APPEND packed "${head}${bytes}0a")
  endforeach()
  file(WRITE "${PACK_TO}.hex" "${packed}")
  return()
endif()

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE AND JOIN_TO)
  file(STRINGS "${JOIN_LIST}" files)
  set(joined "")
  foreach(file IN LISTS files)
    file(READ "${file}" bytes HEX)
    if(joined)
      string(APPEND joined "2c0a")  # a comma and a new line
    endif()
    string(APPEND joined "${bytes}")
  endforeach()
  # Text with semicolons and brackets does not survive CMake lists; hexadecimal digits do.
  file(WRITE "${JOIN_TO}.hex" "5b${joined}5d")
  return()
endif()

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE)
  if(EMBED_FROM MATCHES "[.]hex$")
    file(READ "${EMBED_FROM}" bytes)
  else()
    file(READ "${EMBED_FROM}" bytes HEX)
  endif()
  # Short literals side by side are one literal to every compiler, however long the file; each byte
  # ends its own, since a hexadecimal escape would swallow a digit that follows it.
  string(LENGTH "${bytes}" digits)
  set(literals "")
  set(at 0)
  while(at LESS digits)
    string(SUBSTRING "${bytes}" ${at} 96 piece)
    string(REGEX REPLACE "(..)" "\\\\x\\1\"\"" piece "${piece}")
    string(APPEND literals "    \"${piece}\"\n")
    math(EXPR at "${at} + 96")
  endwhile()
  math(EXPR size "${digits} / 2")
  file(WRITE "${EMBED_TO}"
    "// Made from ${EMBED_NAME}; change that file.\n"
    "#include <string_view>\n\n"
    "namespace starter {\n"
    "extern const std::string_view ${EMBED_SYMBOL};\n"
    "const std::string_view ${EMBED_SYMBOL}(\n${literals}    \"\", ${size});\n"
    "}  // namespace starter\n")
  return()
endif()

set(EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE})

function(embed_text target file symbol)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/embedded/${symbol}.cpp)
  cmake_path(ABSOLUTE_PATH file BASE_DIRECTORY ${CMAKE_CURRENT_SOURCE_DIR} OUTPUT_VARIABLE text)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DEMBED_FROM=${text} -DEMBED_TO=${source} -DEMBED_NAME=${file}
            -DEMBED_SYMBOL=${symbol} -P ${EMBED_SCRIPT}
    DEPENDS ${text} ${EMBED_SCRIPT}
    COMMENT "Embedding ${file}"
    VERBATIM)
  # One literal holds the whole text; Clang warns beyond what the oldest compilers must take.
  set_source_files_properties(${source} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
  target_sources(${target} PRIVATE ${source})
endfunction()

function(join_json output)
  set(files "")
  foreach(file IN LISTS ARGN)
    cmake_path(ABSOLUTE_PATH file BASE_DIRECTORY ${CMAKE_CURRENT_SOURCE_DIR})
    list(APPEND files ${file})
  endforeach()
  list(JOIN files "\n" lines)
  file(CONFIGURE OUTPUT ${output}.list CONTENT "${lines}\n")
  add_custom_command(
    OUTPUT ${output}.hex
    COMMAND ${CMAKE_COMMAND} -DJOIN_TO=${output} -DJOIN_LIST=${output}.list -P ${EMBED_SCRIPT}
    DEPENDS ${files} ${EMBED_SCRIPT}
    COMMENT "Joining ${output}"
    VERBATIM)
endfunction()

function(pack_files output root)
  list(JOIN ARGN "\n" lines)
  file(CONFIGURE OUTPUT ${output}.list CONTENT "${lines}\n")
  add_custom_command(
    OUTPUT ${output}.hex
    COMMAND ${CMAKE_COMMAND} -DPACK_TO=${output} -DPACK_LIST=${output}.list -DPACK_ROOT=${root}
            -P ${EMBED_SCRIPT}
    DEPENDS ${ARGN} ${output}.list ${EMBED_SCRIPT}
    COMMENT "Packing ${output}"
    VERBATIM)
endfunction()

function(embed_files target table)
  set(declarations "")
  set(rows "")
  foreach(file IN LISTS ARGN)
    cmake_path(GET file FILENAME name)
    string(MAKE_C_IDENTIFIER "${table}_${name}" symbol)
    embed_text(${target} ${file} ${symbol})
    string(APPEND declarations "extern const std::string_view ${symbol};\n")
    string(APPEND rows "      {\"${name}\", ${symbol}},\n")
  endforeach()
  set(source ${CMAKE_CURRENT_BINARY_DIR}/embedded/${table}.cpp)
  file(CONFIGURE OUTPUT ${source} CONTENT
    "// Made by embed.cmake.\n#include \"output/html.h\"\n\nnamespace starter {\n${declarations}\n\
std::span<const PageFile> ${table}() {\n  static const PageFile files[] = {\n${rows}  };\n  return files;\n}\n\
}  // namespace starter\n")
  target_sources(${target} PRIVATE ${source})
endfunction()
