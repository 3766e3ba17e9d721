#include "engine/api/load_log_text.h"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>
#include <vector>

namespace lobewise::api {
namespace {

std::string_view trim(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '"'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

/// The cell before the delimiter; the rest stays in `line`.
std::string_view take_cell(std::string_view& line, char delimiter) {
  const std::size_t end = std::min(line.find(delimiter), line.size());
  const std::string_view cell = line.substr(0, end);
  line.remove_prefix(std::min(end + 1, line.size()));
  return trim(cell);
}

bool read_number(std::string_view cell, double& value) {
  if (!cell.empty() && cell.front() == '+') cell.remove_prefix(1);
  const bool comma = cell.find(',') != std::string_view::npos;
  const auto result =
      fast_float::from_chars_advanced(cell.data(), cell.data() + cell.size(), value,
                                      fast_float::parse_options{fast_float::chars_format::general, comma ? ',' : '.'});
  return result.ec == std::errc() && result.ptr == cell.data() + cell.size();
}

/// hh:mm:ss with or without a fraction -> seconds.
bool read_clock(std::string_view cell, double& seconds) {
  double total = 0;
  for (int part = 0; part < 3; ++part) {
    double x = 0;
    const std::string_view piece = take_cell(cell, ':');
    if (!read_number(piece, x) || x < 0 || x >= (part == 0 ? 25 : 61)) return false;
    total = total * 60 + x;
  }
  seconds = total;
  return cell.empty();
}

/// Days from 1970-01-01 of the Gregorian calendar. Source: Hinnant, chrono-compatible low-level date algorithms.
double days_from_civil(int year, int month, int day) {
  year -= month <= 2;
  const int era = (year >= 0 ? year : year - 399) / 400;
  const int of_era = year - era * 400;
  const int of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  return era * 146097.0 + (of_era * 365 + of_era / 4 - of_era / 100 + of_year) - 719468;
}

/// 2024-05-01T12:00:00.5, also with a blank instead of T; a zone at the end is taken as the same all the way.
bool read_date(std::string_view cell, double& seconds) {
  if (cell.size() < 19 || cell[4] != '-' || cell[7] != '-') return false;
  double y = 0, m = 0, d = 0;
  if (!read_number(cell.substr(0, 4), y) || !read_number(cell.substr(5, 2), m) || !read_number(cell.substr(8, 2), d))
    return false;
  if (m < 1 || m > 12 || d < 1 || d > 31) return false;
  std::string_view clock = cell.substr(11);
  if (const std::size_t zone = clock.find_first_of("Z+-"); zone != std::string_view::npos)
    clock = clock.substr(0, zone);
  double of_day = 0;
  if (!read_clock(clock, of_day)) return false;
  seconds = 86400 * days_from_civil(static_cast<int>(y), static_cast<int>(m), static_cast<int>(d)) + of_day;
  return true;
}

std::string lower(std::string_view text) {
  std::string copy(text);
  std::transform(copy.begin(), copy.end(), copy.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return copy;
}

/// Name and unit of a header cell: `Torque [N·m]`, `Torque (N·m)`, `I/A`, `Power kW`.
struct Column {
  std::string_view name, unit;
};
Column split_header(std::string_view cell) {
  const auto cut = [&](std::size_t open, std::size_t close) {
    return Column{trim(cell.substr(0, open)), trim(cell.substr(open + 1, close - open - 1))};
  };
  if (const std::size_t open = cell.find_last_of("[("); open != std::string_view::npos)
    if (const std::size_t close = cell.find_first_of("])", open); close != std::string_view::npos)
      return cut(open, close);
  if (const std::size_t slash = cell.find('/'); slash != std::string_view::npos) return cut(slash, cell.size());
  if (const std::size_t blank = cell.rfind(' '); blank != std::string_view::npos) return cut(blank, cell.size());
  return {cell, {}};
}

std::optional<double> unit_factor(std::string_view unit, Quantity quantity) {
  if (unit.empty()) return std::nullopt;
  const auto value = parse_quantity(fmt::format("1 {}", unit), quantity, "");
  return value ? std::optional<double>(*value) : std::nullopt;
}

}  // namespace

Result<LogFormat> read_log_header(std::string_view line, std::string_view first_row, const LogColumns& columns) {
  if (line.starts_with("\xEF\xBB\xBF")) line.remove_prefix(3);
  LogFormat format;
  format.delimiter = line.find(';') != std::string_view::npos    ? ';'
                     : line.find('\t') != std::string_view::npos ? '\t'
                                                                 : ',';
  std::vector<Column> found;
  std::string names;
  for (std::string_view rest = line; !rest.empty();) {
    const std::string_view cell = take_cell(rest, format.delimiter);
    found.push_back(split_header(cell));
    names += (names.empty() ? "" : ", ") + std::string(cell);
  }
  const auto matches = [](const Column& column, const std::string& name) {
    return lower(column.name) == lower(name) || lower(column.name) + " [" + lower(column.unit) + "]" == lower(name);
  };
  Errors errors;
  const auto named = [&](const std::string& name, const char* path) -> std::optional<std::size_t> {
    for (std::size_t i = 0; i < found.size(); ++i)
      if (matches(found[i], name)) return i;
    errors.push_back(input_error(path, name, fmt::format("There is no such column. Columns found: {}.", names)));
    return std::nullopt;
  };

  std::optional<std::size_t> time, value;
  if (!columns.time.empty()) {
    time = named(columns.time, "log.time");
  } else {
    for (std::size_t i = 0; i < found.size() && !time; ++i)
      if (unit_factor(found[i].unit, Quantity::time) || lower(found[i].name).find("time") != std::string::npos ||
          lower(found[i].name).find("date") != std::string::npos)
        time = i;
    if (!time)
      errors.push_back(input_error(
          "log.time", std::string(line.substr(0, 200)),
          fmt::format("No time column: name one `Time [s]`, or say which it is. Columns found: {}.", names)));
  }
  const auto signal_of = [&](const Column& column) -> std::optional<std::pair<demand::Signal, double>> {
    if (const auto f = unit_factor(column.unit, Quantity::torque)) return std::pair{demand::Signal::torque, *f};
    if (const auto f = unit_factor(column.unit, Quantity::current)) return std::pair{demand::Signal::current, *f};
    if (const auto f = unit_factor(column.unit, Quantity::power)) return std::pair{demand::Signal::power, *f};
    return std::nullopt;
  };
  if (!columns.value.empty()) {
    value = named(columns.value, "log.value");
  } else {
    for (std::size_t i = 0; i < found.size() && !value; ++i)
      if (i != time && signal_of(found[i])) value = i;
    if (!value)
      errors.push_back(input_error("log.value", std::string(line.substr(0, 200)),
                                   fmt::format("No column with a unit of torque, current or power, such as `Torque "
                                               "[N·m]`, `Current [A]`, `Power [kW]`. Columns found: {}.",
                                               names)));
  }
  if (value) {
    if (const auto signal = signal_of(found[*value])) {
      format.value_column = *value;
      format.signal = signal->first;
      format.value_factor = signal->second;
    } else {
      errors.push_back(
          input_error("log.value", std::string(found[*value].name),
                      "Its heading must carry a unit of torque, current or power, such as `[N·m]`, `[A]` or `[kW]`."));
    }
  }
  if (time) {
    format.time_column = *time;
    if (const auto factor = unit_factor(found[*time].unit, Quantity::time)) {
      format.time_factor = *factor;
    } else {
      std::string_view rest = first_row, cell;
      for (std::size_t i = 0; i <= *time; ++i) cell = take_cell(rest, format.delimiter);
      double seconds = 0;
      if (read_date(cell, seconds))
        format.time = LogFormat::Time::date;
      else if (read_clock(cell, seconds))
        format.time = LogFormat::Time::clock;
      else
        errors.push_back(input_error("log.time", std::string(cell),
                                     "Times need a unit in the heading, such as `Time [s]`, or must read like 12:30:05 "
                                     "or 2024-05-01 12:30:05."));
    }
  }
  if (!errors.empty()) return errors;
  return format;
}

LogRows::Row LogRows::parse(std::string_view line, double& time, double& value) {
  if (trim(line).empty()) return Row::empty;
  const std::size_t last = std::max(format_.time_column, format_.value_column);
  std::string_view time_cell, value_cell;
  for (std::size_t i = 0; i <= last; ++i) {
    const std::string_view cell = take_cell(line, format_.delimiter);
    if (i == format_.time_column) time_cell = cell;
    if (i == format_.value_column) value_cell = cell;
  }
  if (!read_number(value_cell, value)) return Row::bad;
  value *= format_.value_factor;
  switch (format_.time) {
    case LogFormat::Time::number:
      if (!read_number(time_cell, time)) return Row::bad;
      time *= format_.time_factor;
      break;
    case LogFormat::Time::date:
      if (!read_date(time_cell, time)) return Row::bad;
      break;
    case LogFormat::Time::clock: {
      double clock = 0;
      if (!read_clock(time_cell, clock)) return Row::bad;
      if (clock < last_clock_ - 43200) day_ += 86400;  // past midnight
      last_clock_ = clock;
      time = day_ + clock;
      break;
    }
  }
  return Row::good;
}

}  // namespace lobewise::api
