# Builds text files into the program. Two uses:
#
#   stk_embed(TARGET FOLDER ENDING NAMESPACE FUNCTION)   from a CMakeLists.txt: every FOLDER/*.ENDING becomes an entry of
#       the table that `std::span<const stk::text::EmbeddedFile> NAMESPACE::FUNCTION()` gives, sorted by name. The caller
#       declares that function in a header of its own.
#   cmake -D... -P embed.cmake                           what that function runs when building.
#
# What is written lies in the build folder only; nothing generated is checked in.

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE)
  file(GLOB paths ${FOLDER}/*.${ENDING})
  list(SORT paths)
  set(entries "")
  foreach(path IN LISTS paths)
    get_filename_component(name ${path} NAME_WE)
    # Bytes as numbers: no text of ours can then meet an end of a C++ literal, a CMake list mark or a limit on literals.
    file(READ ${path} hex HEX)
    string(REGEX REPLACE "([0-9a-f][0-9a-f])" "'\\\\x\\1'," bytes "${hex}")
    string(REGEX REPLACE "(('[^']*',){24})" "\\1\n    " bytes "${bytes}")
    string(APPEND entries "constexpr char text_of_${name}[] = {\n    ${bytes}'\\0'};\n")
    string(APPEND table "    {\"${name}\", {text_of_${name}, sizeof text_of_${name} - 1}},\n")
  endforeach()
  if(paths)
    set(body "constexpr stk::text::EmbeddedFile table[] = {\n${table}};\n")
    set(answer "return table;")
  else()
    set(answer "return {};")
  endif()
  file(WRITE ${OUTPUT}
       "// Written when building, from ${ENDING} files; see embed.cmake.\n"
       "#include <span>\n\n#include \"compiler/text/embedded.hpp\"\n\n"
       "namespace {\n\n${entries}${body}\n}  // namespace\n\n"
       "namespace ${NAMESPACE} {\n\n"
       "std::span<const stk::text::EmbeddedFile> ${FUNCTION}();\n"
       "std::span<const stk::text::EmbeddedFile> ${FUNCTION}() { ${answer} }\n\n"
       "}  // namespace ${NAMESPACE}\n")
  return()
endif()

set(STK_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_FILE} CACHE INTERNAL "")

function(stk_embed target folder ending namespace name)
  file(GLOB paths CONFIGURE_DEPENDS ${folder}/*.${ending})
  set(output ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp)
  # The list of files is kept beside: a file that goes must bring a new table too.
  set(list ${CMAKE_CURRENT_BINARY_DIR}/${name}.list)
  file(CONFIGURE OUTPUT ${list} CONTENT "${paths}\n")
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DFOLDER=${folder} -DENDING=${ending} -DNAMESPACE=${namespace} -DFUNCTION=${name}
            -DOUTPUT=${output} -P ${STK_EMBED_SCRIPT}
    DEPENDS ${paths} ${list} ${STK_EMBED_SCRIPT}
    VERBATIM)
  target_sources(${target} PRIVATE ${output})
endfunction()
