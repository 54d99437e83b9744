include("${CMAKE_CURRENT_LIST_DIR}/run.cmake")
file(REMOVE_RECURSE "${WORK}")
set(prefix "${WORK}/prefix")
run("${CMAKE_COMMAND}" --install "${BUILD}" --prefix "${prefix}")
run("${CMAKE_COMMAND}" -G "${GENERATOR}" -S "${SOURCE}/consumer" -B "${WORK}/consumer" "-DCMAKE_PREFIX_PATH=${prefix}"
    "-DCMAKE_CXX_COMPILER=${CXX}" -DCMAKE_BUILD_TYPE=Release)
run("${CMAKE_COMMAND}" --build "${WORK}/consumer")
run("${WORK}/consumer/consumer")

# The same program without CMake.
file(GLOB_RECURSE pc "${prefix}/*/theca.pc")
get_filename_component(pc_dir "${pc}" DIRECTORY)
set(ENV{PKG_CONFIG_PATH} "${pc_dir}")
execute_process(COMMAND pkg-config --define-variable=prefix=${prefix} --cflags --libs theca
                OUTPUT_VARIABLE flags OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
separate_arguments(flags UNIX_COMMAND "${flags}")
run("${CXX}" "${SOURCE}/consumer/consumer.cpp" -o "${WORK}/plain" ${flags})
run("${CMAKE_COMMAND}" -E env "LD_LIBRARY_PATH=${pc_dir}/.." "${WORK}/plain")
