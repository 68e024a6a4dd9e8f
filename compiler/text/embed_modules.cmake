# Writes the .curb files of FOLDER into OUTPUT as C++ (see text/embedded_modules.h). Run at build time, with cmake -P.
file(GLOB modules "${FOLDER}/*.curb")
set(texts "")
set(table "")
set(count 0)
foreach(module IN LISTS modules)
  get_filename_component(name "${module}" NAME_WE)
  file(READ "${module}" text)
  string(FIND "${text}" ")curb_text\"" clash)
  if(NOT clash EQUAL -1)
    message(FATAL_ERROR "${module} holds the delimiter of the string that should hold it")
  endif()
  string(APPEND texts "constexpr std::string_view text_${count} = R\"curb_text(${text})curb_text\";\n")
  string(APPEND table "    EmbeddedModule{\"${name}\", text_${count}},\n")
  math(EXPR count "${count} + 1")
endforeach()
file(WRITE "${OUTPUT}.new"
  "// Generated from stdlib/ by text/embed_modules.cmake.\n"
  "#include \"text/embedded_modules.h\"\n\n"
  "#include <array>\n\n"
  "namespace curbstop::text {\n"
  "namespace {\n"
  "${texts}"
  "constexpr std::array<EmbeddedModule, ${count}> modules{{\n${table}}};\n"
  "} // namespace\n\n"
  "std::span<const EmbeddedModule> embedded_stdlib() { return modules; }\n\n"
  "} // namespace curbstop::text\n")
file(RENAME "${OUTPUT}.new" "${OUTPUT}")
