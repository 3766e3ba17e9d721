#pragma once
// The targets, one function each; see the files of their names.

#include <string_view>

namespace lobewise::fuzz {

void api(std::string_view bytes);
void archive(std::string_view bytes);
void door(std::string_view bytes);
void enquiry(std::string_view bytes);
void list(std::string_view bytes);
void load_log(std::string_view bytes);
void mapping(std::string_view bytes);
void quantity(std::string_view bytes);
void range(std::string_view bytes);
void slice(std::string_view bytes);
void store_file(std::string_view bytes);
void store_import(std::string_view bytes);
void text(std::string_view bytes);
void workbook(std::string_view bytes);

}  // namespace lobewise::fuzz
