# The engine's folders from quantity to browser as part of one target, without the program and what
# the program links: for processors and machines that have none of that (site/wasm,
# tests/other-processor). Only libraries that are headers alone are used, and a compiler for another
# machine must not see the system's other headers.
#
#   engine_sources(VARIABLE)
#
# lists the sources, so that options can be set by file; all but browser/club.cpp and
# browser/no_club.cpp, of which a program links one (browser/club.h).
#
#   engine_alone(TARGET SOURCES...)
#
# compiles them as part of TARGET, with the texts that the engine has in it.

include(${CMAKE_CURRENT_LIST_DIR}/embed.cmake)
set(ENGINE_FOLDER ${CMAKE_CURRENT_LIST_DIR})

function(engine_sources variable)
  set(sources "")
  foreach(folder quantity science plan process measures rules rules/catalogue suggest output browser)
    file(GLOB found CONFIGURE_DEPENDS ${ENGINE_FOLDER}/${folder}/*.cpp)
    list(APPEND sources ${found})
  endforeach()
  list(FILTER sources EXCLUDE REGEX "/(check_catalogue|club|no_club)[.]cpp$")
  set(${variable} ${sources} PARENT_SCOPE)
endfunction()

function(engine_alone target)
  set(engine ${ENGINE_FOLDER})
  set(headers ${CMAKE_CURRENT_BINARY_DIR}/headers)
  file(MAKE_DIRECTORY ${headers})
  foreach(library boost fmt kainjow nlohmann)
    if(NOT EXISTS /usr/include/${library})
      message(FATAL_ERROR "The headers of ${library} are not installed.")
    endif()
    file(CREATE_LINK /usr/include/${library} ${headers}/${library} SYMBOLIC)
  endforeach()

  target_sources(${target} PRIVATE ${ARGN})
  target_compile_features(${target} PRIVATE cxx_std_20)
  set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
  target_include_directories(${target} PRIVATE ${engine})
  target_include_directories(${target} SYSTEM PRIVATE ${headers})
  # With a fixed separator (which nothing here asks for), {fmt} leaves out all of std::locale.
  target_compile_definitions(${target} PRIVATE
    FMT_HEADER_ONLY FMT_STATIC_THOUSANDS_SEPARATOR=',' BOOST_ALL_NO_LIB)
  target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wshadow -ffp-contract=off)

  # The rules were checked when the program was built; here they are only laid in. What is not used
  # of all this the linker leaves out.
  embed_text(${target} ${engine}/plan/plan.schema.json plan_schema_text)
  embed_text(${target} ${engine}/rules/practice.schema.json practice_schema_text)
  embed_text(${target} ${engine}/rules/accepted.schema.json acceptances_schema_text)
  embed_text(${target} ${engine}/output/review.schema.json review_schema_text)
  embed_text(${target} ${engine}/output/glossary.json glossary_text)
  file(GLOB page_files CONFIGURE_DEPENDS ${engine}/output/pages/*.mustache ${engine}/output/pages/*.css)
  embed_files(${target} page_files ${page_files})
  file(GLOB rule_files CONFIGURE_DEPENDS ${engine}/rules/catalogue/*.json)
  list(FILTER rule_files EXCLUDE REGEX "/cautions[.]json$")
  set(joined_rules ${CMAKE_CURRENT_BINARY_DIR}/rules.json)
  join_json(${joined_rules} ${rule_files})
  embed_text(${target} ${joined_rules}.hex rule_catalogue_text)
  embed_text(${target} ${engine}/rules/catalogue/cautions.json caution_text)
endfunction()
