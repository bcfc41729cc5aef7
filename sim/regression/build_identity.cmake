# Writes the source file of build_identity(): cmake -DROOT=... -DVERSION=... -DBUILT_WITH=...
# -DOUTPUT=... -P build_identity.cmake
file(GLOB_RECURSE sources RELATIVE ${ROOT}
     ${ROOT}/firmware/*.cpp ${ROOT}/firmware/*.hpp
     ${ROOT}/plant_models/*.cpp ${ROOT}/plant_models/*.hpp
     ${ROOT}/sim/*.cpp ${ROOT}/sim/*.hpp ${ROOT}/sim/*.toml)
list(SORT sources)
set(all "${BUILT_WITH}\n")
foreach(source IN LISTS sources)
  file(SHA256 ${ROOT}/${source} hash)
  string(APPEND all "${source} ${hash}\n")
endforeach()
string(SHA256 hash "${all}")
string(SUBSTRING ${hash} 0 12 hash)
file(WRITE ${OUTPUT} "#include \"sim/regression/build_identity.hpp\"

namespace sim {

std::string_view build_identity() {
    return \"${VERSION}+${hash}\";
}

}  // namespace sim
")
