find_package(PkgConfig REQUIRED)
pkg_check_modules(LIBZIP REQUIRED IMPORTED_TARGET libzip)
pkg_check_modules(XLSXWRITER REQUIRED IMPORTED_TARGET xlsxwriter)
target_link_libraries(test_${name} PRIVATE lobewise_survey yaml-cpp PkgConfig::LIBZIP PkgConfig::XLSXWRITER)
