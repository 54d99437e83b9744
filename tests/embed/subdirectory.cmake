include("${CMAKE_CURRENT_LIST_DIR}/run.cmake")
file(REMOVE_RECURSE "${WORK}")
# Nothing but Boost and Eigen: the optional packages are hidden from the configuration.
run("${CMAKE_COMMAND}" -G "${GENERATOR}" -S "${SOURCE}/subproject" -B "${WORK}" "-DTHECA_ROOT=${ROOT}"
    "-DCMAKE_CXX_COMPILER=${CXX}"
    -DCMAKE_BUILD_TYPE=None -DCMAKE_CXX_FLAGS=-O0 -DTHECA_BUILD_DESIGN_FILE=OFF -DTHECA_BUILD_LUMINAIRE_CHOICE=OFF
    -DCMAKE_DISABLE_FIND_PACKAGE_doctest=ON -DCMAKE_DISABLE_FIND_PACKAGE_benchmark=ON
    -DCMAKE_DISABLE_FIND_PACKAGE_pybind11=ON)
run("${CMAKE_COMMAND}" --build "${WORK}" --target consumer --parallel 2)
run("${WORK}/consumer")
