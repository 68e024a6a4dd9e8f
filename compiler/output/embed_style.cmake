# Writes the style sheet INPUT into OUTPUT as a C++ function named FUNCTION (see output/html_parts.h). Run at build time,
# with cmake -P.
file(READ "${INPUT}" text)
string(FIND "${text}" ")curb_style\"" clash)
if(NOT clash EQUAL -1)
  message(FATAL_ERROR "${INPUT} holds the delimiter of the string that should hold it")
endif()
get_filename_component(name "${INPUT}" NAME)
file(WRITE "${OUTPUT}.new"
  "// Generated from output/${name} by output/embed_style.cmake.\n"
  "#include \"output/html_parts.h\"\n\n"
  "namespace curbstop::output {\n\n"
  "std::string_view ${FUNCTION}() { return R\"curb_style(${text})curb_style\"; }\n\n"
  "} // namespace curbstop::output\n")
file(RENAME "${OUTPUT}.new" "${OUTPUT}")
