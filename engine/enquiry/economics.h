#pragma once
// What money decides: prices, stoppages, horizon. Everything may be left out; a range may stand wherever a figure is
// not known exactly. All money in one currency.

#include <optional>
#include <string>

#include "engine/base/span.h"
#include "engine/model/describe.h"

namespace lobewise::enquiry {

struct Economics {
  std::string currency;                   ///< word shown behind amounts; the range's own when empty
  std::optional<double> exchange_rate;    ///< of the range's currency in this one
  std::optional<int> years;               ///< horizon
  std::optional<Span> discount_rate;      ///< real, per year
  std::string country;                    ///< name or ISO 3166 alpha-3 code, for the carbon of its grid
  std::optional<Span> energy_price;       ///< [money/J]
  std::optional<Span> energy_growth;      ///< real, per year
  std::optional<Span> grid_carbon;        ///< [kg CO2/J]
  std::optional<Span> carbon_price;       ///< [money/kg CO2]
  std::optional<Span> stop_cost;          ///< lost production per hour of standstill
  std::optional<Span> stops_per_year;     ///< stoppages the present drive causes
  std::optional<Span> repair_time;        ///< standstill of one of them, waiting included [s]
  std::optional<Span> repair_cost;        ///< parts and work of one of them
  std::optional<bool> spare_on_shelf;     ///< of the present unit
  std::optional<bool> candidate_spare;    ///< one of the new ones is put on the shelf
  std::optional<Span> spare_wait;         ///< until a part comes when there is none [s]
  std::optional<Span> labour_rate;        ///< per hour
  std::optional<Span> upkeep_time;        ///< of the present drive, per year [s]
  std::optional<Span> lubricant_cost;     ///< of the present drive, per year
  std::optional<bool> must_be_replaced;   ///< the present unit cannot stay
  std::optional<Span> replacement_price;  ///< quote for a new unit of the present kind
  std::optional<Span> replacement_delivery;
  std::optional<Span> candidate_price;  ///< quote that rules over the range's price, without motor
  std::optional<Span> candidate_delivery;
  std::optional<Span> installation;  ///< of the candidate: work, crane, alignment
  std::optional<Span> adapters;      ///< plates, couplings, guards
  std::optional<Span> motor_price;   ///< of a new motor, when the old one does not stay
};

}  // namespace lobewise::enquiry
