# GNU Scientific Library: distribution functions as a second opinion, tests only.
find_package(GSL REQUIRED)
target_link_libraries(test_${name} PRIVATE GSL::gsl)
