# Writes the controller's programs for small processors into a source file:
#   cmake -DIMAGES=a.elf|b.elf -DOBJCOPY=tool -DOUTPUT=file.cpp -P embed_images.cmake
# Without images the list is empty.
string(REPLACE "|" ";" images "${IMAGES}")
set(arrays "")
set(rows "")
set(number 0)
foreach(image IN LISTS images)
  execute_process(COMMAND ${OBJCOPY} --strip-all ${image} ${OUTPUT}.stripped
                  COMMAND_ERROR_IS_FATAL ANY)
  file(READ ${OUTPUT}.stripped bytes HEX)
  file(REMOVE ${OUTPUT}.stripped)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
  get_filename_component(name ${image} NAME_WE)
  string(REPLACE "controller_" "" name ${name})
  string(APPEND arrays "const unsigned char image_${number}[] = {${bytes}};\n")
  string(APPEND rows "    {\"${name}\", bytes_of(image_${number})},\n")
  math(EXPR number "${number} + 1")
endforeach()
file(WRITE ${OUTPUT} "// Written when the program is built.
#include \"sim/controllers/processor_image.hpp\"

namespace sim {
namespace {
template <std::size_t count>
[[maybe_unused]] std::string_view bytes_of(const unsigned char (&bytes)[count]) {
    return {reinterpret_cast<const char*>(bytes), count};
}
${arrays}}  // namespace

std::vector<ProcessorImage> embedded_processor_images() {
    return {
${rows}    };
}

}  // namespace sim
")
