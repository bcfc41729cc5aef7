# Writes the TOML files of the library and of the bundled scenarios and suites into a source file, as
# raw strings.
# Run as a script, so that a changed file is embedded again by the next build:
#   cmake -DFOLDER=.../sim -DOUTPUT=... -P embed.cmake
function(append_entries text_variable function_name folder)
  file(GLOB files ${FOLDER}/${folder}/*.toml)
  list(SORT files)
  set(text "${${text_variable}}const std::vector<LibraryEntry>& ${function_name}() {\n")
  string(APPEND text "    static const std::vector<LibraryEntry> entries = {\n")
  foreach(file ${files})
    get_filename_component(name ${file} NAME_WE)
    file(READ ${file} content)
    string(APPEND text
      "        {\"${name}\", \"sim/${folder}/${name}.toml\", R\"toml(${content})toml\"},\n")
  endforeach()
  string(APPEND text "    };\n    return entries;\n}\n")
  set(${text_variable} "${text}" PARENT_SCOPE)
endfunction()

set(text "#include \"sim/library/library.hpp\"\n#include \"sim/suites/bundled_suites.hpp\"\n\nnamespace sim {\n")
append_entries(text library_compressors library/compressors)
append_entries(text library_supplies library/supplies)
append_entries(text bundled_scenarios scenarios)
append_entries(text bundled_suites suites/bundled)
file(WRITE ${OUTPUT} "${text}}  // namespace sim\n")
